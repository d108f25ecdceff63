import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { rowFrame } from '../../src/collector/row-frame';
import { type RowOptics, rowLight } from '../../src/collector/row-light';
import { evenRow, rowSight, type TubeRow } from '../../src/collector/row-sight';
import { planeMoment, rowMean, rowMeanLight } from '../../src/season/row-mean';
import type { SkyLight } from '../../src/sun/plane';

const nested: TubeRow = {
  across_m: [0, 0.03, 0.07, 0.1, 0.14, 0.17],
  depth_m: [0.02, 0.05, 0.02, 0.05, 0.02, 0.05],
  diameter_m: new Float64Array(6).fill(0.0213),
};
const rows: readonly TubeRow[] = [evenRow(30, 0.0826, 0.0213), evenRow(12, 0.0213, 0.0213), nested];
const optics: readonly RowOptics[] = [
  { absorptance: 0.94, backing: null },
  { absorptance: 0.9, backing: { reflectance: 0.3, contact: 'lying' } },
  { absorptance: 0.7, backing: { reflectance: 0.6, contact: 'spaced' } },
];
const kinds = rows.flatMap((row) =>
  optics.map((o) => ({ o, sight: rowSight(row), mean: null as ReturnType<typeof rowMean> | null })),
);

const mean = (values: Float64Array): number => values.reduce((s, v) => s + v, 0) / values.length;

describe('mean light of a row', () => {
  // Invariant: the mean of rowLight over its tubes. Widths are straight between directions one degree apart:
  // wrong by up to 1 % of a tube's width where one tube's shadow begins to touch the next, far less on the average.
  it('is the mean of its tubes for any sun, plane and sky', () => {
    const wrong: number[] = [];
    fc.assert(
      fc.property(
        fc.integer({ min: 0, max: kinds.length - 1 }),
        fc.double({ min: 1, max: 89, noNaN: true }),
        fc.double({ min: 0, max: 360, noNaN: true }),
        fc.double({ min: 0, max: 85, noNaN: true }),
        fc.double({ min: 0, max: 180, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        (which, zenith, azimuth, tilt, axis, skyShare) => {
          const kind = kinds[which];
          const frame = rowFrame(tilt, 190, axis);
          const sky: SkyLight = {
            sunZenith_deg: zenith,
            sunAzimuth_deg: azimuth,
            directNormal_Wm2: 800,
            diffuseHorizontal_Wm2: 110,
            extraterrestrial_Wm2: 1370,
          };
          const full = rowLight(frame, kind.sight, kind.o, { sky, albedo: 0.25, skyShare });
          const reduced = rowMean(frame, kind.sight, kind.o);
          const out = { beam_Wm: 0, diffuse_Wm: 0, backingBeam_Wm2: 0, backingDiffuse_Wm2: 0 };
          rowMeanLight(reduced, planeMoment(sky, tilt, 190, 0.25, 'perez'), skyShare, out);
          const size = mean(full.beam_Wm) + mean(full.diffuse_Wm);
          const error = Math.abs(out.beam_Wm + out.diffuse_Wm - size) / size;
          wrong.push(error);
          expect(error).toBeLessThan(0.012);
          expect(Math.abs(out.diffuse_Wm - mean(full.diffuse_Wm))).toBeLessThan(0.012 * size);
          expect(Math.abs(out.backingBeam_Wm2 - full.backingBeam_Wm2)).toBeLessThan(8);
          expect(Math.abs(out.backingDiffuse_Wm2 - full.backingDiffuse_Wm2)).toBeLessThan(1e-6 * 1000);
        },
      ),
      { numRuns: 150, seed: 3 },
    );
    expect(wrong.reduce((s, v) => s + v, 0) / wrong.length).toBeLessThan(1e-3);
  });
});
