import { describe, expect, test } from 'vitest';
import { combinedLeg, teeHeads } from '../../src/hydraulics/tee';
import { combiningTee, dividingTee, type SplitTeeSet, teeShape } from '../../src/hydraulics/tee-coefficients';
import { DomainError } from '../../src/numeric/errors';
import truth from '../truth/tee-coefficients.json';

const SETS = ['default', 'gardel', 'ideal'] as const;
const AREAS = [0.1, 0.149234, 0.33, 0.352, 0.38, 0.42, 0.5, 0.64, 0.8, 1];
const k = { branch: 0, branchSlope: 0, run: 0, runSlope: 0 };
const heads = { branch: 0, branch1: 0, branch2: 0, run: 0, run1: 0, run2: 0 };

const at = (set: SplitTeeSet, a: number, s1: number, s2: number) => {
  teeHeads(set, teeShape(a), s1, s2, heads);
  return { ...heads };
};

describe('coefficients', () => {
  // verified: computed from the published equations; tolerance is the last digit given
  test.each(truth.rows)('$set, bores $bores, r $r', ({ set, bores, r, k: expected }) => {
    const shape = teeShape((bores[0]! / bores[1]!) ** 2);
    dividingTee(set as SplitTeeSet, shape, r, k);
    expect(k.branch).toBeCloseTo(expected[0]!, 4);
    expect(k.run).toBeCloseTo(expected[1]!, 5);
    combiningTee(set as SplitTeeSet, shape, r, k);
    expect(k.branch).toBeCloseTo(expected[2]!, 4);
    expect(k.run).toBeCloseTo(expected[3]!, 5);
  });

  test('outside the bridges the published pieces stand', () => {
    const published = (a: number, r: number) => {
      const w = r / a;
      const c = a <= 0.35 ? 1 : r <= 0.4 ? 0.9 * (1 - r) : 0.55;
      return {
        run: a <= 0.4 ? 0.4 * r * r : (r <= 0.5 ? 2 : 0.3) * (2 * r - 1) * r * r,
        branch: c * (1 + w * w - 2 * (1 - r) ** 2),
      };
    };
    for (const a of [0.2, 0.3, 0.45, 0.6])
      for (const r of [0.05, 0.2, 0.35, 0.45, 0.7, 1]) {
        dividingTee('default', teeShape(a), r, k);
        expect(k.run).toBeCloseTo(published(a, r).run, 12);
        combiningTee('default', teeShape(a), r, k);
        expect(k.branch).toBeCloseTo(published(a, r).branch, 12);
      }
    dividingTee('default', teeShape(1), 0.5, k);
    expect(k.branch).toBeCloseTo((1 + 0.3 * 0.25) * (1 + 0.3 * 0.25), 12);
  });

  test('ideal tees are the momentum balance', () => {
    dividingTee('ideal', teeShape(0.25), 0.5, k);
    expect([k.branch, k.run]).toEqual([3, 0]);
    combiningTee('ideal', teeShape(0.25), 0.5, k);
    expect([k.branch, k.run]).toEqual([4.5, 0.75]);
  });

  test.each(SETS)('%s: slopes are those of the values, everywhere in a and r', (set) => {
    const h = 1e-6;
    let worst = 0;
    for (const a of AREAS)
      for (let r = 0.0131; r < 1; r += 0.0317)
        for (const which of [dividingTee, combiningTee]) {
          which(set, teeShape(a), r + h, k);
          const above = { ...k };
          which(set, teeShape(a), r - h, k);
          const below = { ...k };
          which(set, teeShape(a), r, k);
          const most = 1 + Math.abs(k.branchSlope) + Math.abs(k.runSlope);
          const branch = k.branchSlope - (above.branch - below.branch) / (2 * h);
          const run = k.runSlope - (above.run - below.run) / (2 * h);
          worst = Math.max(worst, Math.abs(branch) / most, Math.abs(run) / most);
        }
    // central difference, kinks avoided
    expect(worst).toBeLessThan(1e-6);
  });

  test('nothing jumps over the bridges in a', () => {
    let most = 0;
    for (const r of [0.02, 0.2, 0.4, 0.5, 0.8, 1]) {
      let before: number[] | undefined;
      for (let a = 0.25; a <= 1; a += 1e-4) {
        dividingTee('default', teeShape(a), r, k);
        const dividing = [k.branch, k.run];
        combiningTee('default', teeShape(a), r, k);
        const now = [...dividing, k.branch, k.run].map((value) => value * a * a);
        if (before)
          for (const [i, value] of before.entries()) most = Math.max(most, Math.abs(value - now[i]!));
        before = now;
      }
    }
    expect(most).toBeLessThan(2e-3);
  });

  test.each([0, -1, Number.NaN, Infinity])('area ratio %d is refused', (a) => {
    expect(() => teeShape(a)).toThrow(DomainError);
  });
});

