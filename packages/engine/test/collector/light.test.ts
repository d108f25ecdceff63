import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { cylinderAngleFactor, plasticAngleFactor } from '../../src/collector/cylinder-angle';
import { rowShare, tubeToNeighbours, tubeToSide } from '../../src/collector/hottel';
import { rowFrame, sunOnRow } from '../../src/collector/row-frame';
import { rowLight } from '../../src/collector/row-light';
import { evenRow, rowSight, visibleWidths } from '../../src/collector/row-sight';
import { row } from './truth';

const D = 0.02;
const MIDDLE = 60;
const order = (n: number) => Int32Array.from({ length: n }, (_, i) => i);
const overcast = (diffuse: number) => ({
  sunZenith_deg: 95,
  sunAzimuth_deg: 180,
  directNormal_Wm2: 0,
  diffuseHorizontal_Wm2: diffuse,
  extraterrestrial_Wm2: 1367,
});

describe('views of a row', () => {
  test('arithmetic of Hottel’s closed forms', () => {
    for (const t of row('views').rows) {
      expect(Math.abs(rowShare(1 / t.x) - t.share)).toBeLessThan(1e-6);
      expect(Math.abs(tubeToSide(t.x) - t.side)).toBeLessThan(1e-6);
      expect(Math.abs(tubeToNeighbours(t.x) - t.neighbours)).toBeLessThan(1e-6);
      expect(2 * tubeToSide(t.x) + tubeToNeighbours(t.x)).toBeCloseTo(1, 10);
    }
  });
  test('verified by a second way: directions summed over a long row of real tubes', () => {
    for (const t of row('views').rows) {
      const sight = rowSight(evenRow(2 * MIDDLE + 1, t.x * D, D));
      // 240 directions: the kinks at first shading leave 2e-4
      expect(Math.abs(sight.front[MIDDLE] - t.side)).toBeLessThan(2e-4);
      expect(Math.abs(sight.neighbours[MIDDLE] - t.neighbours)).toBeLessThan(4e-4);
    }
  });
});

test('arithmetic of the method page: direct light on a row, up the slope and across it', () => {
  const t = row('direct');
  for (const [axis, expected] of [
    [90, t.upSlope_Wm2],
    [0, t.across_Wm2],
  ]) {
    const sun = sunOnRow(rowFrame(22.62, 180, axis), 40, 150);
    const widths = new Float64Array(41);
    visibleWidths(evenRow(41, 2 * D, D), sun.across, sun.normal, widths, order(41));
    const incident = (800 * sun.cosBeta * widths[20]) / (2 * D);
    expect(Math.abs(incident - expected)).toBeLessThan(0.01);
  }
});

test('arithmetic of Fresnel’s equations: absorption round a cylinder against normal incidence', () => {
  const t = row('angle');
  t.axial_deg.forEach((a: number, i: number) => {
    expect(Math.abs(cylinderAngleFactor(a) - t.factor[i])).toBeLessThan(6e-4);
    expect(Math.abs(plasticAngleFactor(a) - cylinderAngleFactor(a))).toBeLessThan(1e-9);
  });
  for (let a = 0.5; a < 85; a += 1)
    expect(Math.abs(plasticAngleFactor(a) - cylinderAngleFactor(a))).toBeLessThan(1e-3);
});

test('arithmetic of the method page, and its ray tracing: what a backing sends back, P/D 2, tube reflectance 0.05', () => {
  // long enough that edges weigh nothing on the tube in the middle and 0.2 % on the mean field
  const sight = rowSight(evenRow(301, 2 * D, D));
  const frame = rowFrame(0, 180, 0);
  for (const t of row('backing').rows) {
    const absorbed = (contact: 'lying' | 'spaced') =>
      rowLight(
        frame,
        sight,
        { absorptance: 0.95, backing: { reflectance: t.reflectance, contact } },
        { sky: overcast(1000), albedo: 0 },
      ).diffuse_Wm[150] /
      (1000 * 2 * D);
    expect(Math.abs(absorbed('spaced') - t.spaced)).toBeLessThan(0.001);
    // scaled by 0.75 against ray tracing
    expect(Math.abs(absorbed('lying') - t.lying)).toBeLessThan(0.003);
  }
});

