import DxfParser from 'dxf-parser';
import { describe, expect, it } from 'vitest';
import { buildPanel } from '../src/buildPanel';
import { BUILD_LAYERS, type BuildDrawing, buildSheet, PAPER_WIDTH } from '../src/buildPlan';
import { cuttingBars } from '../src/cuttingBars';
import { toDxf } from '../src/dxf';
import { headerJig } from '../src/headerJig';
import { loopSchematic } from '../src/loopSchematic';
import { PRINT } from '../src/palette';
import { supportPlan } from '../src/supportPlan';
import { toSvg } from '../src/svg';

const length = (v: number): string => `${v.toFixed(3)} m`;
const small = (v: number): string => `${(v * 1000).toFixed(1)} mm`;

/** Ten tubes of 6 m at 70 mm; headers at both ends. */
const tubes = Array.from({ length: 10 }, (_, i) => ({
  from: [0, i * 0.07] as const,
  to: [6, i * 0.07] as const,
  outside_m: 0.0213,
}));
const compass = ['N', 'E', 'S', 'W'] as const;

const panel = buildPanel({
  id: 'panel',
  title: 'Panel é',
  banks: [
    {
      name: 'A1',
      tubes,
      headers: [
        {
          from: [-0.03, -0.035],
          to: [-0.03, 0.665],
          outside_m: 0.048,
          label: 'supply',
          ends: [
            { at: [-0.03, -0.035], open: true, name: 'first' },
            { at: [-0.03, 0.665], open: false, name: 'last' },
          ],
        },
      ],
      pitch_m: 0.07,
      length_m: 6,
    },
  ],
  handovers: [],
  compass,
  length,
  small,
});

const header = headerJig({
  id: 'header',
  title: 'Header',
  tees: 18,
  pitch_m: 0.0762,
  takeOff_m: 0.0122555,
  socket_m: 0.022225,
  leadIn_m: 0.1524,
  headerOutside_m: 0.033401,
  branchOutside_m: 0.021336,
  branchTakeOff_m: 0.018288,
  teeLabel: 'Reducing tee, 1 × 1/2 in',
  pipeLabel: 'sch 40, 1 in',
  open: ['first'],
  small,
  length,
});

const supports = supportPlan({
  id: 'supports',
  title: 'Supports',
  banks: [{ name: 'A1', tubes, headers: [], lines_m: [0.15, 1.1, 2.05], member_m: 0.8 }],
  compass,
  length,
});

const loop = loopSchematic({
  id: 'loop',
  title: 'Loop',
  before: [
    { name: 'Skimmer', kind: 'suction', note: '' },
    { name: 'Pump', kind: 'pump', note: '1 hp' },
    { name: 'Filter', kind: 'filter', note: 'sand' },
    { name: 'Bypass', kind: 'bypass', note: '' },
  ],
  through: [
    { name: 'Feed', kind: 'pipe', note: '12 m' },
    { name: 'Collector', kind: 'collector', note: '' },
    { name: 'Check', kind: 'checkValve', note: '' },
    { name: 'Valve', kind: 'valve', note: '' },
    { name: 'Heater', kind: 'device', note: '' },
  ],
  past: [{ name: 'Past', kind: 'pipe', note: '' }],
  after: [{ name: 'Outlet', kind: 'outlet', note: '' }],
  hasBypass: true,
});

const bars = cuttingBars({
  id: 'cuts',
  title: 'Cuts',
  bars: [
    { count: 3, stock_m: 6.096, onHand: false, cuts: [{ length_m: 2, count: 3 }], left_m: 0.093 },
    { count: 1, stock_m: 3.048, onHand: true, cuts: [{ length_m: 0.0517, count: 17 }], left_m: 2.15 },
  ],
  kerf_m: 0.001,
  length,
});

const all: readonly BuildDrawing[] = [panel, header, supports, loop, bars];

interface DxfEntity {
  type: string;
  layer: string;
  vertices?: { x: number; y: number }[];
  shape?: boolean;
  text?: string;
  center?: { x: number; y: number };
  radius?: number;
}

/** Entities as an independent reader sees them. */
function readBack(text: string): DxfEntity[] {
  const parsed = new DxfParser().parseSync(text);
  return (parsed?.entities ?? []) as unknown as DxfEntity[];
}

