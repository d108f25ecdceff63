import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  waterConductivity,
  waterDensity,
  waterEnthalpy,
  waterExpansion,
  waterHeatCapacity,
  waterPrandtl,
  waterVapourPressure,
  waterViscosity,
} from '../../src/fluids/water';
import { DomainError } from '../../src/numeric/errors';
import truth from '../truth/water-properties.json';

const temperatures = fc.double({ min: 0, max: 99.9, noNaN: true });

describe('liquid water', () => {
  // verified: every digit the release prints.
  it('meets the verification values of SR6-08', () => {
    const { temperature_C: t, ...release } = truth.release;
    expect(waterDensity(t)).toBeCloseTo(release.density_kgm3, 6);
    expect(waterHeatCapacity(t)).toBeCloseTo(release.heatCapacity_JkgK, 5);
    expect(waterEnthalpy(t)).toBeCloseTo(release.gibbs_Jkg + 298.15 * release.entropy_JkgK, 2);
    expect(waterExpansion(t) / waterDensity(t)).toBeCloseTo(release.volumeSlope_m3kgK, 15);
    expect(waterViscosity(t)).toBeCloseTo(release.viscosity_Pas, 12);
    expect(waterConductivity(t)).toBeCloseTo(release.conductivity_WmK, 9);
  });

  // verified: tolerance is one unit of the last digit given; for heat capacity 0.11, because the figures are
  // those of IAPWS-95, which SR6-08 follows within that; for vapour pressure 1e-4 relative where that is more
  // (the auxiliary equation gives 19.9474 kPa at 60 °C, the industrial tables 19.946; it claims 0.02 %).
  it.each(truth.rows)('meets IAPWS-95 at %d °C', (t, density, capacity, viscosity, vapour) => {
    const near = (found: number, given: number | null, tolerance: number) => {
      if (given !== null) expect(Math.abs(found - given)).toBeLessThan(tolerance);
    };
    near(waterDensity(t!), density, 0.01);
    near(waterHeatCapacity(t!), capacity, 0.11);
    near(waterViscosity(t!) * 1e3, viscosity, 1e-4);
    near(waterVapourPressure(t!) / 1e3, vapour, Math.max(1e-3, 1e-4 * vapour!));
  });

  it('is densest at 3.98 °C', () => {
    // verified: 999.975 kg/m³ at 3.983 °C (Tanaka et al. 2001).
    expect(Math.abs(waterExpansion(3.98))).toBeLessThan(1e-7);
    expect(waterDensity(3.983)).toBeCloseTo(999.975, 2);
  });

  it('has the triple-point pressure', () => {
    // verified: 611.657 Pa at 273.16 K, IAPWS-95.
    expect(waterVapourPressure(0.01)).toBeCloseTo(611.657, 3);
  });

  it('boils at 100 °C under one atmosphere', () => {
    // verified: normal boiling point 99.974 °C of IAPWS-95.
    expect(waterVapourPressure(99.974)).toBeCloseTo(101_325, -1);
  });

  it('keeps enthalpy, heat capacity, density and expansion consistent with each other', () => {
    fc.assert(
      fc.property(temperatures, (t) => {
        const h = 0.05;
        const low = Math.max(t, h);
        // Central differences of smooth functions: the error is of order h².
        const capacity = (waterEnthalpy(low + h) - waterEnthalpy(low - h)) / (2 * h);
        expect(Math.abs(capacity / waterHeatCapacity(low) - 1)).toBeLessThan(1e-6);
        const expansion = -Math.log(waterDensity(low + h) / waterDensity(low - h)) / (2 * h);
        expect(Math.abs(expansion - waterExpansion(low))).toBeLessThan(1e-9);
        expect(waterPrandtl(low)).toBeCloseTo(
          (waterViscosity(low) * waterHeatCapacity(low)) / waterConductivity(low),
          12,
        );
      }),
    );
  });

  it('refuses what is not liquid water, and NaN', () => {
    for (const property of [
      waterDensity,
      waterExpansion,
      waterHeatCapacity,
      waterEnthalpy,
      waterViscosity,
      waterConductivity,
      waterPrandtl,
      waterVapourPressure,
    ])
      for (const t of [-0.01, 100.01, Number.NaN, Infinity]) expect(() => property(t)).toThrow(DomainError);
  });
});
