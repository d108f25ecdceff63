import { describe, expect, it } from 'vitest';
import { combine } from '../../src/measurement/coverage';
import { chiSquareCdf, normalCdf } from '../../src/numeric/statistics-normal';

const NODES = 40;

/** Middles of equally likely pieces of s/σ for n readings, by bisection on χ². */
function spreads(n: number): number[] {
  return Array.from({ length: NODES }, (_, i) => {
    let low = 0;
    let high = 100;
    for (let k = 0; k < 50; k++) {
      const middle = (low + high) / 2;
      if (chiSquareCdf(middle, n - 1) < (i + 0.5) / NODES) low = middle;
      else high = middle;
    }
    return Math.sqrt(low / (n - 1));
  });
}

/** P(|normal σ + rectangle ±√3| ≤ k), the rectangle cut into equal pieces. */
function within(k: number, sigma: number): number {
  let sum = 0;
  for (let i = 0; i < 60; i++) {
    const b = Math.sqrt(3) * ((2 * (i + 0.5)) / 60 - 1);
    sum += normalCdf((k - b) / sigma) - normalCdf((-k - b) / sigma);
  }
  return sum / 60;
}

describe('coverage of the interval, by integration over the unknown spread', () => {
  it.each([
    [3, 0.933, 0.957],
    [4, 0.942, 0.956],
    [5, 0.944, 0.955],
  ])('%s readings beside one rectangular limit, in any proportion', (n, least, most) => {
    const nodes = spreads(n);
    for (const sigma of [0.2, 0.5, 1, 1.5, 2.5, 5, 12]) {
      let covered = 0;
      let byTable = 0;
      for (const s of nodes) {
        const u = combine([
          { source: 'a', label: 'a', effect: sigma * s, dof: n - 1, shape: 'normal' },
          { source: 'b', label: 'b', effect: 1, dof: Infinity, shape: 'rectangular' },
        ]);
        covered += within(u.expandedUncertainty, sigma) / NODES;
        byTable += within(u.gumCoverageFactor * u.standardUncertainty, sigma) / NODES;
      }
      expect(covered).toBeGreaterThan(least);
      expect(covered).toBeLessThan(most);
      // the table's factor is what this construction mends: too wide when the limit dominates
      if (sigma === 0.2) expect(byTable).toBeGreaterThan(0.99);
    }
  });
});
