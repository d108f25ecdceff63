import { describe, expect, it } from 'vitest';
import { acceleration } from '../../src/hydraulics/air-accelerate';

describe('accelerated fixed point', () => {
  // x ← M·x + b with eigenvalues 0.95, 0.5 and −0.3: plain iteration needs about 350 steps to 1e-8
  const map = (x: Float64Array) =>
    Float64Array.of(0.95 * x[0]! + 1, 0.5 * x[1]! + 0.2 * x[0]!, -0.3 * x[2]! + 0.1 * x[1]! + 2);
  const residual = (x: Float64Array) => map(x).map((value, i) => value - x[i]!);
  const size = (x: Float64Array) => Math.max(...residual(x).map(Math.abs));

  it('finds a linear fixed point of three unknowns within a few steps of its depth', () => {
    const faster = acceleration();
    let x = new Float64Array(3);
    let steps = 0;
    for (; size(x) > 1e-8; steps++) x = faster.next(x, residual(x)) as Float64Array<ArrayBuffer>;
    expect(steps).toBeLessThanOrEqual(8);
    expect(x[0]).toBeCloseTo(20, 6);
  });

  it('stays where nothing is left to correct, and is a plain step at first', () => {
    const x = Float64Array.of(1, 2);
    expect([...acceleration().next(x, Float64Array.of(0.5, -1))]).toEqual([1.5, 1]);
    const faster = acceleration();
    faster.next(x, new Float64Array(2));
    expect([...faster.next(x, new Float64Array(2))]).toEqual([1, 2]);
  });
});
