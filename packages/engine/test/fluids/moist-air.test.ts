import fc from 'fast-check';
import psychrolib from 'psychrolib';
import { beforeAll, describe, expect, it } from 'vitest';
import {
  airConductivity,
  airDensity,
  airHeatCapacity,
  airPrandtl,
  airViscosity,
  dewPointFromHumidity,
  dewPointFromVapourPressure,
  humidityFromDewPoint,
  humidityRatio,
  pressureAtElevation,
  saturationPressure,
  vapourPressureFromHumidity,
} from '../../src/fluids/moist-air';
import { waterVapourPressure } from '../../src/fluids/water';
import { DomainError } from '../../src/numeric/errors';

const warm = fc.double({ min: 0.02, max: 80, noNaN: true });
const anyAir = fc.double({ min: -55, max: 120, noNaN: true });
const humidity = fc.double({ min: 0.05, max: 1, noNaN: true });

describe('moist air', () => {
  beforeAll(() => psychrolib.SetUnitSystem(psychrolib.SI));

  // verified: psychrolib carries the same handbook; it rounds nothing, so 1e-6 is the tolerance of its own iteration.
  it('agrees with an independent library', () => {
    fc.assert(
      fc.property(warm, humidity, fc.double({ min: -100, max: 3000, noNaN: true }), (t, phi, z) => {
        const p = pressureAtElevation(z);
        const pw = vapourPressureFromHumidity(t, phi);
        expect(Math.abs(p / psychrolib.GetStandardAtmPressure(z) - 1)).toBeLessThan(1e-12);
        expect(Math.abs(saturationPressure(t) / psychrolib.GetSatVapPres(t) - 1)).toBeLessThan(1e-9);
        const w = humidityRatio(pw, p);
        expect(Math.abs(w / psychrolib.GetHumRatioFromRelHum(t, phi, p) - 1)).toBeLessThan(1e-6);
        const rho = psychrolib.GetMoistAirDensity(t, psychrolib.GetHumRatioFromRelHum(t, phi, p), p);
        expect(Math.abs(airDensity(t, p, pw) / rho - 1)).toBeLessThan(1e-5);
        const dew = dewPointFromHumidity(t, phi);
        if (dew > 0.02) expect(Math.abs(dew - psychrolib.GetTDewPointFromRelHum(t, phi))).toBeLessThan(2e-3);
      }),
    );
  });

  it('continues over liquid water below freezing', () => {
    // verified: Murphy & Koop 2005, eq. 10, computed here from its published coefficients.
    for (const t of [-5, -10, -20, -30, -40]) {
      const T = t + 273.15;
      const ln =
        54.842763 -
        6763.22 / T -
        4.21 * Math.log(T) +
        0.000367 * T +
        Math.tanh(0.0415 * (T - 218.8)) * (53.878 - 1331.22 / T - 9.44523 * Math.log(T) + 0.014025 * T);
      expect(Math.abs(saturationPressure(t) / Math.exp(ln) - 1)).toBeLessThan(t < -20 ? 8e-3 : 2e-3);
    }
  });

  it('is 0.02 % under IAPWS at pool temperatures', () => {
    // verified: the two formulations differ by this much, which is why evaporation checks name theirs.
    for (const t of [20, 25, 30, 40]) {
      const ratio = waterVapourPressure(t) / saturationPressure(t) - 1;
      expect(ratio).toBeGreaterThan(0);
      expect(ratio).toBeLessThan(4e-4);
    }
  });

  it('goes from humidity to dew point and back', () => {
    fc.assert(
      fc.property(anyAir, humidity, (t, phi) => {
        fc.pre(phi * saturationPressure(t) > saturationPressure(-60));
        const dew = dewPointFromHumidity(t, phi);
        expect(dew).toBeLessThanOrEqual(t + 1e-8);
        expect(humidityFromDewPoint(t, dew)).toBeCloseTo(phi, 9);
      }),
    );
  });

  it('meets the sea-level values of the US Standard Atmosphere 1976', () => {
    // verified: table of sea-level properties, 288.15 K; tolerance is the last digit.
    expect(airViscosity(15)).toBeCloseTo(1.7894e-5, 9);
    expect(airConductivity(15)).toBeCloseTo(2.5326e-2, 6);
    expect(airDensity(15, 101_325)).toBeCloseTo(1.225, 3);
    expect(airPrandtl(15)).toBeCloseTo(0.711, 3);
  });

  it('has vapour make air lighter and raise its heat capacity', () => {
    expect(airDensity(30, 101_325, 3000)).toBeLessThan(airDensity(30, 101_325));
    expect(airHeatCapacity(0.02)).toBeGreaterThan(airHeatCapacity());
  });

  it('refuses what it cannot know, and NaN', () => {
    for (const call of [
      () => saturationPressure(-61),
      () => saturationPressure(Number.NaN),
      () => vapourPressureFromHumidity(20, 1.01),
      () => vapourPressureFromHumidity(20, Number.NaN),
      () => dewPointFromVapourPressure(0),
      () => dewPointFromVapourPressure(Number.NaN),
      () => humidityRatio(1e5, 1e5),
      () => humidityRatio(100, Number.NaN),
      () => airDensity(20, 0),
      () => airDensity(20, 1e5, -1),
      () => airViscosity(Number.NaN),
      () => airConductivity(Number.NaN),
      () => airHeatCapacity(-1),
      () => pressureAtElevation(20_000),
      () => pressureAtElevation(Number.NaN),
    ])
      expect(call).toThrow(DomainError);
  });
});
