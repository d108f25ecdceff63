import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import {
  absorbedDiffuse,
  absorbedDirect,
  type PoolSunModel,
  WATER_DIFFUSE_REFLECTANCE,
  waterReflectance,
} from '../../src/pool/absorption';

const cos = (deg: number) => Math.cos((deg * Math.PI) / 180);
const light: PoolSunModel = { kind: 'absorptance', absorptance: 0.85 };

describe('sun on water', () => {
  // Arithmetic: Fresnel, n = 1.333 (last digit).
  it.each([
    [0, 0.0204],
    [60, 0.0597],
    [80, 0.348],
  ])('reflects at %i°: %f', (angle, share) => {
    expect(Math.abs(waterReflectance(cos(angle)) - share)).toBeLessThan(angle === 80 ? 5e-4 : 5e-5);
  });

  // Arithmetic: 0.066 for evenly diffuse light: the same Fresnel share, weighted by cosθ over the hemisphere.
  it('reflects 0.066 of diffuse light', () => {
    const n = 20_000;
    let sum = 0;
    for (let i = 0; i < n; i++) sum += waterReflectance(Math.sqrt((i + 0.5) / n));
    expect(sum / n).toBeCloseTo(WATER_DIFFUSE_REFLECTANCE, 3);
  });

  it('takes the stated share up to 60°, then Fresnel’s', () => {
    for (const angle of [0, 30, 60]) expect(absorbedDirect(light, cos(angle))).toBeCloseTo(0.85, 12);
    expect(absorbedDirect(light, cos(80))).toBeCloseTo((0.85 * (1 - 0.348)) / (1 - 0.0597), 3);
    expect(absorbedDirect(light, 0)).toBeCloseTo(0, 12);
    expect(absorbedDiffuse(light)).toBe(0.85);
  });

  it('by depth and floor: between .83 for a pale shallow and .98 for a black floor', () => {
    const at = (depth_m: number, floorReflectance: number) =>
      absorbedDirect({ kind: 'depthAndFloor', depth_m, floorReflectance }, 1);
    expect(at(1.5, 0)).toBeCloseTo(1 - waterReflectance(1), 12); // a black floor keeps all that enters
    // Common practice: about .85 light floor, .90 dark (ISO/TR 12596); within 0.05 of it.
    expect(Math.abs(at(1.4, 0.6) - 0.85)).toBeLessThan(0.05);
    expect(at(3, 0.6)).toBeGreaterThan(at(0.5, 0.6));
    expect(at(1.4, 0.2)).toBeGreaterThan(at(1.4, 0.8));
    expect(absorbedDiffuse({ kind: 'depthAndFloor', depth_m: 1.4, floorReflectance: 0.6 })).toBeLessThan(
      0.934,
    );
  });

  it('refuses what is none', () => {
    expect(() => waterReflectance(1.1)).toThrow(DomainError);
    expect(() => waterReflectance(Number.NaN)).toThrow(DomainError);
    expect(() => absorbedDirect({ kind: 'absorptance', absorptance: 1.1 }, 1)).toThrow(DomainError);
    expect(() => absorbedDiffuse({ kind: 'depthAndFloor', depth_m: 0, floorReflectance: 0.5 })).toThrow(
      DomainError,
    );
  });
});
