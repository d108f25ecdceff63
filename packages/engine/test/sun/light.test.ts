import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { pressureAtElevation } from '../../src/fluids/moist-air';
import { absoluteAirMass, airMass } from '../../src/sun/air-mass';
import { clearSkyHaurwitz_Wm2, clearSkyIneichen } from '../../src/sun/clear-sky';
import { dailyExtraterrestrial_Jm2, extraterrestrialNormal_Wm2 } from '../../src/sun/extraterrestrial';
import { cosIncidence } from '../../src/sun/incidence';
import { lightOnPlane, type SkyModel, skyDiffuse_Wm2, totalOnPlane_Wm2 } from '../../src/sun/plane';
import { diffuseShareErbs, splitGlobal } from '../../src/sun/split';
import truth from '../truth/sun.json';

const row = (name: string) => truth.rows.find((r) => r.name === name) as unknown as Record<string, number>;
const MODELS: SkyModel[] = ['perez', 'hay-davies', 'isotropic'];

describe('verified: published figures', () => {
  test('clear sky of Ineichen and Perez', () => {
    const t = row('ineichen');
    const am = absoluteAirMass(t.zenith_deg, pressureAtElevation(t.elevation_m));
    const i0 = extraterrestrialNormal_Wm2(t.dayOfYear, t.solarConstant_Wm2);
    const sky = clearSkyIneichen(t.zenith_deg, am, t.linkeTurbidity, t.elevation_m, i0);
    // last printed digit
    expect(sky.globalHorizontal_Wm2).toBeCloseTo(t.globalHorizontal_Wm2, 2);
    expect(sky.directNormal_Wm2).toBeCloseTo(t.directNormal_Wm2, 2);
    expect(sky.diffuseHorizontal_Wm2).toBeCloseTo(t.diffuseHorizontal_Wm2, 2);
  });
  test('clear sky of Haurwitz', () => {
    const t = row('haurwitz');
    expect(Math.abs(clearSkyHaurwitz_Wm2(t.zenith_deg) - t.globalHorizontal_Wm2)).toBeLessThan(0.005);
  });
  test('three sky models on one plane', () => {
    const t = row('plane');
    const sky = {
      sunZenith_deg: t.zenith_deg,
      sunAzimuth_deg: t.azimuth_deg,
      directNormal_Wm2: t.directNormal_Wm2,
      diffuseHorizontal_Wm2: t.diffuseHorizontal_Wm2,
      extraterrestrial_Wm2: t.extraterrestrial_Wm2,
    };
    const on = (m: SkyModel) => skyDiffuse_Wm2(lightOnPlane(sky, t.tilt_deg, t.facing_deg, 0.2, m));
    // half of the last printed digit
    expect(Math.abs(on('isotropic') - t.isotropic_Wm2)).toBeLessThan(0.0005);
    expect(Math.abs(on('hay-davies') - t.hayDavies_Wm2)).toBeLessThan(0.0005);
    expect(Math.abs(on('perez') - t.perez_Wm2)).toBeLessThan(0.0005);
    const c = cosIncidence(t.zenith_deg, t.azimuth_deg, t.tilt_deg, t.facing_deg);
    expect(Math.abs(c - t.cosIncidence)).toBeLessThan(1e-6);
    expect(Math.abs(airMass(t.zenith_deg) - t.airMass)).toBeLessThan(1e-5);
  });
  test('daily extraterrestrial light on the horizontal', () => {
    const t = row('daily');
    const mj = dailyExtraterrestrial_Jm2(t.latitude_deg, t.dayOfYear) / 1e6;
    expect(Math.abs(mj - t.extraterrestrial_MJm2)).toBeLessThan(0.05);
  });
});

describe('light on a plane', () => {
  test('is refused for a sun or a plane that lies nowhere', () => {
    const sky = {
      sunZenith_deg: 40,
      sunAzimuth_deg: 180,
      directNormal_Wm2: 800,
      diffuseHorizontal_Wm2: 100,
      extraterrestrial_Wm2: 1367,
    };
    for (const wrong of [Number.NaN, -1, 181])
      expect(() => lightOnPlane({ ...sky, sunZenith_deg: wrong }, 20, 180, 0.2)).toThrow(/zenith/);
    for (const wrong of [Number.NaN, Infinity]) {
      expect(() => lightOnPlane({ ...sky, sunAzimuth_deg: wrong }, 20, 180, 0.2)).toThrow(/azimuth/);
      expect(() => lightOnPlane(sky, 20, wrong, 0.2)).toThrow(/facing/);
    }
  });
});

