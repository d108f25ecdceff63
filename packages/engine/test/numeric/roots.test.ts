import { expect, test } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { findRoot } from '../../src/numeric/roots';

test('finds roots to rounding, flat and steep', () => {
  expect(findRoot((x) => x * x - 2, 0, 2).root).toBeCloseTo(Math.SQRT2, 14);
  expect(findRoot((x) => (x - 1) ** 3, -4, 9).root).toBeCloseTo(1, 4);
  expect(findRoot(Math.cos, 1, 2).root).toBeCloseTo(Math.PI / 2, 14);
  expect(findRoot((x) => Math.exp(x) - 1e8, 0, 100).root).toBeCloseTo(Math.log(1e8), 12);
  expect(findRoot((x) => x, 0, 5)).toMatchObject({ root: 0, converged: true });
});

test('says when it ran out of steps, and refuses ends of one sign', () => {
  expect(findRoot((x) => x ** 9 - 1e-3, 0, 100, 0, 3).converged).toBe(false);
  expect(() => findRoot((x) => x * x + 1, -1, 1)).toThrow(DomainError);
  expect(() => findRoot(() => Number.NaN, -1, 1)).toThrow(DomainError);
});
