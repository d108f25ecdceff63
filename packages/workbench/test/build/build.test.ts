import { readFileSync } from 'node:fs';
import { readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { build } from '../../src/build/build';
import { KERF_M } from '../../src/build/options';
import { slopeCases } from '../../src/build/slope-compare';
import { CAUTIONS } from '../../src/cautions/catalogue';
import { randomLayout } from './random-layout';

function example(name: string): Project {
  const read = readProject(
    readFileSync(new URL(`../../../../examples/${name}.json`, import.meta.url), 'utf8'),
  );
  if (!read.ok) throw new Error(JSON.stringify(read.problems));
  return read.project;
}

const quince = example('quince-yard');
const tern = example('tern-roof');

describe('build', () => {
  const answer = build(quince);
  const { result } = answer;

  it('buys what the plans cut, and cuts every piece', () => {
    for (const sheet of result.cutting) {
      const made = sheet.pieces.map(() => 0);
      for (const bar of sheet.plan.bars) for (const c of bar.cuts) made[c.piece] += bar.bars * c.count;
      expect(made).toEqual(sheet.pieces.map((p) => p.count));
      const bought = result.shop.filter((l) => l.part === sheet.pipe).reduce((sum, l) => sum + l.toBuy, 0);
      expect(bought).toBe(sheet.plan.bars.reduce((sum, b) => sum + b.bars, 0));
      expect(sheet.kerf_m).toBe(KERF_M.handSaw);
    }
    const listed = result.pieces.reduce((sum, p) => sum + p.length_m * p.count, 0);
    // pieces are rounded to a tenth of a millimetre in the cut list
    expect(Math.abs(result.counts.pipe_m - listed)).toBeLessThan(
      5e-5 * result.pieces.reduce((n, p) => n + p.count, 0),
    );
  });

  it('counts tees, tubes and joints as the design has them', () => {
    const banks = quince.collector.sections.flatMap((s) => s.banks);
    const tubes = banks.reduce((sum, b) => sum + b.count, 0);
    const headerTees = result.fittings
      .filter((f) => f.kind === 'tee' && /\/(supply|gather)$/.test(f.path))
      .reduce((sum, f) => sum + f.count, 0);
    expect(headerTees).toBe(2 * tubes);
    const nipples = result.pieces.filter((p) => p.use === 'nipple').reduce((sum, p) => sum + p.count, 0);
    expect(nipples).toBe(2 * (tubes - banks.length));
    const joints = result.gluing.sizes.reduce((sum, s) => sum + s.joints, 0);
    expect(result.counts.gluedJoints).toBe(joints);
    // each header tee is three joints
    expect(joints).toBeGreaterThan(6 * tubes);
  });

  it('holds it up no wider than asked, and says what it weighs', () => {
    const { supports } = result;
    expect(supports.rows).toHaveLength(quince.collector.sections.flatMap((s) => s.banks).length);
    for (const row of supports.rows)
      for (let i = 1; i < row.lines_m.length; i++)
        expect(row.lines_m[i] - row.lines_m[i - 1]).toBeLessThanOrEqual(
          quince.collector.supports.spacing_m + 1e-9,
        );
    expect(supports.filled_kg).toBeGreaterThan(supports.dry_kg);
    // 0.613 · 40²
    expect(supports.wind_Pa).toBeCloseTo(980.8, 6);
  });

  it('makes ten cards of this design whose cautions all exist', () => {
    expect(result.cards.map((c) => c.id)).toEqual([
      'firstFill',
      'opening',
      'closing',
      'restart',
      'shutDown',
      'leakSearch',
      'mending',
      'walkRound',
      'rebuild',
      'history',
    ]);
    for (const card of result.cards) {
      expect(card.lines.length).toBeGreaterThan(1);
      for (const id of card.cautions) expect(CAUTIONS.has(id), id).toBe(true);
    }
    for (const step of result.steps) for (const id of step.cautions) expect(CAUTIONS.has(id), id).toBe(true);
    const drains = quince.collector.taps.filter((t) => t.purpose === 'drain');
    for (const drain of drains)
      expect(result.cards.find((c) => c.id === 'shutDown')!.lines.join(' ')).toContain(drain.id);
  });

  it('slants what the sag asks, and then less stays than flat', () => {
    const flat = result.slopes.find((s) => s.which === 'flat')!;
    const slanted = result.slopes.find((s) => s.which === 'slanted')!;
    expect(slanted.fall).toBeGreaterThan(0);
    expect(slanted.litresLeft).toBeLessThanOrEqual(flat.litresLeft);
    expect(flat.lowest_Pa).toBeGreaterThan(0);
  });

  it('compares flat, as drawn and slanted by air and by the heat of one moment too', () => {
    const cases = slopeCases(quince, { at: '2026-06-12T13:00', sky: 'clear' });
    expect(cases.map((c) => c.which)).toEqual(['flat', 'asDrawn', 'slanted']);
    const tubes = quince.collector.sections.flatMap((s) => s.banks).reduce((n, b) => n + b.count, 0);
    for (const c of cases) {
      expect(c.heat_W).toBeGreaterThan(1000);
      expect(c.air!.tubes).toBe(tubes);
      expect(c.air!.holds + c.air!.doubtful).toBeLessThanOrEqual(tubes);
    }
    // a fall of a centimetre in a metre does not change what the sun gives
    const heats = cases.map((c) => c.heat_W!);
    expect(Math.max(...heats) / Math.min(...heats)).toBeLessThan(1.02);
    // without a moment there is no heat to compare, and air is still told
    for (const c of result.slopes) {
      expect(c.heat_W).toBeNull();
      expect(c.air).not.toBeNull();
    }
  });

  it('prints on its cards the frost of its climate, what was done by date, and what a rebuild keeps', () => {
    const { result: own } = build({
      ...quince,
      repairs: [
        { id: 'r1', date: '2026-05-02', what: 'plugged', section: 'lower', tube: 3, notes: 'split by frost' },
      ],
    });
    const text = (id: string): string => own.cards.find((c) => c.id === id)!.lines.join('\n');
    expect(text('shutDown')).toMatch(/First frost in the year of .*: \d+ [A-Z][a-z]+/);
    expect(text('shutDown')).toMatch(/be done by \d+ [A-Z]/);
    expect(text('history')).toMatch(/2026-05-02 {2}Plugged: lower tube 3: split by frost/);
    for (const state of quince.asBuilt) expect(text('history')).toContain(`${state.from}  ${state.name}`);
    const straps = own.shop.find((l) => l.part === 'strap')!.needed;
    expect(text('rebuild')).toContain(`${straps} straps`);
    expect(text('rebuild')).toMatch(/about \d+ days/);
    const valve = quince.loop.bypass.kind === 'twoValves' ? quince.loop.bypass.toCollector : null;
    if (valve) expect(text('leakSearch')).toContain(valve.name ?? valve.id);
  });

  it('builds coils of another kind with adapters and clamps', () => {
    const { result: coils } = build(tern);
    const count = (kind: string) =>
      coils.fittings.filter((f) => f.kind === kind).reduce((s, f) => s + f.count, 0);
    expect(count('clamp')).toBe(
      count('adapter') - coils.fittings.filter((f) => f.part.startsWith('threadAdapter')).length,
    );
    expect(coils.pieces.some((p) => p.use === 'coil')).toBe(true);
    expect(coils.fittings.some((f) => f.kind === 'breaker')).toBe(true);
  });

  it('speaks of no cement, and of no whole sticks, where tubes are clamped on', () => {
    const pe = structuredClone(quince);
    for (const section of pe.collector.sections)
      for (const bank of section.banks) {
        if (bank.kind !== 'tubes') continue;
        bank.pipe = 'pe-sidr19-1/2';
        bank.supply = { pipe: 'pe-sidr19-1', leadIn_m: 0.3 };
        bank.gather = bank.supply;
      }
    const { result: r } = build(pe);
    const steps = r.steps.filter((s) => /^(module|header)-/.test(s.id));
    expect(steps.length).toBeGreaterThan(1);
    for (const step of steps) {
      expect(step.lines.join(' ')).not.toMatch(/cement|glue/);
      expect(step.cautions).not.toContain('solvent');
    }
    expect(steps.flatMap((s) => s.lines).join(' ')).toMatch(/push it over its barb/);
    expect(r.wholeStick_m).toBeNull();
  });

  it('uses pipe, parts and boards on hand first', () => {
    const tube = quince.collector.sections[0].banks[0];
    if (tube.kind !== 'tubes') throw new Error('tubes expected');
    const tee = result.shop.find((l) => l.part.startsWith('reducingTee-') || l.part.startsWith('tee-'))!;
    const stocked: Project = {
      ...quince,
      stock: {
        pipes: [{ pipe: tube.pipe, length_m: tube.length_m, count: 5 }],
        parts: [{ part: tee.part, count: 3 }],
        boards: [{ id: 'b', length_m: 3, width_m: 0.09, thickness_m: 0.038, count: 4 }],
      },
    };
    const own = build(stocked).result;
    const bars = (r: typeof result): number =>
      r.shop.filter((l) => l.part === tube.pipe).reduce((sum, l) => sum + (l.price ?? 0), 0);
    expect(bars(own)).toBeLessThan(bars(result));
    expect(own.shop.find((l) => l.part === tee.part)!.toBuy).toBe(tee.toBuy - 3);
    expect(own.supports.boards).not.toBeNull();
    expect(own.supports.boardsMissing_m).toBeLessThan(result.supports.boardsMissing_m);
  });

  it('takes the person’s prices over demo values, and keeps what is bought and paid', () => {
    const tee = result.shop.find((l) => l.part.startsWith('reducingTee-'))!;
    const priced: Project = {
      ...quince,
      prices: {
        currency: 'EUR',
        asOf: '2026-04-01',
        parts: [
          { part: tee.part, price: 30, packOf: 25, bought: 10, paid: 12 },
          { part: tee.part, price: 2 },
        ],
      },
    };
    const line = build(priced).result.shop.find((l) => l.part === tee.part)!;
    expect(line).toMatchObject({ priceFrom: 'own', bought: 10, paid: 12 });
    expect(tee.priceFrom).toBe('demo');
    expect(line.packs.every((p) => p.from === 'own')).toBe(true);
  });

  it('has a demo price, marked so, for every part and pipe of any layout', () => {
    for (let seed = 530; seed < 560; seed++) {
      const { result: r } = build(randomLayout(seed), { scope: seed % 2 ? 'all' : 'heater' });
      for (const line of r.shop) {
        expect(line.price, line.part).not.toBeNull();
        if (line.toBuy > 0) expect(line.priceFrom, line.part).toBe('demo');
      }
      for (const sheet of r.cutting) expect(sheet.priced, sheet.pipe).toBe(true);
      expect(r.shopTotal.unpriced).toBe(0);
    }
  });

  it('answers every random layout without throwing, coded notices with remedies', () => {
    for (let seed = 500; seed < 530; seed++) {
      const a = build(randomLayout(seed));
      expect(a.result.shop.length).toBeGreaterThan(5);
      for (const n of a.notices) {
        expect(n.remedy, n.code).toBeTruthy();
        expect(n.message).not.toMatch(/NaN|undefined|Infinity/);
      }
      for (const line of a.result.shop) expect(line.toBuy).toBeGreaterThanOrEqual(0);
      for (const text of [...a.result.cards, ...a.result.steps].flatMap((c) => c.lines))
        expect(text).not.toMatch(/NaN|undefined|Infinity|null/);
    }
  });
});

describe('what cannot be built', () => {
  const codes = (project: Project, options = {}) => build(project, options).notices.map((n) => n.code);
  const withBank = (over: object): Project => {
    const s = quince.collector.sections[0];
    const bank = { ...s.banks[0], ...over } as (typeof s.banks)[number];
    return {
      ...quince,
      collector: {
        ...quince.collector,
        sections: [{ ...s, banks: [bank, ...s.banks.slice(1)] }, ...quince.collector.sections.slice(1)],
      },
    };
  };

  it('is a notice with a remedy, never a silent list', () => {
    expect(codes(withBank({ pitch_m: 0.05 }))).toContain('pitch-below-tees');
    expect(codes(withBank({ length_m: 9 }), { join: 'none' })).toContain('build-longer-than-stock');
    expect(codes(withBank({ length_m: 9 }))).not.toContain('build-longer-than-stock');
    // ten metres on hand hold it, three times out of fourteen
    const held = {
      ...withBank({ length_m: 9 }),
      stock: {
        parts: [],
        boards: [],
        ...quince.stock,
        pipes: [{ pipe: 'pvc-sch40-1/2', length_m: 10, count: 3 }],
      },
    };
    expect(codes(held, { join: 'none' })).toContain('build-stock-short');
    const short = build(held, { join: 'none' }).notices.find((n) => n.code === 'build-stock-short');
    expect(short?.message).toMatch(/does not reach: 11 of/);
    expect(codes(withBank({ pipe: 'pvc-sch40-1/2', supply: { pipe: 'pvc-sch40-3' } }))).toContain(
      'build-no-such-tee',
    );
    expect(codes(withBank({ length_m: 0.5, count: 20 }))).toContain('build-header-closing');
    expect(codes(withBank({ pipe: 'pvcu-pn16-20' }))).toContain('build-two-systems');
    expect(codes(withBank({ pipe: 'nothing-1' }))).toContain('build-unknown-pipe');
    const far = {
      ...quince,
      collector: { ...quince.collector, supports: { ...quince.collector.supports, spacing_m: 2 } },
    };
    expect(codes(far)).toContain('build-support-spacing');
    expect(codes(withBank({ pipe: 'pe-irrigation-20' }))).toContain('build-collapse');
  });
});