describe('DXF', () => {
  it.each(all.map((d) => [d.id, d] as const))(
    'of the %s reads back in another reader, shape by shape',
    (_id, drawing) => {
      const entities = readBack(toDxf(drawing));
      const count = (type: string): number => entities.filter((e) => e.type === type).length;
      const shapes = (kind: string): number => drawing.shapes.filter((s) => s.kind === kind).length;
      expect(count('LINE')).toBe(shapes('line') + 5 * shapes('dimension'));
      expect(count('POLYLINE') + count('LWPOLYLINE')).toBe(shapes('polyline'));
      expect(count('CIRCLE')).toBe(shapes('circle'));
      expect(count('TEXT')).toBe(shapes('text') + shapes('dimension'));
      for (const e of entities) expect(BUILD_LAYERS).toContain(e.layer);
    },
  );

  it('is in metres and keeps every length', () => {
    const entities = readBack(toDxf(panel));
    const long = entities.filter((e) => e.type === 'LINE' && e.layer === 'pipe');
    expect(long).toHaveLength(10);
    for (const line of long) {
      const [a, b] = line.vertices!;
      expect(Math.hypot(a.x - b.x, a.y - b.y)).toBeCloseTo(6, 9);
    }
    // tee centres of the header, dashed: 18 long ones at the pitch
    const centres = readBack(toDxf(header)).filter(
      (e) => e.layer === 'centre' && e.vertices![1].y - e.vertices![0].y > 0.06,
    );
    expect(centres).toHaveLength(18);
    for (let i = 1; i < 18; i++)
      expect(centres[i].vertices![0].x - centres[i - 1].vertices![0].x).toBeCloseTo(0.0762, 9);
  });

  it('draws every nipple as long as it is cut', () => {
    const pipes = readBack(toDxf(header)).filter((e) => e.type.endsWith('POLYLINE') && e.layer === 'pipe');
    const widths = pipes.map((e) => {
      const xs = e.vertices!.map((v) => v.x);
      return Math.max(...xs) - Math.min(...xs);
    });
    // by hand: 3 in − 2 × 0.4825 in = 2.035 in = 51.689 mm
    expect(widths.filter((w) => Math.abs(w - 0.051689) < 1e-6)).toHaveLength(17);
  });

  it('writes letters that every reader knows', () => {
    const text = toDxf(bars);
    expect(Array.from(text).every((c) => c.charCodeAt(0) < 127)).toBe(true);
    expect(text).toContain('\\U+00D7');
  });
});

describe('sheets', () => {
  it.each(all.map((d) => [d.id, d] as const))(
    'of the %s stays on its paper and says what it shows',
    (_id, drawing) => {
      const sheet = buildSheet(drawing);
      expect(sheet.width).toBe(PAPER_WIDTH);
      for (const item of sheet.items) {
        const points =
          item.kind === 'line'
            ? [item.from, item.to]
            : item.kind === 'polyline'
              ? item.points
              : item.kind === 'text'
                ? [item.at]
                : [];
        for (const [x, y] of points) {
          expect(x).toBeGreaterThanOrEqual(0);
          expect(x).toBeLessThanOrEqual(sheet.width);
          expect(y).toBeGreaterThanOrEqual(0);
          expect(y).toBeLessThanOrEqual(sheet.height);
        }
      }
      const svg = toSvg(sheet.items, {
        width: sheet.width,
        height: sheet.height,
        palette: PRINT,
        title: drawing.title,
        description: drawing.description,
      });
      expect(svg).toContain('<desc>');
      expect(svg).not.toMatch(/NaN|Infinity|undefined/);
      expect(drawing.description.length).toBeGreaterThan(20);
    },
  );

  it('is true to scale: six metres and one pitch have the same paper unit', () => {
    const sheet = buildSheet(panel);
    const lines = sheet.items.filter((i) => i.kind === 'line' && i.layer === 'built');
    const [a, b] = [lines[0], lines[1]];
    if (a.kind !== 'line' || b.kind !== 'line') throw new Error('lines expected');
    const along = (a.to[0] - a.from[0]) / 6;
    const across = (a.from[1] - b.from[1]) / 0.07;
    expect(across).toBeCloseTo(along, 6);
  });

  it('hatches what is left of a bar, and only that', () => {
    const waste = bars.shapes.filter((s) => s.layer === 'waste');
    expect(waste).toHaveLength(2);
    const widths = waste.map((s) => (s.kind === 'polyline' ? s.points[1][0] - s.points[0][0] : 0));
    expect(widths[0]).toBeCloseTo(0.093, 9);
    expect(widths[1]).toBeCloseTo(2.15, 9);
  });
});
