import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { fromLimits } from '../../src/measurement/component';
import { combine, welchSatterthwaite } from '../../src/measurement/coverage';
import { simulate } from '../../src/measurement/monte-carlo';
import { type Input, propagate } from '../../src/measurement/propagate';
import { DomainError } from '../../src/numeric/errors';
import { createRandom } from '../../src/numeric/random';
import { correlation, mean, standardDeviationOfMean } from '../../src/numeric/statistics';
import h2 from '../truth/gum-h2.json';

const column = (name: 'V' | 'I' | 'phi'): number[] => h2.rows.map((row) => row[name]);
const readings = [column('V'), column('I'), column('phi')];
const inputs: Input[] = readings.map((x, i) => ({
  name: ['V', 'I', 'φ'][i]!,
  value: mean(x),
  standardUncertainty: standardDeviationOfMean(x),
  dof: 4,
}));
const pairs = [
  { first: 0, second: 1, r: correlation(readings[0]!, readings[1]!) },
  { first: 0, second: 2, r: correlation(readings[0]!, readings[2]!) },
  { first: 1, second: 2, r: correlation(readings[1]!, readings[2]!) },
];

describe('JCGM 100 annex H.2, correlated simultaneous readings', () => {
  it('verified: correlations as printed', () => {
    expect(pairs.map((p) => p.r.toFixed(2))).toEqual(
      [h2.correlations.VI, h2.correlations.Vphi, h2.correlations.Iphi].map((r) => r.toFixed(2)),
    );
  });

  it.each([
    ['R', ([V, I, φ]: readonly number[]) => (V! / I!) * Math.cos(φ!)],
    ['X', ([V, I, φ]: readonly number[]) => (V! / I!) * Math.sin(φ!)],
    ['Z', ([V, I]: readonly number[]) => V! / I!],
  ] as const)('verified: %s to the last printed digit', (name, model) => {
    const found = propagate(model, inputs, pairs);
    const truth = h2.results[name];
    expect(Math.abs(found.value - truth.value)).toBeLessThan(0.0006);
    expect(Math.abs(found.standardUncertainty - truth.u)).toBeLessThan(0.0006);
    // five simultaneous readings leave four degrees of freedom: t95 = 2.776
    expect(found.dof).toBeCloseTo(4, 9);
    expect(found.coverageFactor).toBeCloseTo(2.776, 3);
  });

  it('drawing gives the same standard uncertainty (normal, correlated)', () => {
    const drawn = simulate(([V, I, φ]) => (V! / I!) * Math.cos(φ!), inputs, createRandom(7), 100_000, pairs);
    // standard deviation of a standard deviation from 1e5 draws is 0.22 %
    expect(Math.abs(drawn.standardUncertainty / 0.0711 - 1)).toBeLessThan(0.01);
  });
});

describe('propagation', () => {
  const limit = 0.5 / Math.sqrt(3);
  const day = (r: number) =>
    propagate(
      ([v, a, b]) => v! * (b! - a!),
      [
        { name: 'flow', value: 40, standardUncertainty: 0.8 },
        { name: 'in', value: 26, standardUncertainty: limit, shape: 'rectangular' },
        { name: 'out', value: 28, standardUncertainty: limit, shape: 'rectangular' },
      ],
      r === 0 ? [] : [{ first: 1, second: 2, r }],
    );

  it('verified by hand: 40 L/min ± 2 %, 2 K, two ±0.5 K limits', () => {
    const alone = day(0);
    expect((100 * alone.standardUncertainty) / alone.value).toBeCloseTo(20.5, 1);
    expect((200 * alone.standardUncertainty) / alone.value).toBeCloseTo(41.0, 1);
    const together = day(0.9);
    expect((100 * together.standardUncertainty) / together.value).toBeCloseTo(6.8, 1);
    expect((200 * together.standardUncertainty) / together.value).toBeCloseTo(13.5, 1);
  });

  it('shares of variance add to one, largest first', () => {
    const { contributions } = day(0);
    expect(contributions.reduce((sum, c) => sum + c.share, 0)).toBeCloseTo(1, 12);
    expect(contributions[0]!.share).toBeGreaterThan(0.49);
    expect(contributions.at(-1)!.source).toBe('flow');
  });

  it('agrees with drawing on linear cases, whatever the shapes', () => {
    const linear = ([a, b, c]: readonly number[]) => 3 * a! - 2 * b! + c!;
    const shapes = ['normal', 'rectangular', 'triangular'] as const;
    for (const [i, first] of shapes.entries())
      for (const second of shapes) {
        const inputs: Input[] = [
          { name: 'a', value: 1, standardUncertainty: 0.3, shape: first },
          { name: 'b', value: 2, standardUncertainty: 0.5, shape: second },
          { name: 'c', value: 3, standardUncertainty: 0.4, shape: 'rectangular' },
        ];
        const law = propagate(linear, inputs);
        const drawn = simulate(linear, inputs, createRandom(100 + i), 60_000);
        expect(Math.abs(drawn.standardUncertainty / law.standardUncertainty - 1)).toBeLessThan(0.01);
        // a 97.5 % point from 6e4 draws scatters by about 0.8 % of U
        expect(Math.abs((drawn.upper - drawn.lower) / (2 * law.expandedUncertainty) - 1)).toBeLessThan(0.02);
      }
  });

  it('agrees with drawing from t when there is nothing but repeats', () => {
    const inputs: Input[] = [{ name: 't', value: 61.2, standardUncertainty: 0.43, dof: 2 }];
    const law = propagate(([t]) => t!, inputs);
    const drawn = simulate(([t]) => t!, inputs, createRandom(3), 200_000);
    expect(Math.abs((drawn.upper - drawn.lower) / (2 * law.expandedUncertainty) - 1)).toBeLessThan(0.03);
  });

  it('drawn rectangles have the correlation asked for', () => {
    const inputs: Input[] = [0, 1].map((i) => ({
      name: `x${i}`,
      value: 0,
      standardUncertainty: 1,
      shape: 'rectangular' as const,
    }));
    const pair = [{ first: 0, second: 1, r: 0.9 }];
    const drawn = simulate(([a, b]) => b! - a!, inputs, createRandom(11), 50_000, pair);
    expect(drawn.standardUncertainty ** 2).toBeCloseTo(0.2, 2);
    expect(() =>
      simulate(
        ([a]) => a!,
        [...inputs, { name: 'x2', value: 0, standardUncertainty: 1 }],
        createRandom(1),
        200,
        [
          { first: 0, second: 1, r: 1 },
          { first: 0, second: 2, r: 1 },
          { first: 1, second: 2, r: -1 },
        ],
      ),
    ).toThrow(DomainError);
  });

  it('scales with the unit of the result and forgets the order of its inputs', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.01, max: 10, noNaN: true }), { minLength: 2, maxLength: 5 }),
        fc.double({ min: 1e-6, max: 1e6, noNaN: true }),
        (u, unit) => {
          const parts = u.map((x, i) => fromLimits(`s${i}`, `s${i}`, 1, x));
          const one = combine(parts);
          const other = combine([...parts].reverse().map((c) => ({ ...c, effect: -unit * c.effect })));
          expect(other.expandedUncertainty / (unit * one.expandedUncertainty)).toBeCloseTo(1, 8);
          // no sum of limits can err by more than the sum of its half-widths
          expect(one.expandedUncertainty).toBeLessThanOrEqual(u.reduce((a, b) => a + b, 0) + 1e-9);
        },
      ),
      { seed: 1, numRuns: 40 },
    );
  });

  it('refuses what cannot be', () => {
    const one = { name: 'a', value: 1, standardUncertainty: 1 };
    expect(() => propagate(([a]) => a!, [{ ...one, standardUncertainty: -1 }])).toThrow(DomainError);
    expect(() => propagate(([a]) => a!, [one], [{ first: 0, second: 0, r: 0.5 }])).toThrow(DomainError);
    expect(() => propagate(([a]) => a!, [one, one], [{ first: 0, second: 1, r: 1.1 }])).toThrow(DomainError);
    expect(() => simulate(([a]) => a!, [one], createRandom(1), 10)).toThrow(DomainError);
  });
});

