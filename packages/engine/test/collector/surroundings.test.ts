import { describe, expect, test } from 'vitest';
import { coilLight } from '../../src/collector/coil-light';
import { isoCurve } from '../../src/collector/iso-curve';
import type { OuterCurve } from '../../src/collector/outer-curve';
import { outerCurve, readOuter } from '../../src/collector/outer-curve';
import {
  netIrradiance_Wm2,
  PUBLISHED_AVERAGE_ABSORBER,
  ratedEfficiency,
  ratedHeat_Wm2,
} from '../../src/collector/rated-absorber';
import { rowFrame } from '../../src/collector/row-frame';
import { rowLight } from '../../src/collector/row-light';
import { evenRow, rowSight } from '../../src/collector/row-sight';
import {
  firstSlug,
  standingTemperature_C,
  timeConstant_s,
  tubeCapacity_JmK,
} from '../../src/collector/standing';
import { backedTube, buriedPipe, indoorPipe, type OpenAir, openTube } from '../../src/collector/surroundings';
import { wallResistance } from '../../src/collector/tube';
import { BORE, OD } from './panel-fixture';
import { row } from './truth';

const CALM: OpenAir = { air_C: 25, wind_ms: 0, pressure_Pa: 101_325, sky_C: 10 };
const at = (curve: OuterCurve, surface_C: number) => {
  const out = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
  curve.exact(surface_C, out);
  return out;
};
const NOON = {
  sunZenith_deg: 20,
  sunAzimuth_deg: 180,
  directNormal_Wm2: 920,
  diffuseHorizontal_Wm2: 90,
  extraterrestrial_Wm2: 1367,
};

describe('surroundings', () => {
  const lone = { diameter_m: OD, front: 0.5, rear: 0.5, tilt_deg: 20 };
  test('an open tube: films of the truth file plus long wave, over the whole circumference', () => {
    const s = at(openTube(lone, { ...CALM, air_C: 22, sky_C: 22, wind_ms: 2 }), 35);
    // joined film 32.8 and a hair, long wave 5.7
    expect(s.conductance_WmK / (Math.PI * OD)).toBeGreaterThan(38);
    expect(s.conductance_WmK / (Math.PI * OD)).toBeLessThan(39.2);
    expect(s.surroundings_C).toBeCloseTo(22, 9);
  });
  test('a cold sky draws the surroundings below the air, obstacles bring them back', () => {
    const open = at(openTube(lone, CALM), 30);
    expect(open.surroundings_C).toBeLessThan(25);
    expect(open.surroundings_C).toBeGreaterThan(10);
    expect(at(openTube(lone, { ...CALM, skyShare: 0 }), 30).surroundings_C).toBeCloseTo(25, 9);
  });
  test('a lone tube sees half a sky however its plane is tilted', () => {
    const a = at(openTube({ ...lone, tilt_deg: 0 }, CALM), 40);
    const b = at(openTube({ ...lone, tilt_deg: 77 }, CALM), 40);
    expect(b.conductance_WmK).toBeCloseTo(a.conductance_WmK, 9);
    expect(b.surroundings_C).toBeCloseTo(a.surroundings_C, 9);
  });
  test('a backing is passed through: the better it is insulated, the less the tube loses', () => {
    const on = (behind_Wm2K: number) =>
      at(
        backedTube(
          { ...lone, front: 0.33, rear: 0.33 },
          { emittance: 0.9, behind_Wm2K, behind_C: 25, strip_m: 1.1 * OD },
          CALM,
        ),
        40,
      );
    expect(on(0.3).conductance_WmK).toBeLessThan(on(3).conductance_WmK);
    expect(on(3).conductance_WmK).toBeLessThan(on(30).conductance_WmK);
    // sun absorbed by an insulated backing comes to the tube, else it goes away behind
    expect(on(0.3).backingShare).toBeGreaterThan(0.8);
    expect(on(30).backingShare).toBeLessThan(0.3);
  });
  test('indoors and in the ground', () => {
    expect(at(indoorPipe(0.0483, 20, 101_325), 30).surroundings_C).toBe(20);
    const h = at(indoorPipe(0.0483, 20, 101_325), 30).conductance_WmK / (Math.PI * 0.0483);
    expect(h).toBeGreaterThan(9);
    expect(h).toBeLessThan(12);
    expect(at(buriedPipe(0.05, 15), 30).conductance_WmK).toBeCloseTo((2 * Math.PI) / Math.log(5), 12);
  });
  test('the 2 K grid stands for the exact curve within 0.1 %', () => {
    const curve = openTube(lone, { ...CALM, wind_ms: 0.3 });
    const out = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
    for (let t = -15; t < 90; t += 0.7) {
      if (Math.abs(t - 25) < 4) continue;
      readOuter(curve, t, out);
      expect(Math.abs(out.conductance_WmK / at(curve, t).conductance_WmK - 1)).toBeLessThan(1e-3);
    }
    let asked = 0;
    const counted = outerCurve((_t, o) => {
      asked += 1;
      Object.assign(o, { conductance_WmK: 1, surroundings_C: 0, backingShare: 0 });
    });
    for (let i = 0; i < 1000; i += 1) readOuter(counted, 30 + (i % 10) / 10, out);
    // many tubes, two evaluations
    expect(asked).toBe(2);
  });
  test('misuse is refused', () => {
    expect(() => openTube({ ...lone, front: Number.NaN }, CALM)).toThrow(RangeError);
    expect(() => openTube({ ...lone, diameter_m: 0 }, CALM)).toThrow(RangeError);
    expect(() => openTube(lone, { ...CALM, sky_C: Number.NaN })).toThrow(RangeError);
    expect(() =>
      backedTube(lone, { emittance: 0, behind_Wm2K: 1, behind_C: 20, strip_m: 0.1 }, CALM),
    ).toThrow(RangeError);
  });
});