describe('sign states', () => {
  const around = Array.from({ length: 360 }, (_, i) => ((i + 0.37) * Math.PI) / 180);

  test.each(SETS)('%s: derivatives are exact in all six states', (set) => {
    const h = 1e-6;
    let worst = 0;
    for (const a of AREAS)
      for (const angle of around) {
        const s1 = Math.cos(angle);
        const s2 = Math.sin(angle);
        const here = at(set, a, s1, s2);
        const by1 = [at(set, a, s1 + h, s2), at(set, a, s1 - h, s2)] as const;
        const by2 = [at(set, a, s1, s2 + h), at(set, a, s1, s2 - h)] as const;
        const most = 1 + 30 / (a * a);
        for (const [slope, [p, q], key] of [
          [here.branch1, by1, 'branch'],
          [here.branch2, by2, 'branch'],
          [here.run1, by1, 'run'],
          [here.run2, by2, 'run'],
        ] as const)
          worst = Math.max(worst, Math.abs(slope - (p[key] - q[key]) / (2 * h)) / most);
      }
    // central difference of step 1e-6, over the largest slope
    expect(worst).toBeLessThan(1e-6);
  });

  /** Flows on both sides of each leg passing through zero, the others held at 1. */
  const crossings = [
    { leg: 'run leg 2 while leg 1 feeds the branch', s1: 1, s2: 0, d1: 0, d2: 1 },
    { leg: 'run leg 1 while leg 2 feeds the branch', s1: 0, s2: 1, d1: 1, d2: 0 },
    { leg: 'run leg 2 while the branch feeds leg 1', s1: -1, s2: 0, d1: 0, d2: 1 },
    { leg: 'run leg 1 while the branch feeds leg 2', s1: 0, s2: -1, d1: 1, d2: 0 },
    { leg: 'branch, flow from leg 1 to leg 2', s1: 1, s2: -1, d1: 0.5, d2: 0.5 },
    { leg: 'branch, flow from leg 2 to leg 1', s1: -1, s2: 1, d1: 0.5, d2: 0.5 },
  ];
  describe.each(SETS)('%s', (set) => {
    test.each(crossings)('no jump in head: $leg', ({ s1, s2, d1, d2 }) => {
      for (const a of AREAS) {
        const e = 1e-9;
        const p = at(set, a, s1 + e * d1, s2 + e * d2);
        const q = at(set, a, s1 - e * d1, s2 - e * d2);
        // slopes are at most some 60/a² here
        expect(Math.abs(p.branch - q.branch)).toBeLessThan(1e-6 / (a * a));
        expect(Math.abs(p.run - q.run)).toBeLessThan(1e-6 / (a * a));
      }
    });
  });

  test('slopes: smooth towards the branch for the default set where both run legs meet, a kink elsewhere', () => {
    const e = 1e-9;
    for (const a of [0.149234, 0.352]) {
      for (const { s1, s2, d1, d2 } of crossings.slice(0, 1)) {
        const p = at('default', a, s1 + e * d1, s2 + e * d2);
        const q = at('default', a, s1 - e * d1, s2 - e * d2);
        expect(Math.abs(p.branch2 - q.branch2)).toBeLessThan(1e-5 / (a * a));
      }
      for (const set of SETS)
        for (const { s1, s2, d1, d2 } of crossings) {
          const p = at(set, a, s1 + e * d1, s2 + e * d2);
          const q = at(set, a, s1 - e * d1, s2 - e * d2);
          // pinned: a kink stays within the slope of the tee itself
          const most = 8 * (1 + 1 / (a * a));
          for (const key of ['branch1', 'branch2', 'run1', 'run2'] as const)
            expect(Math.abs(p[key] - q[key])).toBeLessThan(most);
        }
    }
  });

  test('the mirrored tee is the same tee', () => {
    for (const set of SETS)
      for (const angle of around) {
        const s1 = Math.cos(angle);
        const s2 = Math.sin(angle);
        const here = at(set, 0.3, s1, s2);
        const mirror = at(set, 0.3, s2, s1);
        expect(mirror.branch).toBeCloseTo(here.branch - here.run, 11);
        expect(mirror.run).toBeCloseTo(-here.run, 11);
      }
  });

  test('a capped run end is a tee with r = 1', () => {
    for (const set of SETS) {
      dividingTee(set, teeShape(0.3), 1, k);
      expect(at(set, 0.3, 2, 0).branch).toBeCloseTo(4 * k.branch, 12);
      combiningTee(set, teeShape(0.3), 1, k);
      expect(at(set, 0.3, -2, 0).branch).toBeCloseTo(-4 * k.branch, 12);
    }
  });

  test('water at rest loses nothing, and the combined leg is the one that carries the rest', () => {
    expect(at('gardel', 0.5, 0, 0)).toEqual({ branch: 0, branch1: 0, branch2: 0, run: 0, run1: 0, run2: 0 });
    expect([combinedLeg(1, 1), combinedLeg(3, -1), combinedLeg(1, -2), combinedLeg(-1, -1)]).toEqual([
      0, 1, 2, 0,
    ]);
  });

  test('a tee takes power from the water, save where the published fits do not', () => {
    // the ideal set is a momentum balance: Σ inflow·head ≥ Σ outflow·head whenever one run leg is combined
    for (const angle of around) {
      const s1 = Math.cos(angle);
      const s2 = Math.sin(angle);
      if (s1 * s2 > 0) continue;
      const { branch, run } = at('ideal', 0.3, s1, s2);
      // heads of the ends over leg 1: −branch, −run; net power left in the tee
      expect((s1 + s2) * branch - s2 * run).toBeGreaterThan(-1e-9);
    }
  });
});
