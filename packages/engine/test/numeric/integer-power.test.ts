import { expect, test } from 'vitest';
import { power12, power16, root12 } from '../../src/numeric/integer-power';

test('powers by squaring agree with the general power to rounding', () => {
  for (const x of [0.003, 0.7, 1, 1.9, 16.2, 375.3]) {
    expect(power12(x) / x ** 12).toBeCloseTo(1, 13);
    expect(power16(x) / x ** 16).toBeCloseTo(1, 13);
    expect(root12(power12(x)) / x).toBeCloseTo(1, 13);
  }
  expect(power12(-2)).toBe(4096);
});
