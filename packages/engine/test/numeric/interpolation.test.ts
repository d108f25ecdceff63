import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import {
  hermite,
  interpolateLinear,
  intervalOf,
  monotoneSlopes,
  ramp,
  smoothstep,
  smoothstepSlope,
} from '../../src/numeric/interpolation';

test('smoothstep runs from 0 to 1 with the slope it says it has', () => {
  expect(smoothstep(-1)).toBe(0);
  expect(smoothstep(2)).toBe(1);
  expect(smoothstep(0.25)).toBe(0.15625);
  for (const t of [0.1, 0.5, 0.93]) {
    const h = 1e-6;
    expect(smoothstepSlope(t)).toBeCloseTo((smoothstep(t + h) - smoothstep(t - h)) / (2 * h), 8);
  }
  expect(ramp(0.4, 0.3, 0.5)).toBeCloseTo(0.5, 15);
});

test('straight lines meet the points and hold the ends', () => {
  const xs = [0, 1, 3];
  const ys = [0, 10, 20];
  expect([-1, 0, 0.5, 1, 2, 3, 9].map((x) => interpolateLinear(xs, ys, x))).toEqual([
    0, 0, 5, 10, 15, 20, 20,
  ]);
  expect(intervalOf(xs, 1)).toBe(1);
});

describe('monotone cubic', () => {
  const out = { value: 0, slope: 0 };
  const points = fc
    .array(
      fc.tuple(fc.double({ min: 0.05, max: 3, noNaN: true }), fc.double({ min: 0, max: 5, noNaN: true })),
      {
        minLength: 2,
        maxLength: 9,
      },
    )
    .map((steps) => {
      let x = 0;
      let y = 30;
      const xs: number[] = [];
      const ys: number[] = [];
      for (const [dx, dy] of steps) {
        x += dx;
        y -= dy;
        xs.push(x);
        ys.push(y);
      }
      return { xs, ys };
    });

  test('falls wherever its points fall, and passes through them', () => {
    fc.assert(
      fc.property(points, ({ xs, ys }) => {
        const m = monotoneSlopes(xs, ys);
        let rise = 0;
        let miss = 0;
        for (let i = 0; i + 1 < xs.length; i++) {
          let before = ys[i]!;
          for (let k = 0; k <= 20; k++) {
            const x = xs[i]! + ((xs[i + 1]! - xs[i]!) * k) / 20;
            hermite(x, xs[i]!, xs[i + 1]!, ys[i]!, ys[i + 1]!, m[i]!, m[i + 1]!, out);
            rise = Math.max(rise, out.value - before);
            before = out.value;
          }
          miss = Math.max(miss, Math.abs(out.value - ys[i + 1]!));
        }
        expect(rise).toBeLessThan(1e-9);
        expect(miss).toBeLessThan(1e-9);
      }),
      { seed: 11, numRuns: 200 },
    );
  });

  test('is the straight line for two points and exact for a parabola’s inner slopes', () => {
    expect([...monotoneSlopes([0, 2], [1, 5])]).toEqual([2, 2]);
    expect(monotoneSlopes([0, 1, 2, 3], [9, 8, 5, 0])[1]).toBeCloseTo(-2, 14);
    expect([...monotoneSlopes([0, 1, 2], [0, 0, 1])]).toEqual([0, 0, 1.5]);
  });

  test('refuses points that are none', () => {
    expect(() => monotoneSlopes([0, 0], [1, 2])).toThrow(DomainError);
    expect(() => monotoneSlopes([0, Number.NaN], [1, 2])).toThrow(DomainError);
    expect(() => monotoneSlopes([0], [1])).toThrow(DomainError);
    expect(() => monotoneSlopes([0, 1], [1])).toThrow(DomainError);
  });
});
