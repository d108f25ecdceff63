import { describe, expect, it } from 'vitest';
import { waterEnthalpy } from '../../src/fluids/water';
import { DomainError } from '../../src/numeric/errors';
import { poolEnthalpy } from '../../src/pool/enthalpy';

describe('enthalpy table', () => {
  // Verified: IAPWS SR6-08 through the fluid functions. 0.02 J/kg is the bound the table states.
  it('follows the exact function', () => {
    for (let t = 0; t <= 60; t += 0.173)
      expect(Math.abs(poolEnthalpy(t) - waterEnthalpy(t))).toBeLessThan(0.02);
    expect(poolEnthalpy(60)).toBeCloseTo(waterEnthalpy(60), 6);
  });

  it('always rises, and refuses what is no pool', () => {
    for (let t = 0; t < 59.99; t += 0.01) expect(poolEnthalpy(t + 0.01)).toBeGreaterThan(poolEnthalpy(t));
    expect(() => poolEnthalpy(60.1)).toThrow(DomainError);
    expect(() => poolEnthalpy(Number.NaN)).toThrow(DomainError);
  });
});
