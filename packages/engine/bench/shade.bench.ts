import { bench, describe } from 'vitest';
import type { Obstacle } from '../src/sun/shade-obstacle';
import { shadeTable } from '../src/sun/shade-table';

/** A yard with twelve things in it: a house, four fences and seven trees, pool of 8 m × 4 m. */
function twelveObstacles(): Obstacle[] {
  const leaf = [3, 4, 5, 6, 7, 8, 9].reduce<boolean[]>((months, month) => {
    months[month] = true;
    return months;
  }, new Array<boolean>(12).fill(false));
  const wall = (x0: number, y0: number, x1: number, y1: number, top_m: number): Obstacle => ({
    kind: 'prism',
    footprint: [
      [x0, y0],
      [x1, y0],
      [x1, y1],
      [x0, y1],
    ],
    base_m: 0,
    top_m,
  });
  const trees = Array.from(
    { length: 7 },
    (_, i): Obstacle => ({
      kind: 'tree',
      at: [14 * Math.cos(i * 0.9), 14 * Math.sin(i * 0.9)],
      ground_m: 0,
      trunkRadius_m: 0.25,
      crownRadius_m: 3,
      crownBase_m: 2,
      height_m: 8 + i,
      leafTransmittance: 0.2,
      bareTransmittance: 0.6,
      leafMonths: leaf,
    }),
  );
  return [
    wall(-8, 8, 8, 16, 6),
    wall(-15, -10, 15, -9.9, 2),
    wall(-15, 18, 15, 18.1, 2),
    wall(-15, -10, -14.9, 18, 2),
    wall(15, -10, 15.1, 18, 2),
    ...trees,
  ];
}

const pool = {
  corners: [
    [-4, -2, 0],
    [4, -2, 0],
    [4, 2, 0],
    [-4, 2, 0],
  ] as const,
};

describe('shade table, target 150 ms', () => {
  const obstacles = twelveObstacles();
  bench('12 obstacles over a pool', () => {
    shadeTable(pool, obstacles);
  });
});
