import type { Path } from '@sunlap/project/schema/path';
import { type Project, projectSchema } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { build } from '../../src/build/build';
import { doubtBand, joinBands, widen } from '../../src/first/doubt-band';
import { DOUBTS, type Doubt } from '../../src/first/doubts';
import { firstReadouts } from '../../src/first/first-readouts';
import { wholeSticks, withChange } from '../../src/first/panel-change';
import { referenceMoment } from '../../src/first/reference-moment';
import { roughCost } from '../../src/first/rough-cost';
import { stepEffect, stepState } from '../../src/first/step-effect';

const answers = usualAnswers('us');
const sure = startProject(answers);
const unsure = (...doubts: Doubt[]) => startProject({ ...answers, unsure: doubts });
const moment = referenceMoment(sure);

describe('what "don’t know" leaves open', () => {
  it('has a row with reason and remedy for every question', () => {
    const asked = projectSchema.shape.unsure._zod.def.innerType._zod.def.element._zod.def.entries;
    expect(DOUBTS.map((d) => d.doubt).sort()).toEqual(Object.keys(asked).sort());
    for (const row of DOUBTS) {
      expect(row.reason.length).toBeGreaterThan(20);
      expect(row.settle.length).toBeGreaterThan(20);
    }
  });

  it('is nothing where all is known', () => {
    const band = doubtBand(sure, moment);
    expect(band.doubts).toEqual([]);
    expect(widen(1000, band.relative.heat_W)).toEqual({ low: 1000, high: 1000 });
  });

  it('moves what it should: pump and plumbing the flow, wind and colour the heat, the pool only its degrees', () => {
    const all = doubtBand(unsure('pump', 'plumbing', 'wind', 'surface', 'pool'), moment, { day: false });
    const of = (d: Doubt) => all.doubts.find((x) => x.doubt === d)!.relative;
    for (const d of ['pump', 'plumbing'] as const) {
      expect(of(d).flow_m3s.low).toBeLessThan(-0.03);
      expect(of(d).flow_m3s.high).toBeGreaterThan(0.03);
    }
    for (const d of ['wind', 'surface'] as const) {
      expect(of(d).heat_W.low).toBeLessThan(-0.05);
      expect(Math.abs(of(d).flow_m3s.low)).toBeLessThan(1e-3);
    }
    expect(of('pool').heat_W).toEqual({ low: 0, high: 0 });
    expect(of('pool').poolPerSunnyDay_K.low).toBeCloseTo(-0.2, 9);
    expect(all.doubts[0].doubt).toBe('wind');
    // independent doubts: more than the widest, less than their sum
    const sum = all.doubts.reduce((s, d) => s + d.relative.heat_W.high, 0);
    expect(all.relative.heat_W.high).toBeGreaterThanOrEqual(of('wind').heat_W.high);
    expect(all.relative.heat_W.high).toBeLessThan(sum);
  });

  it('guesses every pipe that was guessed, and of the pipes only the tubes', () => {
    const run = (length_m: number): Path => [
      { kind: 'pipe', id: `p${length_m}`, pipe: 'pvc-sch40-1', length_m, surroundings: 'sun' },
    ];
    const at = (p: Project) => ({ project: p, tables: STANDARD_TABLES });
    const row = (d: Doubt) => DOUBTS.find((x) => x.doubt === d)!;
    const { loop, collector } = sure;
    const bypass = { ...loop.bypass, past: run(3) } as Project['loop']['bypass'];
    const [outlet] = loop.outlets;
    const laid: Project = {
      ...sure,
      loop: { ...loop, bypass, returnOutlet: { ...outlet, id: 'own', path: run(5) } },
      collector: {
        ...collector,
        plumbing: { series: [{ ...collector.plumbing, before: run(7), after: run(9) }] },
      },
    };
    const [short, long] = row('plumbing')
      .ends(at(laid))
      .map(({ project: p }) => {
        const { bypass: way, returnOutlet } = p.loop;
        const part = p.collector.plumbing.series![0];
        return [way.kind === 'none' ? [] : way.past, returnOutlet!.path, part.before!, part.after!].map(
          (path) => (path[0].kind === 'pipe' ? path[0].length_m : Number.NaN),
        );
      });
    for (const [i, length] of [3, 5, 7, 9].entries()) {
      expect(short[i]).toBeCloseTo(0.8 * length, 12);
      expect(long[i]).toBeCloseTo(1.2 * length, 12);
    }
    const [bank] = collector.sections[0].banks;
    if (bank.kind !== 'tubes') throw new Error('no tubes');
    const known = STANDARD_TABLES.sizes;
    for (const { tables } of row('pipe').ends(at(sure))) {
      expect(tables.sizes(bank.pipe).bore_m).not.toBe(known(bank.pipe).bore_m);
      expect(tables.sizes(bank.supply.pipe)).toEqual(known(bank.supply.pipe));
    }
  });

  it('joins with a band that is there', () => {
    expect(joinBands(10, { low: 7, high: 13 }, { low: 6, high: 14 })).toEqual({ low: 5, high: 15 });
    expect(widen(-100, { low: -0.1, high: 0.2 })).toEqual({ low: -110, high: -80 });
  });
});

