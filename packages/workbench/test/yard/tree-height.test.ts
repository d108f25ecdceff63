import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { treeHeight } from '../../src/sun/tree-height';

const RAD = Math.PI / 180;

/** Far end of the shadow of an ellipsoid crown: its outline's tangent along the sun, by trying every point of it. */
function reach(height_m: number, base_m: number, radius_m: number, elevation_deg: number): number {
  const [middle, half] = [(height_m + base_m) / 2, (height_m - base_m) / 2];
  let most = 0;
  for (let i = 0; i <= 20_000; i++) {
    const a = (i / 20_000) * 2 * Math.PI;
    const [out, up] = [radius_m * Math.cos(a), middle + half * Math.sin(a)];
    most = Math.max(most, out + up / Math.tan(elevation_deg * RAD));
  }
  return most;
}

describe('a tree’s height from its shadow', () => {
  it('is the tree that throws it, for any crown and sun', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 3, max: 25, noNaN: true }),
        fc.double({ min: 0, max: 0.7, noNaN: true }),
        fc.double({ min: 0.2, max: 1.2, noNaN: true }),
        fc.double({ min: 8, max: 70, noNaN: true }),
        (height_m, baseShare, wide, elevation_deg) => {
          const crownBase_m = height_m * baseShare;
          const crownRadius_m = ((height_m - crownBase_m) / 2) * wide;
          const shadow_m = reach(height_m, crownBase_m, crownRadius_m, elevation_deg);
          const found = treeHeight({ shadow_m, elevation_deg, crownRadius_m, crownBase_m })!;
          // the outline is tried at steps of 0.02°
          expect(found.height_m).toBeCloseTo(height_m, 4);
          expect(found.low_m).toBeLessThan(height_m);
          expect(found.high_m).toBeGreaterThan(height_m);
        },
      ),
      { seed: 7, numRuns: 60 },
    );
  });

  it('is length × tan of the sun’s height for a bare pole', () => {
    const pole = { shadow_m: 10, elevation_deg: 45, crownRadius_m: 0, crownBase_m: 0 };
    expect(treeHeight(pole)?.height_m).toBeCloseTo(10, 12);
  });

  it('says nothing under a low sun, and of a shadow that no such crown throws', () => {
    expect(treeHeight({ shadow_m: 40, elevation_deg: 2, crownRadius_m: 1, crownBase_m: 1 })).toBeNull();
    expect(treeHeight({ shadow_m: 2, elevation_deg: 30, crownRadius_m: 4, crownBase_m: 2 })).toBeNull();
    expect(
      treeHeight({ shadow_m: Number.NaN, elevation_deg: 30, crownRadius_m: 1, crownBase_m: 1 }),
    ).toBeNull();
  });
});
