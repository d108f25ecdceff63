import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { minimumDegree } from '../../src/numeric/ordering';
import { sparseCholesky } from '../../src/numeric/sparse-cholesky';
import { sparseLu } from '../../src/numeric/sparse-lu';

/** A random symmetric pattern as pairs. */
const pattern = fc.integer({ min: 2, max: 24 }).chain((n) =>
  fc.record({
    n: fc.constant(n),
    pairs: fc.array(fc.tuple(fc.nat(n - 1), fc.nat(n - 1), fc.double({ min: -1, max: 1, noNaN: true })), {
      maxLength: 60,
    }),
    b: fc.array(fc.double({ min: -5, max: 5, noNaN: true }), { minLength: n, maxLength: n }),
  }),
);

function neighboursOf(n: number, pairs: readonly (readonly [number, number, number])[]): number[][] {
  const out: number[][] = Array.from({ length: n }, () => []);
  for (const [i, j] of pairs) {
    out[i]!.push(j);
    out[j]!.push(i);
  }
  return out;
}

const times = (matrix: number[][], x: ArrayLike<number>) =>
  matrix.map((row) => row.reduce((sum, a, j) => sum + a * x[j]!, 0));

const furthest = (a: number[], b: number[]) => Math.max(...a.map((v, i) => Math.abs(v - b[i]!)));

describe('factorisations', () => {
  test('LU solves unsymmetric systems of symmetric pattern', () => {
    fc.assert(
      fc.property(pattern, ({ n, pairs, b }) => {
        const lu = sparseLu(minimumDegree(neighboursOf(n, pairs)));
        const matrix: number[][] = Array.from({ length: n }, (_, i) =>
          Array.from({ length: n }, (_, j) => (i === j ? 20 : 0)),
        );
        for (const [i, j, v] of pairs) {
          if (i === j) continue;
          matrix[i]![j] = v;
          matrix[j]![i] = 0.5 - v;
        }
        lu.values.fill(0);
        let outside = 0;
        for (let i = 0; i < n; i++)
          for (let j = 0; j < n; j++) {
            const at = lu.position(i, j);
            if (at >= 0) lu.values[at] = matrix[i]![j]!;
            else outside += Math.abs(matrix[i]![j]!);
          }
        expect(outside).toBe(0);
        const x = Float64Array.from(b);
        expect(lu.factor(1e-12)).toBe(0);
        lu.solve(x);
        expect(furthest(times(matrix, x), b)).toBeLessThan(1e-10);
      }),
      { seed: 3, numRuns: 150 },
    );
  });

  test('Cholesky solves positive definite systems and says when they are not', () => {
    fc.assert(
      fc.property(pattern, ({ n, pairs, b }) => {
        const cholesky = sparseCholesky(minimumDegree(neighboursOf(n, pairs)));
        const matrix: number[][] = Array.from({ length: n }, (_, i) =>
          Array.from({ length: n }, (_, j) => (i === j ? 0.1 : 0)),
        );
        for (const [i, j, v] of pairs) {
          if (i === j) continue;
          matrix[i]![j]! -= Math.abs(v);
          matrix[j]![i]! -= Math.abs(v);
          matrix[i]![i]! += Math.abs(v);
          matrix[j]![j]! += Math.abs(v);
        }
        cholesky.values.fill(0);
        for (let i = 0; i < n; i++)
          for (let j = i; j < n; j++) {
            const at = cholesky.position(j, i);
            if (at >= 0) cholesky.values[at] = matrix[i]![j]!;
          }
        const x = Float64Array.from(b);
        expect(cholesky.factor()).toBe(true);
        cholesky.solve(x);
        expect(furthest(times(matrix, x), b)).toBeLessThan(1e-8);
        cholesky.values.fill(0);
        expect(cholesky.factor()).toBe(false);
      }),
      { seed: 4, numRuns: 150 },
    );
  });

  test('a pivot of zero is replaced and counted', () => {
    const lu = sparseLu(minimumDegree([[1], [0]]));
    lu.values.fill(0);
    expect(lu.factor(1e-6)).toBe(2);
  });
});

describe('order', () => {
  test('a chain is eliminated without fill', () => {
    const n = 50;
    const chain = Array.from({ length: n }, (_, i) => [i - 1, i + 1].filter((j) => j >= 0 && j < n));
    expect(minimumDegree(chain).pattern.length).toBe(n - 1);
  });

  test('an unknown waits for the one it is told to follow', () => {
    const star = [[1, 2, 3], [0], [0], [0]];
    const { place } = minimumDegree(star, Int32Array.from([-1, 0, 1, 2]));
    expect([...place]).toEqual([0, 1, 2, 3]);
  });

  test('a circle of waiting is refused', () => {
    expect(() => minimumDegree([[1], [0]], Int32Array.from([1, 0]))).toThrow(DomainError);
  });
});