describe('split of global light', () => {
  test('meets itself within 0.5 % at the breaks of Erbs', () => {
    for (const kt of [0.22, 0.8])
      expect(Math.abs(diffuseShareErbs(kt - 1e-9) - diffuseShareErbs(kt + 1e-9))).toBeLessThan(0.005);
  });
  test('direct and diffuse add up to what was measured', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 1300, noNaN: true }),
        fc.double({ min: 0, max: 110, noNaN: true }),
        (ghi, z) => {
          const s = splitGlobal(ghi, z, 1367);
          const beam = z < 90 ? s.directNormal_Wm2 * Math.cos((z * Math.PI) / 180) : 0;
          expect(s.diffuseHorizontal_Wm2 + beam).toBeCloseTo(ghi, 8);
          expect(s.diffuseHorizontal_Wm2).toBeGreaterThanOrEqual(-1e-9);
          expect(s.directNormal_Wm2).toBeGreaterThanOrEqual(0);
          expect(s.directNormal_Wm2).toBeLessThanOrEqual(1367);
        },
      ),
      { seed: 11 },
    );
  });
});

describe('invariants of light on a plane', () => {
  test('a level plane receives exactly the global light, by every model', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 84, noNaN: true }),
        fc.double({ min: 0, max: 1000, noNaN: true }),
        fc.double({ min: 1, max: 500, noNaN: true }),
        fc.constantFrom(...MODELS),
        (z, dni, dhi, model) => {
          const sky = {
            sunZenith_deg: z,
            sunAzimuth_deg: 123,
            directNormal_Wm2: dni,
            diffuseHorizontal_Wm2: dhi,
            extraterrestrial_Wm2: 1367,
          };
          const ghi = dhi + dni * Math.cos((z * Math.PI) / 180);
          expect(totalOnPlane_Wm2(lightOnPlane(sky, 0, 77, 0.3, model)) / ghi).toBeCloseTo(1, 10);
        },
      ),
      { seed: 12 },
    );
  });
  test('never negative, never NaN, the sun below the horizon included', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 130, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 0, max: 180, noNaN: true }),
        fc.double({ min: 0, max: 1100, noNaN: true }),
        fc.double({ min: 0, max: 600, noNaN: true }),
        fc.constantFrom(...MODELS),
        (z, az, tilt, dni, dhi, model) => {
          const sky = {
            sunZenith_deg: z,
            sunAzimuth_deg: az,
            directNormal_Wm2: dni,
            diffuseHorizontal_Wm2: dhi,
            extraterrestrial_Wm2: 1367,
          };
          const l = lightOnPlane(sky, tilt, 200, 0.25, model);
          expect(skyDiffuse_Wm2(l)).toBeGreaterThanOrEqual(-1e-9);
          expect(totalOnPlane_Wm2(l)).toBeGreaterThanOrEqual(-1e-9);
          if (z >= 90) expect(l.direct_Wm2 + l.circumsolar_Wm2).toBe(0);
        },
      ),
      { seed: 13 },
    );
  });
  test('both faces of a plane share the background evenly', () => {
    const sky = {
      sunZenith_deg: 40,
      sunAzimuth_deg: 180,
      directNormal_Wm2: 700,
      diffuseHorizontal_Wm2: 100,
      extraterrestrial_Wm2: 1367,
    };
    const a = lightOnPlane(sky, 35, 190, 0.2);
    const b = lightOnPlane(sky, 145, 10, 0.2);
    const { background_Wm2: level } = lightOnPlane(sky, 0, 0, 0);
    expect(a.background_Wm2 + b.background_Wm2).toBeCloseTo(level, 9);
    expect(b.cosIncidence).toBeCloseTo(-a.cosIncidence, 12);
  });
});

test('the two clear-sky models agree to a tenth while the sun is well up', () => {
  for (const z of [10, 30, 50, 70]) {
    const sky = clearSkyIneichen(z, absoluteAirMass(z, 101_325), 3, 0, 1367);
    expect(Math.abs(sky.globalHorizontal_Wm2 / clearSkyHaurwitz_Wm2(z) - 1)).toBeLessThan(0.1);
  }
});

test('misuse is refused, NaN included', () => {
  expect(() => airMass(Number.NaN)).toThrow(RangeError);
  expect(() => clearSkyIneichen(30, 1, Number.NaN, 0, 1367)).toThrow(RangeError);
  expect(() => splitGlobal(-1, 30, 1367)).toThrow(RangeError);
  expect(() => pressureAtElevation(Number.NaN)).toThrow(RangeError);
  expect(() => extraterrestrialNormal_Wm2(0)).toThrow(RangeError);
});
