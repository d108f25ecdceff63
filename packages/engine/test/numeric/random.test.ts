import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { createRandom } from '../../src/numeric/random';
import {
  drawGamma,
  drawNormal,
  drawRectangular,
  drawStudent,
  drawTriangular,
} from '../../src/numeric/random-draws';
import { normalCdf } from '../../src/numeric/statistics-normal';
import { regularisedGamma } from '../../src/numeric/statistics-special';
import { studentCdf } from '../../src/numeric/student';

/** Largest distance between the empirical and the true distribution function (Kolmogorov–Smirnov). */
function distance(draw: () => number, cdf: (x: number) => number, n: number): number {
  const x = Float64Array.from({ length: n }, draw).sort();
  let worst = 0;
  for (let i = 0; i < n; i++)
    worst = Math.max(worst, Math.abs(cdf(x[i]!) - i / n), Math.abs(cdf(x[i]!) - (i + 1) / n));
  return worst * Math.sqrt(n);
}

describe('seeded random numbers', () => {
  it('pinned: the stream of seed 1 does not change', () => {
    const random = createRandom(1);
    expect([random(), random(), random()]).toMatchInlineSnapshot(`
      [
        0.5636717720710586,
        0.8959073941886353,
        0.2723428182814803,
      ]
    `);
  });

  it('same seed same stream, other seed other stream, 64 bits of the seed count', () => {
    const first = (seed: number) => createRandom(seed)();
    expect(first(7)).toBe(first(7));
    const seeds = [0, 1, -1, 0.5, 2 ** 32, 2 ** 32 + 1, 2 ** 40, 123456789012];
    expect(new Set(seeds.map(first)).size).toBe(seeds.length);
    expect(() => createRandom(Number.NaN)).toThrow(DomainError);
  });

  it('is uniform in pairs and has no lag-1 correlation', () => {
    const random = createRandom(42);
    const n = 100_000;
    const cells = new Float64Array(100);
    let product = 0;
    for (let i = 0; i < n; i++) {
      const a = random();
      const b = random();
      expect(a >= 0 && a < 1).toBe(true);
      cells[10 * Math.floor(10 * a) + Math.floor(10 * b)]! += 1;
      product += (a - 0.5) * (b - 0.5);
    }
    const chi = cells.reduce((sum, c) => sum + (c - n / 100) ** 2 / (n / 100), 0);
    // χ² with 99 degrees of freedom: 99.99 % below 158
    expect(chi).toBeLessThan(158);
    // standard deviation of the mean product is 1/(12√n)
    expect(Math.abs(product / n) * 12 * Math.sqrt(n)).toBeLessThan(4);
  });

  it.each([
    ['rectangular', drawRectangular, (x: number) => (x + 1) / 2],
    ['triangular', drawTriangular, (x: number) => (x < 0 ? (1 + x) ** 2 / 2 : 1 - (1 - x) ** 2 / 2)],
    ['normal', drawNormal, normalCdf],
    ['t, ν = 2', (r: () => number) => drawStudent(r, 2), (x: number) => studentCdf(x, 2)],
    ['t, ν = ∞', (r: () => number) => drawStudent(r, Infinity), normalCdf],
    ['gamma 0.5', (r: () => number) => drawGamma(r, 0.5), (x: number) => regularisedGamma(0.5, x)],
    ['gamma 3.2', (r: () => number) => drawGamma(r, 3.2), (x: number) => regularisedGamma(3.2, x)],
  ] as const)('%s draws follow their distribution', (_name, draw, cdf) => {
    const random = createRandom(2024);
    // Kolmogorov's distribution: 99.9 % below 1.95
    expect(distance(() => draw(random), cdf, 5_000)).toBeLessThan(1.95);
  });

  it('refuses shapes that are none', () => {
    const random = createRandom(1);
    expect(() => drawGamma(random, 0)).toThrow(DomainError);
    expect(() => drawStudent(random, Number.NaN)).toThrow(DomainError);
  });
});
