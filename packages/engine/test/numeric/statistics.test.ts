import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import {
  correlation,
  covariance,
  mean,
  sampleQuantile,
  standardDeviation,
  standardDeviationOfMean,
} from '../../src/numeric/statistics';

const finite = fc.double({ min: -1e6, max: 1e6, noNaN: true });

describe('descriptive statistics', () => {
  it('verified by hand: three stopwatch times', () => {
    expect(mean([61.2, 60.4, 61.9])).toBeCloseTo(61.166667, 6);
    // √(0.563333) with deviations 0.0333, −0.7667, 0.7333
    expect(standardDeviation([61.2, 60.4, 61.9])).toBeCloseTo(0.750555, 6);
    expect(standardDeviationOfMean([61.2, 60.4, 61.9])).toBeCloseTo(0.750555 / Math.sqrt(3), 6);
  });

  it('shifting does nothing to the spread, scaling scales it', () => {
    fc.assert(
      fc.property(fc.array(finite, { minLength: 2, maxLength: 20 }), finite, (x, shift) => {
        const s = standardDeviation(x);
        expect(Math.abs(standardDeviation(x.map((v) => v + shift)) - s)).toBeLessThan(1e-6 + 1e-9 * s);
        expect(Math.abs(standardDeviation(x.map((v) => -3 * v)) - 3 * s)).toBeLessThan(1e-6 + 1e-9 * s);
        expect(mean(x)).toBeGreaterThanOrEqual(Math.min(...x) - 1e-9);
        expect(mean(x)).toBeLessThanOrEqual(Math.max(...x) + 1e-9);
      }),
    );
  });

  it('keeps the spread of numbers that sit far from zero', () => {
    expect(standardDeviation([1e9 + 1, 1e9 + 2, 1e9 + 3])).toBeCloseTo(1, 9);
  });

  it('correlation lies within ±1 and is 1 with itself', () => {
    fc.assert(
      fc.property(
        fc.array(fc.tuple(fc.integer(), fc.integer()), { minLength: 2, maxLength: 12 }),
        (pairs) => {
          const x = pairs.map((p) => p[0]);
          const y = pairs.map((p) => p[1]);
          if (standardDeviation(x) === 0 || standardDeviation(y) === 0) return;
          expect(Math.abs(correlation(x, y))).toBeLessThanOrEqual(1);
          expect(correlation(x, x)).toBeCloseTo(1, 12);
          expect(covariance(x, y)).toBeCloseTo(covariance(y, x), 3);
        },
      ),
    );
  });

  it('quantiles interpolate between readings', () => {
    expect(sampleQuantile([4, 1, 3, 2], 0)).toBe(1);
    expect(sampleQuantile([4, 1, 3, 2], 1)).toBe(4);
    expect(sampleQuantile([4, 1, 3, 2], 0.5)).toBe(2.5);
    expect(sampleQuantile([10, 2], 0.5)).toBe(6);
  });

  it('refuses too few readings and readings that are none', () => {
    expect(() => mean([])).toThrow(DomainError);
    expect(() => standardDeviation([1])).toThrow(DomainError);
    expect(() => mean([1, Number.NaN])).toThrow(DomainError);
    expect(() => covariance([1, 2], [1, 2, 3])).toThrow(DomainError);
    expect(() => correlation([1, 1], [1, 2])).toThrow(DomainError);
    expect(() => sampleQuantile([1], 2)).toThrow(DomainError);
  });
});
