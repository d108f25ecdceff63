import { describe, expect, it } from 'vitest';
import type { Item } from '../src/display';
import { LIGHT } from '../src/palette';
import { panelSheet } from '../src/panelSheet';
import { toSvg } from '../src/svg';
import { bank, dataFor, frame, panel, section } from './fixtures';

const draw = (input = panel(), change = {}) => panelSheet(input, dataFor(input), frame(change));
const of = <K extends Item['kind']>(items: readonly Item[], kind: K) =>
  items.filter((i): i is Extract<Item, { kind: K }> => i.kind === kind);

describe('panelSheet', () => {
  it('draws each flowing tube as one stroke of water', () => {
    const sheet = draw();
    // 8 tubes of which one in each bank is blocked
    expect(of(sheet.items, 'water')).toHaveLength(6);
    expect(sheet.tubes).toHaveLength(8);
  });

  it('stretches across the tubes only until they can be told apart', () => {
    const input = panel([section('A', { banks: [bank('A1', { length_m: 20 })], handovers: [] })]);
    const sheet = draw(input);
    expect(sheet.scale.v * 0.1).toBeCloseTo(12, 6);
    expect(sheet.scale.u).toBeLessThan(sheet.scale.v);
    const even = draw(input, { trueScale: true });
    expect(even.scale.u).toBe(even.scale.v);
  });

  it('stays within its frame', () => {
    const sheet = draw();
    for (const t of sheet.tubes)
      for (const [x, y] of [t.from, t.to]) {
        expect(x).toBeGreaterThanOrEqual(100 - 1e-9);
        expect(x).toBeLessThanOrEqual(740 + 1e-9);
        expect(y).toBeGreaterThanOrEqual(80 - 1e-9);
        expect(y).toBeLessThanOrEqual(350 + 1e-9);
      }
  });

  it('lets share decide the length of a bar: even ends in the middle', () => {
    const input = panel([section('A', { banks: [bank('A1', { count: 1 })], handovers: [] })]);
    const data = dataFor(input);
    const bars = (share: number) => {
      const tubes = data.tubes.map((t) => ({ ...t, share }));
      const sheet = panelSheet(input, { ...data, tubes }, frame({ mode: 'share' }));
      const bar = of(sheet.items, 'polyline').find((p) => p.layer === 'water')!;
      const xs = bar.points.map((p) => p[0]);
      const [tube] = sheet.tubes;
      return { part: (Math.max(...xs) - Math.min(...xs)) / (tube.to[0] - tube.from[0]), fill: bar.fill };
    };
    expect(bars(1).part).toBeCloseTo(0.5, 9);
    expect(bars(0.8).part).toBeCloseTo(0.4, 9);
    expect(bars(0.8).fill).toBe('sheet');
    expect(bars(1.2).fill).toBe('ink');
  });

  it('tells every header end, open or not', () => {
    const { ends } = draw();
    expect(ends).toHaveLength(8);
    const open = ends.filter((e) => e.open).map((e) => `${e.bank} ${e.header} ${e.end}`);
    expect(open).toEqual(['A1 supply first', 'A1 gather last', 'A2 supply first', 'A2 gather last']);
  });

  it('offers a place for the length and the number of tubes, but no length of a coil', () => {
    const ids = draw().anchors.map((a) => a.id);
    expect(ids).toEqual(expect.arrayContaining(['length', 'drag-length', 'count', 'drag-count']));
    const coil = bank('A1', {
      kind: 'coil',
      coil: { inner_m: 0.3, outer_m: 1, turns: 12 },
      pitch_m: 1.1,
      length_m: 1,
      shift_m: 0.5,
    });
    const coils = draw(panel([section('A', { banks: [coil], handovers: [], angle_deg: 90 })]));
    expect(coils.anchors.map((a) => a.id)).not.toContain('length');
  });

  it('shows the reference as dashed lines', () => {
    const ghost = panel([section('A', { banks: [bank('A1', { length_m: 2 })], handovers: [] })]);
    const sheet = draw(panel(), { ghost });
    const lines = of(sheet.items, 'line').filter((l) => l.layer === 'ghost');
    expect(lines.length).toBeGreaterThan(3);
    for (const line of lines) expect(line.dash).toBeDefined();
  });

  it('looks as it did', () => {
    const sheet = draw();
    expect(
      toSvg(sheet.items, {
        width: 800,
        height: 400,
        palette: LIGHT,
        title: 'Panel',
        description: 'Two passes of four',
      }),
    ).toMatchSnapshot();
  });
});
