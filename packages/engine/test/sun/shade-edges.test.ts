import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { litStretches, type YardLine } from '../../src/sun/shade-edges';
import type { Obstacle } from '../../src/sun/shade-obstacle';
import { shadeTable, skyShare, sunlitShare } from '../../src/sun/shade-table';

const RAD = Math.PI / 180;
const leaf = Array.from({ length: 12 }, (_, m) => m > 3 && m < 10);
const wall: Obstacle = {
  kind: 'prism',
  footprint: [
    [-50, -2.2],
    [50, -2.2],
    [50, -2],
    [-50, -2],
  ],
  base_m: 0,
  top_m: 3,
};
const tree: Obstacle = {
  kind: 'tree',
  at: [0, -6],
  ground_m: 0,
  trunkRadius_m: 0.2,
  crownRadius_m: 2,
  crownBase_m: 2,
  height_m: 7,
  leafTransmittance: 0.2,
  bareTransmittance: 0.6,
  leafMonths: leaf,
};
const lit = (line: YardLine, obstacles: Obstacle[], azimuth: number, elevation: number, month = 6) =>
  litStretches([line], obstacles, month, azimuth, elevation)[0];

describe('light along a line', () => {
  // Closed form: the shadow of a wall of height h reaches h/tan(elevation) behind its top's rear edge.
  it('is cut where the shadow of a wall ends', () => {
    const line: YardLine = { a: [0, -2, 0], b: [0, 8, 0] };
    for (const elevation of [25, 40, 60]) {
      const end = 3 / Math.tan(elevation * RAD) / 10;
      const got = lit(line, [wall], 180, elevation);
      expect(got.map((s) => s.share)).toEqual([0, 1]);
      expect(got[0].to).toBeCloseTo(end, 9);
      expect(got[1].from).toBe(got[0].to);
    }
    // along the wall nothing crosses
    expect(lit({ a: [-4, 0, 0], b: [4, 0, 0] }, [wall], 180, 40)).toEqual([{ from: 0, to: 1, share: 0 }]);
    expect(lit({ a: [-4, 5, 0], b: [4, 5, 0] }, [wall], 180, 40)).toEqual([{ from: 0, to: 1, share: 1 }]);
  });

  // Closed form: across the middle of a crown its shadow is as wide as the crown.
  it('is thinned over the width of a crown, less when it is bare, and stopped by the trunk', () => {
    const z = 0;
    const elevation = 45;
    // the ray through the crown's middle at 4.5 m comes down 4.5 m behind the tree
    const line: YardLine = { a: [-5, -1.5, z], b: [5, -1.5, z] };
    const crown = { ...tree, trunkRadius_m: 0 };
    const got = lit(line, [crown], 180, elevation);
    expect(got.map((s) => s.share)).toEqual([1, 0.2, 1]);
    expect((got[1].to - got[1].from) * 10).toBeCloseTo(4, 9);
    expect(lit(line, [crown], 180, elevation, 0)[1].share).toBe(0.6);
    const low = lit({ a: [-5, -5, 0], b: [5, -5, 0] }, [tree], 180, elevation);
    expect(low.map((s) => s.share)).toEqual([1, 0, 1]);
    expect((low[1].to - low[1].from) * 10).toBeCloseTo(0.4, 9);
  });

  // Closed form: under the roof it is dark, whatever the sun; over it, and past the middle of a crown, it is not.
  it('is cut where the line itself leaves a house or a crown', () => {
    const house: Obstacle = {
      kind: 'prism',
      footprint: [
        [-5, -5],
        [5, -5],
        [5, 5],
        [-5, 5],
      ],
      base_m: 0,
      top_m: 3,
    };
    const out = lit({ a: [0, -1, 2], b: [0, 1, 4] }, [house], 180, 60);
    expect(out.map((s) => s.share)).toEqual([0, 1]);
    expect(out[0].to).toBeCloseTo(0.5, 9);
    // through its sunny wall, at the foot of which no shadow lies
    const through = lit({ a: [0, -7, 1], b: [0, -3, 1] }, [house], 180, 20);
    expect(through.map((s) => s.share)).toEqual([1, 0]);
    expect(through[0].to).toBeCloseTo(0.5, 9);
    // from the crown's middle towards the sun
    const crown = lit({ a: [0, -6, 4.5], b: [0, -10, 8.5] }, [{ ...tree, trunkRadius_m: 0 }], 180, 45);
    expect(crown.map((s) => s.share)).toEqual([0.2, 1]);
    expect(crown[0].to * Math.hypot(4, 4)).toBeCloseTo(Math.SQRT2 / Math.hypot(1 / 2, 1 / 2.5), 9);
  });

  it('is whole without obstacles, and with the sun down', () => {
    const line: YardLine = { a: [0, 0, 0], b: [1, 1, 1] };
    const whole = [{ from: 0, to: 1, share: 1 }];
    expect(lit(line, [], 100, 30)).toEqual(whole);
    expect(lit(line, [wall, tree], 100, -2)).toEqual(whole);
    expect(() => litStretches([line], [wall], 12, 0, 30)).toThrow();
    expect(() => litStretches([line], [wall], 1, Number.NaN, 30)).toThrow();
  });

  // Invariants: stretches join without gaps, any finer cut of the line finds the same light, and the mean over many
  // lines is the share of the season's table at one of its own directions (rays of it are within 1 %).
  it('any yard and sun: no gaps, the same light when cut finer, and on the mean the table’s share', () => {
    const box = fc
      .tuple(
        fc.double({ min: -8, max: 8, noNaN: true }),
        fc.double({ min: -9, max: -3, noNaN: true }),
        fc.double({ min: 0.3, max: 4, noNaN: true }),
        fc.double({ min: 1, max: 6, noNaN: true }),
      )
      .map(
        ([x, y, w, top_m]): Obstacle => ({
          kind: 'prism',
          footprint: [
            [x, y],
            [x + w, y],
            [x + w, y + w],
            [x + w / 2, y + w / 3],
            [x, y + w],
          ],
          base_m: 0,
          top_m,
        }),
      );
    const corners = [
      [-4, 0, 0.2],
      [4, 0, 0.2],
      [4, 4, 1.4],
      [-4, 4, 1.4],
    ] as const;
    fc.assert(
      fc.property(
        fc.array(box, { maxLength: 3 }),
        fc.boolean(),
        fc.integer({ min: 25, max: 65 }),
        fc.integer({ min: 2, max: 25 }),
        (boxes, withTree, azimuthNode, elevationNode) => {
          const obstacles = withTree ? [...boxes, tree] : boxes;
          const [azimuth, elevation] = [4 * azimuthNode, 3 * elevationNode];
          const lines = Array.from({ length: 80 }, (_, k): YardLine => {
            const x = -4 + (8 * (k + 0.5)) / 80;
            return { a: [x, 0, 0.2], b: [x, 4, 1.4] };
          });
          const all = litStretches(lines, obstacles, 6, azimuth, elevation);
          let mean = 0;
          for (const stretches of all) {
            let end = 0;
            for (const s of stretches) {
              expect(s.from).toBe(end);
              end = s.to;
              mean += ((s.to - s.from) * s.share) / all.length;
            }
            expect(end).toBe(1);
          }
          const [half] = litStretches(
            [{ a: lines[40].a, b: [(lines[40].a[0] + lines[40].b[0]) / 2, 2, 0.8] }],
            obstacles,
            6,
            azimuth,
            elevation,
          );
          const sum = (list: typeof half, to: number): number =>
            list.reduce((s, p) => s + Math.max(0, Math.min(p.to, to) - p.from) * p.share, 0);
          expect(sum(half, 1) / 2).toBeCloseTo(sum(all[40], 0.5), 3);
          if (obstacles.length === 0) return;
          const table = shadeTable({ corners }, obstacles);
          expect(Math.abs(sunlitShare(table, 6, azimuth, elevation) - mean)).toBeLessThan(0.02);
        },
      ),
      { numRuns: 25, seed: 4 },
    );
  });
});

describe('a coarser table', () => {
  // Our aim: eight points a side are enough for the share of the sky, within 0.003 of the usual grid's.
  it('sees the same sky', () => {
    const corners = [
      [-4, 0, 0.2],
      [4, 0, 0.2],
      [4, 4, 1.4],
      [-4, 4, 1.4],
    ] as const;
    for (const obstacles of [[wall], [tree], [wall, tree]]) {
      const [fine, coarse] = [32, 8].map((side) => shadeTable({ corners }, obstacles, side));
      for (const month of [0, 6])
        expect(Math.abs(skyShare(fine, month) - skyShare(coarse, month))).toBeLessThan(0.003);
      expect(coarse.rayError).toBeGreaterThan(fine.rayError);
    }
    expect(() => shadeTable({ corners }, [wall], 1.5)).toThrow();
  });
});