describe('tubes hide each other', () => {
  test('from arccos(D/P) on, and not before', () => {
    const widths = new Float64Array(21);
    const limit = Math.acos(0.5);
    const at = (theta: number) => {
      visibleWidths(evenRow(21, 2 * D, D), Math.sin(theta), Math.cos(theta), widths, order(21));
      return widths[10];
    };
    expect(at(limit - 0.01)).toBeCloseTo(D, 12);
    expect(at(limit + 0.01)).toBeCloseTo(2 * D * Math.cos(limit + 0.01), 12);
    // the first tube on the sunny side is never hidden
    at(1.5);
    expect(widths[20]).toBeCloseTo(D, 12);
    expect(widths[0]).toBeLessThan(D / 5);
  });
  test('in front is by place towards the sun, not by place in the list', () => {
    const widths = new Float64Array(2);
    const stacked = { across_m: [0, 0], depth_m: [0, 0.1], diameter_m: [D, D] };
    visibleWidths(stacked, 0, 1, widths, order(2));
    expect([...widths]).toEqual([0, D]);
    visibleWidths(stacked, 0, -1, widths, order(2));
    expect([...widths]).toEqual([D, 0]);
  });
  test('unequal tubes: the shadow is the union', () => {
    const widths = new Float64Array(3);
    const three = { across_m: [0, -0.012, 0.02], depth_m: [0, 0.05, 0.2], diameter_m: [0.04, 0.01, 0.05] };
    visibleWidths(three, 0, 1, widths, order(3));
    // [-0.02, 0.02] less [-0.017, -0.007] and [-0.005, 0.045]
    expect(widths[0]).toBeCloseTo(0.005, 12);
  });
  test('visible widths of all tubes add up to the shadow of the row', () => {
    fc.assert(
      fc.property(
        fc.array(
          fc.tuple(
            fc.double({ min: 0, max: 1, noNaN: true }),
            fc.double({ min: 0, max: 0.2, noNaN: true }),
            fc.double({ min: 0.005, max: 0.06, noNaN: true }),
          ),
          { minLength: 1, maxLength: 25 },
        ),
        fc.double({ min: -1.55, max: 1.55, noNaN: true }),
        (tubes, theta) => {
          const n = tubes.length;
          const r = {
            across_m: tubes.map((t) => t[0]),
            depth_m: tubes.map((t) => t[1]),
            diameter_m: tubes.map((t) => t[2]),
          };
          const widths = new Float64Array(n);
          visibleWidths(r, Math.sin(theta), Math.cos(theta), widths, order(n));
          const shadows = tubes
            .map(([y, z, d]) => [y * Math.cos(theta) - z * Math.sin(theta) - d / 2, d])
            .map(([a, d]) => [a, a + d])
            .sort((a, b) => a[0] - b[0]);
          let union = 0;
          let reach = -Infinity;
          for (const [a, b] of shadows) {
            union += Math.max(0, b - Math.max(a, reach));
            reach = Math.max(reach, b);
          }
          expect(widths.reduce((s, w) => s + w, 0)).toBeCloseTo(union, 10);
        },
      ),
      { seed: 41, numRuns: 300 },
    );
  });
});

describe('nested banks', () => {
  // three banks whose header tees stand 2.715 in apart, tubes 0.84 in, each bank set over by a third
  const PITCH = 2.715 * 0.0254;
  const OD = 0.84 * 0.0254;
  const nested = (banks: number, depth_m: number) => {
    const across: number[] = [];
    const depth: number[] = [];
    for (let b = 0; b < banks; b += 1)
      for (let i = 0; i < 30; i += 1) {
        across.push(i * PITCH + (b * PITCH) / banks);
        depth.push(b * depth_m);
      }
    return { across_m: across, depth_m: depth, diameter_m: across.map(() => OD) };
  };
  test('three fit side by side with 0.84 in tubes, four do not', () => {
    const gap = (banks: number) => PITCH / banks - OD;
    expect(gap(3)).toBeGreaterThan(0);
    expect(gap(4)).toBeLessThan(0);
  });
  test('the real neighbour belongs to another bank, and light counts it', () => {
    const sight = rowSight(nested(3, 0));
    const middle = 15;
    expect(Math.floor(sight.right[middle] / 30)).toBe(1);
    expect(Math.floor(sight.left[middle] / 30)).toBe(2);
    const own = rowSight(nested(1, 0));
    // pitch for light is 0.905 in, not 2.715 in: 1.077 diameters
    expect(sight.front[middle]).toBeCloseTo(tubeToSide(PITCH / 3 / OD), 3);
    expect(own.front[middle]).toBeCloseTo(tubeToSide(PITCH / OD), 3);
    expect(sight.strip_m[middle]).toBeCloseTo(PITCH / 3, 12);
  });
  test('tubes at different depths: the bank behind sees less sky and more ground', () => {
    const sight = rowSight(nested(3, 0.04));
    expect(sight.front[15]).toBeLessThan(sight.front[75] - 0.05);
    expect(sight.rear[15]).toBeGreaterThan(sight.rear[75] + 0.05);
    for (let i = 0; i < sight.count; i += 1)
      expect(sight.front[i] + sight.rear[i] + sight.neighbours[i]).toBeCloseTo(1, 9);
  });
  test('light absorbed by an open nested panel stays under what falls on both sides', () => {
    const sight = rowSight(nested(3, 0.04));
    const sky = {
      sunZenith_deg: 35,
      sunAzimuth_deg: 160,
      directNormal_Wm2: 850,
      diffuseHorizontal_Wm2: 90,
      extraterrestrial_Wm2: 1367,
    };
    const light = rowLight(
      rowFrame(20, 180, 0),
      sight,
      { absorptance: 0.94, backing: null },
      { sky, albedo: 0.25 },
    );
    const total = light.beam_Wm.reduce((s, x) => s + x, 0) + light.diffuse_Wm.reduce((s, x) => s + x, 0);
    const perArea = total / sight.width_m;
    expect(perArea).toBeGreaterThan(650);
    expect(perArea).toBeLessThan(0.94 * 850 + 200);
  });
});

