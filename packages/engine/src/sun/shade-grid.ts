import { DomainError } from '../numeric/errors';
import type { YardPoint } from './shade-obstacle';

/** What is shaded: a flat polygon anywhere in the yard (the water, or one part of the collector). */
export interface ShadeReceiver {
  readonly corners: readonly YardPoint[];
}

/** Equal-area sample points of a receiver and its unit normal (upward, or as the corners turn). */
export interface ShadeGrid {
  readonly count: number;
  readonly x_m: Float64Array;
  readonly y_m: Float64Array;
  readonly z_m: Float64Array;
  readonly normal: readonly [number, number, number];
  readonly area_m2: number;
}

/** Points along a side of a rectangle. */
export const GRID_SIDE = 32;

/**
 * Fixed grid of points on a flat polygon: correlated multi-jittered samples (Kensler 2013, "Correlated
 * multi-jittered sampling") on the bounding rectangle, kept where they lie inside. One point in every cell, one
 * in every thin row and one in every thin column, and no straight line that many of them share, so a shadow
 * edge of any direction sweeps the points one by one.
 *
 * On a rectangle (1024 points) the area cut off by a straight edge is wrong by at most 0.05 % of the
 * whole for an edge parallel to a side and 0.9 % for the worst of 20 000 random edges, 0.15 % r.m.s.
 * (measured in the tests; the pattern is affine, so this holds for every parallelogram). Other outlines get
 * more points and stay under 1 %.
 *
 * @param receiver at least three corners in one plane [m]
 * @param side     points along a side of a rectangle; fewer are coarser and quicker
 * @returns at least 900 points of equal weight with the usual side
 * @throws {DomainError} when the corners span no area or do not lie in a plane (within 1 cm)
 */
export function shadeGrid(receiver: ShadeReceiver, side = GRID_SIDE): ShadeGrid {
  const corners = receiver.corners;
  if (!(Number.isInteger(side) && side >= 2)) throw new DomainError('points of a side', side, '≥ 2');
  if (!(corners.length >= 3)) throw new DomainError('corners of receiver', corners.length, '≥ 3');
  // Newell's normal: robust for any simple polygon.
  let nx = 0;
  let ny = 0;
  let nz = 0;
  for (let i = 0; i < corners.length; i++) {
    const [x1, y1, z1] = corners[i];
    const [x2, y2, z2] = corners[(i + 1) % corners.length];
    nx += (y1 - y2) * (z1 + z2);
    ny += (z1 - z2) * (x1 + x2);
    nz += (x1 - x2) * (y1 + y2);
  }
  const length = Math.hypot(nx, ny, nz);
  if (!(length > 1e-9 && length < Infinity))
    throw new DomainError('area of receiver', length / 2, '(0, ∞) m²');
  const turn = nz < 0 ? -1 : 1;
  const normal = [(turn * nx) / length, (turn * ny) / length, (turn * nz) / length] as const;
  const origin = corners[0];
  // In-plane axes: along the first edge, and across it.
  const u = longestEdge(corners);
  const v = [
    normal[1] * u[2] - normal[2] * u[1],
    normal[2] * u[0] - normal[0] * u[2],
    normal[0] * u[1] - normal[1] * u[0],
  ] as const;
  const flat = corners.map(([x, y, z]) => {
    const p = [x - origin[0], y - origin[1], z - origin[2]] as const;
    const off = p[0] * normal[0] + p[1] * normal[1] + p[2] * normal[2];
    if (!(Math.abs(off) <= 0.01)) throw new DomainError('corner off the receiver’s plane', off, '±0.01 m');
    return [p[0] * u[0] + p[1] * u[1] + p[2] * u[2], p[0] * v[0] + p[1] * v[1] + p[2] * v[2]] as const;
  });
  let minA = Infinity;
  let maxA = -Infinity;
  let minB = Infinity;
  let maxB = -Infinity;
  for (const [a, b] of flat) {
    minA = Math.min(minA, a);
    maxA = Math.max(maxA, a);
    minB = Math.min(minB, b);
    maxB = Math.max(maxB, b);
  }
  const filled = length / 2 / ((maxA - minA) * (maxB - minB));
  // Outlines that do not fill their rectangle lose the evenness at the rim: more points.
  const m =
    filled > 0.999 ? side : Math.ceil((side / GRID_SIDE) * Math.min(80, Math.ceil(Math.sqrt(2500 / filled))));
  const pattern = multiJittered(m);
  const xs: number[] = [];
  const ys: number[] = [];
  const zs: number[] = [];
  for (const [p, q] of pattern) {
    const a = minA + p * (maxA - minA);
    const b = minB + q * (maxB - minB);
    if (filled <= 0.999 && !inside(flat, a, b)) continue;
    xs.push(origin[0] + a * u[0] + b * v[0]);
    ys.push(origin[1] + a * u[1] + b * v[1]);
    zs.push(origin[2] + a * u[2] + b * v[2]);
  }
  return {
    count: xs.length,
    x_m: Float64Array.from(xs),
    y_m: Float64Array.from(ys),
    z_m: Float64Array.from(zs),
    normal,
    area_m2: length / 2,
  };
}

/** m × m correlated multi-jittered points of the unit square, always the same. */
function multiJittered(m: number): (readonly [number, number])[] {
  let state = 4;
  const random = (): number => {
    state = (state * 16807) % 2147483647; // Park & Miller 1988, "minimal standard"
    return state / 2147483647;
  };
  const shuffled = (): number[] => {
    const order = Array.from({ length: m }, (_, i) => i);
    for (let i = m - 1; i > 0; i--) {
      const j = Math.floor(random() * (i + 1));
      [order[i], order[j]] = [order[j], order[i]];
    }
    return order;
  };
  for (let i = 0; i < 5; i++) random();
  const first = shuffled();
  const second = shuffled();
  const points: (readonly [number, number])[] = [];
  for (let i = 0; i < m; i++)
    for (let j = 0; j < m; j++)
      points.push([(i + (second[j] + 0.5) / m) / m, (j + (first[i] + 0.5) / m) / m]);
  return points;
}

function longestEdge(corners: readonly YardPoint[]): readonly [number, number, number] {
  let best: readonly [number, number, number] = [1, 0, 0];
  let bestLength = 0;
  for (let i = 0; i < corners.length; i++) {
    const p = corners[i];
    const q = corners[(i + 1) % corners.length];
    const d = [q[0] - p[0], q[1] - p[1], q[2] - p[2]] as const;
    const length = Math.hypot(...d);
    if (length > bestLength * (1 + 1e-9)) {
      bestLength = length;
      best = [d[0] / length, d[1] / length, d[2] / length];
    }
  }
  return best;
}

function inside(polygon: readonly (readonly [number, number])[], x: number, y: number): boolean {
  let odd = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [xi, yi] = polygon[i];
    const [xj, yj] = polygon[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) odd = !odd;
  }
  return odd;
}
