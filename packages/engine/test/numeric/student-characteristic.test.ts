import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { studentCharacteristic } from '../../src/numeric/student-characteristic';

describe('characteristic function of Student’s t', () => {
  it('verified: closed forms for one, three and five degrees of freedom', () => {
    for (const w of [1e-6, 0.01, 0.3, 1, 2.5, 6]) {
      expect(Math.abs(studentCharacteristic(1)(w) - Math.exp(-w))).toBeLessThan(1e-9);
      const x = Math.sqrt(3) * w;
      expect(Math.abs(studentCharacteristic(3)(w) - Math.exp(-x) * (1 + x))).toBeLessThan(1e-9);
      const y = Math.sqrt(5) * w;
      expect(Math.abs(studentCharacteristic(5)(w) - Math.exp(-y) * (1 + y + (y * y) / 3))).toBeLessThan(1e-9);
    }
  });

  it('is 1 at 0, falls, and comes near the normal one', () => {
    expect(studentCharacteristic(2)(0)).toBe(1);
    for (const dof of [0.5, 2, 7.3, 60]) {
      let last = 1;
      for (let w = 0.05; w < 5; w += 0.05) {
        const φ = studentCharacteristic(dof)(w);
        expect(φ).toBeLessThan(last);
        last = φ;
      }
    }
    // variance ν/(ν − 2) of t with 60 degrees of freedom: 3 % off the normal distribution
    expect(studentCharacteristic(60)(1) / Math.exp(-0.5 * (60 / 58))).toBeCloseTo(1, 2);
    expect(() => studentCharacteristic(61)(1)).toThrow(DomainError);
    expect(() => studentCharacteristic(2)(Number.NaN)).toThrow(DomainError);
  });
});
