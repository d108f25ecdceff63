import type { PrismObstacle, TreeObstacle } from '@sunlap/engine/sun/shade-obstacle';
import { describe, expect, it } from 'vitest';
import { area_m2, clipConvex, planeOf, planShadows } from '../src/yardShadow';

const wall: PrismObstacle = {
  kind: 'prism',
  footprint: [
    [-5, 0],
    [5, 0],
    [5, 0.2],
    [-5, 0.2],
  ],
  base_m: 0,
  top_m: 2,
};
const tree: TreeObstacle = {
  kind: 'tree',
  at: [3, -4],
  ground_m: 0,
  height_m: 8,
  crownBase_m: 2,
  crownRadius_m: 2.5,
  trunkRadius_m: 0.2,
  leafTransmittance: 0.1,
  bareTransmittance: 0.6,
  leafMonths: Array.from({ length: 12 }, (_, m) => m > 2 && m < 10),
};
const norths = (shadows: ReturnType<typeof planShadows>) => shadows.flatMap((s) => s.points.map((p) => p[1]));

describe('shadow in plan', () => {
  it('reaches h/tan(elevation) from a wall', () => {
    for (const elevation of [10, 30, 45, 70])
      expect(Math.max(...norths(planShadows(wall, 180, elevation, 5)))).toBeCloseTo(
        0.2 + 2 / Math.tan((elevation * Math.PI) / 180),
        9,
      );
  });

  it('falls away from the sun', () => {
    expect(Math.min(...norths(planShadows(wall, 0, 45, 5)))).toBeCloseTo(-2, 9);
    expect(Math.max(...planShadows(wall, 270, 45, 5).flatMap((s) => s.points.map((p) => p[0])))).toBeCloseTo(
      7,
      9,
    );
  });

  it('is an ellipse of area π·r·√(r² + b²·cot²) under a crown', () => {
    const crown = planShadows(tree, 137, 40, 6).find((s) => s.dark < 1)!;
    const cot = 1 / Math.tan((40 * Math.PI) / 180);
    const exact = Math.PI * 2.5 * Math.hypot(2.5, 3 * cot);
    // 28 corners on the ellipse lack 0.84 % of its area
    expect(Math.abs(area_m2(crown.points)) / exact).toBeGreaterThan(0.99);
    expect(Math.abs(area_m2(crown.points)) / exact).toBeLessThan(1);
    const x = crown.points.reduce((s, p) => s + p[0], 0) / 28;
    expect(x).toBeCloseTo(3 - 5 * cot * Math.sin((137 * Math.PI) / 180), 9);
  });

  it('is paler under a bare tree', () => {
    const dark = (month: number) => planShadows(tree, 180, 40, month).at(-1)!.dark;
    expect(dark(6)).toBeCloseTo(0.9, 12);
    expect(dark(0)).toBeCloseTo(0.4, 12);
  });

  it('is shorter on a plane that rises to meet the light', () => {
    // z = y: turned to the sun in the south it would be z = −y
    const level = Math.max(...norths(planShadows(wall, 180, 45, 5)));
    const rising = Math.max(...norths(planShadows(wall, 180, 45, 5, { z0_m: 0, east: 0, north: 1 })));
    expect(rising).toBeLessThan(level);
    // the ray from (y 0.2, z 2) meets z = y where 0.2 + t = 2 − t
    expect(rising).toBeCloseTo(1.1, 9);
  });

  it('throws nothing at night, from under the plane, or on a plane the sun sees from behind', () => {
    expect(planShadows(wall, 180, -3, 5)).toEqual([]);
    expect(planShadows(wall, 180, 45, 5, { z0_m: 5, east: 0, north: 0 })).toEqual([]);
    expect(planShadows(wall, 180, 20, 5, { z0_m: 0, east: 0, north: -3 })).toEqual([]);
  });
});

describe('clipping', () => {
  it('keeps what lies inside', () => {
    const square = [
      [0, 0],
      [2, 0],
      [2, 2],
      [0, 2],
    ] as const;
    const kept = clipConvex(
      [
        [1, 1],
        [5, 1],
        [5, 5],
        [1, 5],
      ],
      square,
    );
    expect(Math.abs(area_m2(kept))).toBeCloseTo(1, 12);
    expect(clipConvex(square, [...square].reverse())).toHaveLength(4);
  });
});

describe('plane of a panel', () => {
  it('passes through its corners', () => {
    const p = planeOf([
      [0, 0, 1],
      [4, 0, 1],
      [4, 3, 2],
      [0, 3, 2],
    ])!;
    expect(p.z0_m + p.east * 4 + p.north * 3).toBeCloseTo(2, 12);
    expect(
      planeOf([
        [0, 0, 0],
        [1, 0, 0],
        [1, 0, 1],
      ]),
    ).toBeNull();
  });
});
