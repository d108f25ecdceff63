import { levenbergMarquardt } from 'ml-levenberg-marquardt';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { leastSquares } from '../../src/numeric/levenberg-marquardt';
import { createRandom } from '../../src/numeric/random';
import { drawNormal } from '../../src/numeric/random-draws';

const x = Array.from({ length: 25 }, (_, i) => i / 6);
const decay = (p: readonly number[], t: number) => p[0]! * Math.exp(-p[1]! * t) + p[2]!;

describe('nonlinear least squares', () => {
  it('recovers planted parameters exactly when there is no noise', () => {
    const fit = leastSquares((p) => x.map((t) => decay(p, t) - decay([5, 0.8, 2], t)), [1, 1, 0]);
    expect(fit.converged).toBe(true);
    [5, 0.8, 2].forEach((truth, i) => {
      expect(fit.parameters[i]).toBeCloseTo(truth, 7);
    });
  });

  it('verified against an independent library on noisy data', () => {
    const random = createRandom(4);
    const y = x.map((t) => decay([5, 0.8, 2], t) + 0.1 * drawNormal(random));
    const ours = leastSquares((p) => x.map((t, i) => decay(p, t) - y[i]!), [1, 1, 0]);
    const theirs = levenbergMarquardt({ x, y }, (p: number[]) => (t: number) => decay(p, t), {
      initialValues: [4, 1, 1],
      maxIterations: 500,
      errorTolerance: 1e-12,
      damping: 1e-3,
      centralDifference: true,
      gradientDifference: 1e-6,
    });
    // both sit at the bottom of the same bowl; the other one stops earlier
    ours.parameters.forEach((p, i) => {
      expect(Math.abs(p - theirs.parameterValues[i]!)).toBeLessThan(2e-3);
    });
    expect(ours.cost).toBeLessThanOrEqual(theirs.parameterError * (1 + 1e-9));
  });

  it('its covariance is that of repeated fits', () => {
    const random = createRandom(9);
    const slopes: number[] = [];
    let foreseen = 0;
    for (let k = 0; k < 400; k++) {
      const y = x.map((t) => 3 + 2 * t + 0.5 * drawNormal(random));
      const fit = leastSquares((p) => x.map((t, i) => (p[0]! + p[1]! * t - y[i]!) / 0.5), [0, 0]);
      slopes.push(fit.parameters[1]!);
      foreseen = Math.sqrt(fit.covariance[1]![1]!);
    }
    const middle = slopes.reduce((a, b) => a + b) / slopes.length;
    const spread = Math.sqrt(slopes.reduce((sum, s) => sum + (s - middle) ** 2, 0) / (slopes.length - 1));
    // a standard deviation from 400 draws is good to 3.5 %
    expect(spread / foreseen).toBeGreaterThan(0.88);
    expect(spread / foreseen).toBeLessThan(1.12);
  });

  it('a prior is one more residual: mean of prior and datum, weighted', () => {
    const fit = leastSquares(([a]) => [(a! - 4) / 1, (a! - 1) / 0.5], [0]);
    expect(fit.parameters[0]).toBeCloseTo((4 + 4 * 1) / 5, 9);
    expect(fit.covariance[0]![0]).toBeCloseTo(1 / 5, 9);
  });

  it('passes Rosenbrock’s valley and keeps to bounds', () => {
    const valley = ([a, b]: readonly number[]) => [10 * (b! - a! * a!), 1 - a!];
    const free = leastSquares(valley, [-1.2, 1]);
    expect(free.converged).toBe(true);
    expect(free.parameters[0]).toBeCloseTo(1, 6);
    const bound = leastSquares(valley, [-1.2, 1], { upper: [0.5, 10] });
    expect(bound.parameters[0]).toBeCloseTo(0.5, 6);
    expect(bound.parameters[1]).toBeCloseTo(0.25, 4);
  });

  it('is blind to the units of its parameters', () => {
    const first = (unit: number) =>
      leastSquares(
        (p) => x.map((t) => decay([p[0]! / unit, p[1]!, p[2]!], t) - decay([5, 0.8, 2], t)),
        [unit, 1, 0],
        {
          steps: [1e-6 * unit, 1e-6, 1e-6],
        },
      ).parameters[0]! / unit;
    expect(first(1e6)).toBeCloseTo(first(1e-3), 6);
  });

  it('does not take a rough or a flat floor for the bottom', () => {
    const rough = leastSquares(([a]) => [1e-3 * Math.sin(1e7 * a!) + a! - 2], [0]);
    expect(rough.converged).toBe(Math.abs(rough.parameters[0]! - 2) < 0.01);
    expect(rough.converged).toBe(false);
    // a parameter that moves nothing has no covariance
    const flat = leastSquares(([a, b]) => [a! - 2, a! - 4, 0 * b!], [0, 1]);
    expect(flat.parameters[0]).toBeCloseTo(3, 9);
    expect(flat.converged).toBe(false);
    const steps = leastSquares(([a]) => [Math.floor(a!) - 2, 1], [0.5]);
    expect(steps.converged).toBe(false);
  });

  it('says when it did not arrive, and refuses what is no problem', () => {
    expect(
      leastSquares(([a, b]) => [10 * (b! - a! * a!), 1 - a!], [-1.2, 1], { maxIterations: 2 }).converged,
    ).toBe(false);
    expect(() => leastSquares(() => [1], [1, 2])).toThrow(DomainError);
    expect(() => leastSquares(() => [Number.NaN], [1])).toThrow(DomainError);
    // a parameter the data do not see has no finite variance
    expect(leastSquares(([a]) => [a! - 1, a! - 2], [0, 5]).covariance[1]![1]).toBeGreaterThan(1e100);
  });
});