describe('invariants of light on a row', () => {
  const sky = {
    sunZenith_deg: 40,
    sunAzimuth_deg: 150,
    directNormal_Wm2: 800,
    diffuseHorizontal_Wm2: 100,
    extraterrestrial_Wm2: 1367,
  };
  test('what tubes and a grey backing absorb and the row sends back adds up to what falls on it', () => {
    // black tubes over a black backing absorb everything that meets the strip; the angle factor is left out
    // of account by taking diffuse light only
    const sight = rowSight(evenRow(200, 1.7 * D, D));
    const light = rowLight(
      rowFrame(20, 180, 0),
      sight,
      { absorptance: 1, backing: { reflectance: 0, contact: 'spaced' } },
      { sky: overcast(500), albedo: 0.2 },
    );
    const tubes = light.diffuse_Wm.reduce((s, x) => s + x, 0) / sight.width_m;
    const falling =
      (500 * (1 + Math.cos((20 * Math.PI) / 180))) / 2 +
      (0.2 * 500 * (1 - Math.cos((20 * Math.PI) / 180))) / 2;
    expect((tubes + light.backingDiffuse_Wm2) / falling).toBeCloseTo(1, 9);
  });
  test('turning the whole yard turns nothing', () => {
    const sight = rowSight(evenRow(30, 1.4 * D, D));
    const a = rowLight(
      rowFrame(30, 180, 25),
      sight,
      { absorptance: 0.94, backing: null },
      { sky, albedo: 0.2 },
    );
    const b = rowLight(
      rowFrame(30, 250, 25),
      sight,
      { absorptance: 0.94, backing: null },
      { sky: { ...sky, sunAzimuth_deg: 220 }, albedo: 0.2 },
    );
    for (let i = 0; i < 30; i += 1) expect(b.beam_Wm[i]).toBeCloseTo(a.beam_Wm[i], 9);
  });
  test('an open rack takes the sun from behind, a backed one does not', () => {
    const sight = rowSight(evenRow(30, 2 * D, D));
    const behind = { ...sky, sunAzimuth_deg: 0, sunZenith_deg: 60 };
    const frame = rowFrame(60, 180, 0);
    const open = rowLight(frame, sight, { absorptance: 0.94, backing: null }, { sky: behind, albedo: 0.2 });
    const backed = rowLight(
      frame,
      sight,
      { absorptance: 0.94, backing: { reflectance: 0.3, contact: 'lying' } },
      { sky: behind, albedo: 0.2 },
    );
    expect(open.beam_Wm[15]).toBeGreaterThan(5);
    expect(backed.beam_Wm[15]).toBe(0);
  });
  test('never negative or NaN, any sun, any plane', () => {
    const sight = rowSight({
      across_m: [0, 0.03, 0.05, 0.11],
      depth_m: [0, 0.02, 0, 0.06],
      diameter_m: [D, D, 0.03, D],
    });
    const d = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        d(0, 120),
        d(0, 360),
        d(0, 90),
        d(0, 360),
        d(-90, 90),
        d(0, 1100),
        d(0, 500),
        fc.constantFrom('lying', 'spaced', null),
        (z, az, tilt, face, axis, dni, dhi, contact) => {
          const light = rowLight(
            rowFrame(tilt, face, axis),
            sight,
            { absorptance: 0.9, backing: contact ? { reflectance: 0.4, contact: contact as 'lying' } : null },
            {
              sky: {
                sunZenith_deg: z,
                sunAzimuth_deg: az,
                directNormal_Wm2: dni,
                diffuseHorizontal_Wm2: dhi,
                extraterrestrial_Wm2: 1367,
              },
              albedo: 0.2,
            },
          );
          for (let i = 0; i < 4; i += 1) {
            expect(light.beam_Wm[i]).toBeGreaterThanOrEqual(0);
            expect(light.diffuse_Wm[i]).toBeGreaterThanOrEqual(-1e-9);
            // no tube can absorb more than a band twice its circumference of full light
            expect(light.beam_Wm[i] + light.diffuse_Wm[i]).toBeLessThan(
              2 * Math.PI * 0.03 * (dni + 6 * dhi) * 1.5 + 1e-9,
            );
          }
          expect(light.backingBeam_Wm2 + light.backingDiffuse_Wm2).toBeGreaterThanOrEqual(0);
        },
      ),
      { seed: 42, numRuns: 300 },
    );
  });
  test('misuse is refused', () => {
    expect(() => rowSight({ across_m: [], depth_m: [], diameter_m: [] })).toThrow(RangeError);
    expect(() => rowSight({ across_m: [Number.NaN], depth_m: [0], diameter_m: [D] })).toThrow(RangeError);
    const sight = rowSight(evenRow(2, D, D));
    expect(() =>
      rowLight(rowFrame(0, 0, 0), sight, { absorptance: Number.NaN, backing: null }, { sky, albedo: 0.2 }),
    ).toThrow(RangeError);
  });
});