describe('standing dry, calm air (common practice: an open tube about 31 K over the air, on a board to 60 K)', () => {
  const stand = (backed: boolean, pitch: number) => {
    const sight = rowSight(evenRow(61, pitch * OD, OD));
    const frame = rowFrame(20, 180, 0);
    const light = rowLight(
      frame,
      sight,
      { absorptance: 0.94, backing: backed ? { reflectance: 0.25, contact: 'lying' } : null },
      { sky: NOON, albedo: 0.2 },
    );
    const tube = { diameter_m: OD, front: sight.front[30], rear: sight.rear[30], tilt_deg: 20 };
    const outside = backed
      ? backedTube(
          tube,
          { emittance: 0.9, behind_Wm2K: 4, behind_C: CALM.air_C, strip_m: sight.strip_m[30] },
          CALM,
        )
      : openTube(tube, CALM);
    const strip = (light.backingBeam_Wm2 + light.backingDiffuse_Wm2) * sight.strip_m[30];
    return standingTemperature_C(outside, light.beam_Wm[30] + light.diffuse_Wm[30], strip) - CALM.air_C;
  };
  test('open rack', () => {
    expect(stand(false, 3)).toBeGreaterThan(24);
    expect(stand(false, 3)).toBeLessThan(34);
  });
  test('on a board', () => {
    expect(stand(true, 1.1)).toBeGreaterThan(50);
    expect(stand(true, 1.1)).toBeLessThan(75);
    expect(stand(true, 1.1)).toBeGreaterThan(stand(true, 3));
  });
});

describe('first slug', () => {
  test('common practice: time constants of half-inch schedule 40', () => {
    const t = row('slug').timeConstant_min;
    const capacity = tubeCapacity_JmK(BORE, OD);
    [15, 25, 35].forEach((h, i) => {
      // outer film and, for a wall that is part of what warms, half its resistance
      const u = 1 / (1 / (h * Math.PI * OD) + wallResistance(OD, BORE, 0.16) / 2);
      expect(Math.abs(timeConstant_s(capacity, u) / 60 - t[i])).toBeLessThan(0.5);
    });
  });
  test('decays from the start towards the standing temperature', () => {
    const slug = (elapsed: number) => firstSlug(50, 28, elapsed, 1050, 1, 0.04);
    expect(slug(0).temperature_C).toBe(28);
    expect(slug(1050).temperature_C).toBeCloseTo(50 - 22 / Math.E, 9);
    expect(slug(1e6).temperature_C).toBeCloseTo(50, 9);
    expect(() => firstSlug(50, 28, -1, 1050, 1, 0.04)).toThrow(RangeError);
  });
});

describe('rated absorber', () => {
  const c = { eta0: 0.9, bu: 0.02, b1: 10, b2: 3 };
  test('arithmetic of the standard’s form: every figure of the method page', () => {
    const t = row('rated');
    const net = netIrradiance_Wm2(800, 330, 22);
    expect(Math.abs(net - t.net_Wm2)).toBeLessThan(6e-4);
    expect(Math.abs(ratedHeat_Wm2(c, net, 1, 28, 22) - t.wind1_Wm2)).toBeLessThan(0.006);
    expect(Math.abs(ratedHeat_Wm2(c, net, 3, 28, 22) - t.wind3_Wm2)).toBeLessThan(0.006);
    const night = netIrradiance_Wm2(0, 330, 22);
    expect(Math.abs(ratedHeat_Wm2(c, night, 1, 28, 22) - t.night1_Wm2)).toBeLessThan(0.006);
    expect(ratedEfficiency(-162, night)).toBeNull();
    expect(ratedEfficiency(543.55, net)).toBeCloseTo(0.7713, 4);
  });
  test('the fit of a curve gives back the coefficients it was made from', () => {
    const made = PUBLISHED_AVERAGE_ABSORBER;
    const fit = isoCurve((tm, u) => ratedHeat_Wm2(made, 720, u, tm, 25), 25, 720, [0, 1, 2, 3]);
    for (const key of ['eta0', 'bu', 'b1', 'b2'] as const)
      expect(fit.coefficients[key]).toBeCloseTo(made[key], 9);
    expect(fit.etaError + fit.slopeError_Wm2K).toBeLessThan(1e-9);
    expect(() => isoCurve(() => 0, 25, 720, [1, 1])).toThrow(RangeError);
    expect(() => isoCurve(() => 0, 25, 0, [1, 2])).toThrow(RangeError);
  });
});

describe('coils', () => {
  const optics = { absorptance: 0.94, backing: null };
  test('a coil lies between tubes along and tubes across, and does not care where it faces when level', () => {
    const sky = { ...NOON, sunZenith_deg: 55 };
    const coil = coilLight(12, 0.03, 0.02, 15, 180, optics, { sky, albedo: 0.2 });
    const sight = rowSight(evenRow(12, 0.03, 0.02));
    const mean = (axis: number) =>
      rowLight(rowFrame(15, 180, axis), sight, optics, { sky, albedo: 0.2 }).beam_Wm.reduce(
        (s, x) => s + x,
        0,
      ) / 12;
    expect(coil.beam_Wm).toBeGreaterThan(Math.min(mean(0), mean(90)));
    expect(coil.beam_Wm).toBeLessThan(Math.max(mean(0), mean(90)));
    const level = (facing: number) =>
      coilLight(12, 0.03, 0.02, 0, facing, optics, { sky, albedo: 0.2 }).beam_Wm;
    expect(level(45) / level(0)).toBeCloseTo(1, 2);
    expect(() => coilLight(0, 0.03, 0.02, 0, 0, optics, { sky, albedo: 0.2 })).toThrow(RangeError);
  });
});