describe('interval of stated coverage', () => {
  const repeats = (effect: number, n: number) => ({
    source: `a${n}${effect}`,
    label: 'a',
    effect,
    dof: n - 1,
    shape: 'normal' as const,
  });

  it('verified: the pure cases are exact', () => {
    // Student's t for three readings, 4.303
    expect(combine([repeats(1, 3)]).coverageFactor).toBeCloseTo(4.303, 3);
    // 95 % of a rectangle ±1
    expect(combine([fromLimits('a', 'a', 1, 1)]).expandedUncertainty).toBeCloseTo(0.95, 4);
    // 95 % of the triangle two equal rectangles make: 2 − 2√0.05 of ±2
    const two = [fromLimits('a', 'a', 1, 1), fromLimits('b', 'b', 1, 1)];
    expect(combine(two).expandedUncertainty).toBeCloseTo(2 - 2 * Math.sqrt(0.05), 4);
    // the same as one triangle
    const triangle = {
      source: 'c',
      label: 'c',
      effect: 2 / Math.sqrt(6),
      dof: Infinity,
      shape: 'triangular' as const,
    };
    expect(combine([triangle]).expandedUncertainty).toBeCloseTo(2 - 2 * Math.sqrt(0.05), 4);
    expect(combine([{ ...triangle, shape: 'normal' }]).coverageFactor).toBeCloseTo(1.96, 3);
  });

  it('verified by hand: Welch–Satterthwaite of one part repeats and one part known is 4ν', () => {
    expect(welchSatterthwaite([repeats(1, 3), { ...repeats(1, 3), dof: Infinity }])).toBeCloseTo(8, 12);
  });

  it('passes smoothly from repeats to limits, and narrows by a second doubt less than Welch–Satterthwaite does', () => {
    for (const [n, most] of [
      [3, 0.14],
      [4, 0.03],
      [5, 0.001],
    ] as const) {
      const alone = combine([repeats(1, n)]).expandedUncertainty;
      let last = alone;
      for (let ratio = 0.001; ratio < 1000; ratio *= 1.5) {
        const u = combine([repeats(1, n), fromLimits('b', 'b', 1, ratio * Math.sqrt(3))]);
        expect(u.expandedUncertainty).toBeGreaterThan(alone * (1 - most));
        expect(u.expandedUncertainty / last).toBeGreaterThan(0.92);
        expect(u.expandedUncertainty / last).toBeLessThan(1.51);
        last = u.expandedUncertainty;
        // past equal parts the limits take over
        if (ratio > 20) expect(last / (0.95 * Math.sqrt(3) * ratio)).toBeCloseTo(1, 1);
      }
    }
  });

  it('refuses coverage and components that are none', () => {
    expect(() => combine([repeats(1, 3)], 1)).toThrow(DomainError);
    expect(() => combine([repeats(Number.NaN, 3)])).toThrow(DomainError);
    expect(() => combine([{ ...repeats(1, 3), dof: 0.5 }])).toThrow(DomainError);
    expect(combine([]).expandedUncertainty).toBe(0);
  });
});