describe('one step of a planner', () => {
  it('adds heat, joints, cost and load with each pass, and takes them back', () => {
    const three = stepEffect(sure, { kind: 'passes', passes: 3 });
    expect(three.difference.heat_W).toBeGreaterThan(0);
    expect(three.difference.gluedJoints).toBeGreaterThanOrEqual(2 * 20 * 3);
    expect(three.difference.cost).toBeGreaterThan(0);
    expect(three.difference.pumpHead_m).toBeGreaterThan(0);
    expect(three.difference.pumpFlow_m3s).toBeLessThan(0);
    const back = withChange(three.project, { kind: 'passes', passes: 2 });
    expect(back.collector).toEqual(sure.collector);
    expect(projectSchema.safeParse(three.project).success).toBe(true);
  });

  it('lengthens by whole sticks', () => {
    expect(wholeSticks(sure)).toEqual({ shorter_m: 3.048, longer_m: 9.144 });
    const before = stepState(sure);
    const longer = stepEffect(sure, { kind: 'length', length_m: 9.144 }, { before });
    // a coupling in each of forty tubes
    expect(longer.difference.gluedJoints).toBe(80);
    expect(longer.difference.pipe_m).toBeCloseTo(40 * 3.048, 0);
    expect(longer.difference.heat_W).toBeGreaterThan(0);
    const quick = stepEffect(sure, { kind: 'length', length_m: 9.144 }, { before, day: false });
    expect(quick.after.heat_W).toBeCloseTo(longer.after.heat_W, 6);
    expect(quick.after.poolPerSunnyDay_K / longer.after.poolPerSunnyDay_K).toBeCloseTo(1, 1);
  });

  it('counts the joints that building counts, and costs about what the shop list does', () => {
    const rough = roughCost(sure);
    const bill = build(sure, { spares: 0 }).result;
    expect(rough.gluedJoints).toBe(bill.counts.gluedJoints);
    // whole sticks, packs and supports against pipe by the metre: common practice, a quarter at most
    expect(rough.cost / bill.shopTotal.price).toBeGreaterThan(0.7);
    expect(rough.cost / bill.shopTotal.price).toBeLessThan(1.1);
  });
});

describe('where both doors end', () => {
  it('gives the planner three readouts, one notice and a change that pays', () => {
    const found = firstReadouts(sure);
    expect(found.heat_W).toBeGreaterThan(0);
    expect(found.heatBand_W.low).toBeLessThan(found.heat_W);
    expect(found.poolPerSunnyDay_K).toBeGreaterThan(0);
    expect([found.tubes, found.tubesWithoutWater]).toEqual([40, 0]);
    expect(found.notice).not.toBeNull();
    expect(found.next.kind).toBe('change');
    expect(found.next.gain_W!).toBeGreaterThan(0);
    expect(found.next.change).not.toBeNull();
  });

  it('widens visibly with each "don’t know", and says first how to be rid of the widest', () => {
    const known = firstReadouts(sure);
    const guess = firstReadouts(unsure('wind', 'pool'));
    const width = (i: { low: number; high: number }) => i.high - i.low;
    expect(width(guess.heatBand_W)).toBeGreaterThan(1.3 * width(known.heatBand_W));
    expect(width(guess.poolPerSunnyDayBand_K)).toBeGreaterThan(1.3 * width(known.poolPerSunnyDayBand_K));
    expect(guess.next.kind).toBe('settle');
    expect(guess.next.message).toContain(DOUBTS.find((d) => d.doubt === 'wind')!.settle);
  });

  it('sends the owner to pail and thermometers', () => {
    expect(firstReadouts(sure, { as: 'owner' }).next.kind).toBe('measure');
  });
});
