import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { ANGSTROM_US, clearnessFromSunshine, cloudFromClearness } from '../../src/weather/angstrom';
import {
  clearnessDistribution,
  clearnessQuantile,
  clearnessShare,
  largestClearness,
} from '../../src/weather/clearness';
import { hourShare } from '../../src/weather/hourly-profile';
import truth from '../truth/daily-clearness.json';

describe('distribution of daily clearness', () => {
  it.each([0.2, 0.3, 0.4, 0.5, 0.6, 0.7, 0.75])('has the month’s mean %f', (mean) => {
    const distribution = clearnessDistribution(mean);
    const n = 20_000;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += clearnessQuantile(distribution, (i + 0.5) / n);
    expect(sum / n).toBeCloseTo(mean, 4);
  });

  // Published, from memory: Herzog's fit of γ (Duffie & Beckman eq. 2.9.8), stated for 0.3 ≤ K̄ ≤ 0.7. A fit:
  // 0.25 or 5 %.
  it.each([0.3, 0.4, 0.5, 0.6, 0.7])('steepness agrees with the published fit at %f', (mean) => {
    const { gamma, largest, least } = clearnessDistribution(mean);
    const xi = (largest - least) / (largest - mean);
    const fit = -1.498 + (1.184 * xi - 27.182 * Math.exp(-1.5 * xi)) / (largest - least);
    expect(Math.abs(gamma - fit)).toBeLessThan(Math.max(0.25, 0.05 * Math.abs(fit)));
  });

  // Published, from memory: Liu & Jordan's generalised curves. The exponential form was fitted to other stations;
  // Bendt et al. call the agreement "good": 0.13 at the worst point, 0.06 in the mean, here.
  it.each(truth.rows)('follows the generalised curve of mean $mean', ({ mean, share }) => {
    const distribution = clearnessDistribution(mean);
    const off = share.map((f, i) => Math.abs(clearnessShare(distribution, truth.clearness[i]) - f));
    expect(Math.max(...off)).toBeLessThan(0.13);
    expect(off.reduce((a, b) => a + b, 0) / off.length).toBeLessThan(0.06);
  });

  it('quantile and share are inverse, and both rise', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0.05, max: 0.83, noNaN: true }),
        fc.double({ min: 0.001, max: 0.999, noNaN: true }),
        (mean, u) => {
          const distribution = clearnessDistribution(mean);
          const k = clearnessQuantile(distribution, u);
          expect(k).toBeGreaterThanOrEqual(distribution.least - 1e-12);
          expect(k).toBeLessThanOrEqual(distribution.largest + 1e-12);
          expect(clearnessShare(distribution, k)).toBeCloseTo(u, 6);
          expect(clearnessQuantile(distribution, Math.min(1, u + 0.001))).toBeGreaterThanOrEqual(k);
        },
      ),
      { seed: 2, numRuns: 200 },
    );
  });

  it('refuses what is none', () => {
    for (const mean of [-0.1, 0.9, Number.NaN])
      expect(() => clearnessDistribution(mean)).toThrow(DomainError);
    expect(() => clearnessQuantile(clearnessDistribution(0.5), 1.1)).toThrow(DomainError);
    expect(largestClearness(0.5)).toBeCloseTo(0.6313 + 0.1335 - 11.9 * 0.25 ** 8, 12);
  });
});

describe('hours of a day', () => {
  // Published, from memory: Duffie & Beckman, example 2.13.2: Madison, 23 August, δ 11.2°, ω_s 101.4°, 1 to 2 in
  // the afternoon: 0.117. There at the middle of the hour; 1 % because
  // the printed formula's hours add up to 0.994 and ours to 1.
  it('the worked example', () => {
    const phi = (43.1 * Math.PI) / 180;
    const delta = (11.2 * Math.PI) / 180;
    const sunset = Math.acos(-Math.tan(phi) * Math.tan(delta));
    expect(Math.abs(hourShare(sunset, Math.PI / 12, Math.PI / 6) / 0.117 - 1)).toBeLessThan(0.01);
  });

  it('shares of a day add up to one, morning as afternoon', () => {
    for (const sunset of [0.05, 0.7, Math.PI / 2, 2.2, Math.PI]) {
      let sum = 0;
      for (let h = -12; h < 12; h++) sum += hourShare(sunset, (h * Math.PI) / 12, ((h + 1) * Math.PI) / 12);
      expect(sum).toBeCloseTo(1, 10);
      expect(hourShare(sunset, 0, 0.3)).toBeCloseTo(hourShare(sunset, -0.3, 0), 12);
    }
    expect(hourShare(0, -1, 1)).toBe(0);
    expect(() => hourShare(4, 0, 1)).toThrow(DomainError);
    expect(() => hourShare(1, 1, 0)).toThrow(DomainError);
  });
});

describe('sunshine', () => {
  // Verified: FAO-56 eq. 35: overcast .25, cloudless .75 of the sun above the air.
  it('to clearness and back to cloud', () => {
    expect(clearnessFromSunshine(0)).toBe(0.25);
    expect(clearnessFromSunshine(1)).toBe(0.75);
    expect(clearnessFromSunshine(0.5, ANGSTROM_US)).toBeCloseTo(0.477, 12);
    for (const share of [0, 0.2, 0.7, 1])
      expect(cloudFromClearness(clearnessFromSunshine(share))).toBeCloseTo(1 - share, 12);
    expect(cloudFromClearness(0.05)).toBe(1);
    expect(() => clearnessFromSunshine(1.1)).toThrow(DomainError);
    expect(() => cloudFromClearness(Number.NaN)).toThrow(DomainError);
  });
});
