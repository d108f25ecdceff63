import { DomainError } from '../numeric/errors';
import { checkObstacle, type Obstacle, type YardPoint } from './shade-obstacle';
import { castObstacle, placeObstacle, type Rays, turnObstacle } from './shade-rays';
import { cross, type Direction, skyDirection } from './vectors';

const RAD = Math.PI / 180;
/** Stretches shorter than this share of the line belong to the one before [–]. */
const LEAST = 1e-4;
/** Shares nearer to each other than this are one. */
const SAME = 1e-9;

/** A straight line in the yard, a tube's axis. */
export interface YardLine {
  readonly a: YardPoint;
  readonly b: YardPoint;
}

/** A stretch of a line with one share of direct light. */
export interface LitStretch {
  /** Along the line, 0 at `a`, 1 at `b` [–]. */
  readonly from: number;
  readonly to: number;
  /** Share of direct light that arrives [–]. */
  readonly share: number;
}

/** A point seen along the sun's rays [m]. */
type Flat = readonly [number, number];

/**
 * Direct light along straight lines with the sun at one place, cut where the edge of a shadow crosses them: seen
 * along the sun's rays everything lies in one plane, in which an edge of a house is a segment and a crown an ellipse;
 * where a line meets them its light may change, and so it may where the line itself goes in or out of a solid. Between
 * two such places one ray through every obstacle says how much arrives. Exact for houses, walls, screens and crowns; the top of a trunk, which the crown hides, is taken as level.
 *
 * @param lines         straight lines
 * @param obstacles     solids of the yard
 * @param month         0 = January: trees may be bare
 * @param azimuth_deg   of the sun, clockwise from north [deg]
 * @param elevation_deg of the sun [deg]; at or below 0 all is called lit, there is no direct light then
 * @returns stretches of each line, from 0 to 1 without gaps
 * @throws {DomainError} for obstacles without volume, a month or angles that are none
 */
export function litStretches(
  lines: readonly YardLine[],
  obstacles: readonly Obstacle[],
  month: number,
  azimuth_deg: number,
  elevation_deg: number,
): LitStretch[][] {
  if (!(Number.isInteger(month) && month >= 0 && month < 12)) throw new DomainError('month', month, '0…11');
  if (!Number.isFinite(azimuth_deg)) throw new DomainError('azimuth', azimuth_deg, 'finite °');
  if (!(elevation_deg >= -90 && elevation_deg <= 90))
    throw new DomainError('elevation', elevation_deg, '[−90, 90]°');
  for (const obstacle of obstacles) checkObstacle(obstacle);
  const whole = (): LitStretch[] => [{ from: 0, to: 1, share: 1 }];
  if (obstacles.length === 0 || !(elevation_deg > 0)) return lines.map(whole);
  const sun = skyDirection(90 - elevation_deg, azimuth_deg);
  const cuts = cutPlaces(lines, obstacles, sun);
  const shares = sharesBetween(lines, cuts, obstacles, month, azimuth_deg * RAD, elevation_deg * RAD);
  let next = 0;
  return cuts.map((places) => {
    const out: LitStretch[] = [];
    for (let k = 0; k + 1 < places.length; k++) {
      const share = shares[next++];
      const last = out[out.length - 1];
      if (last && Math.abs(last.share - share) <= SAME) out[out.length - 1] = { ...last, to: places[k + 1] };
      else out.push({ from: places[k], to: places[k + 1], share });
    }
    return out;
  });
}

/** Where the light of each line may change: 0, the crossings in order, 1. */
function cutPlaces(lines: readonly YardLine[], obstacles: readonly Obstacle[], sun: Direction): number[][] {
  const flat = flattener(sun);
  const ends = lines.map(({ a, b }) => [flat(a), flat(b)] as const);
  const boxes = ends.map(boxOf);
  const around = boxOf(ends.flat());
  const out = lines.map(() => [0]);
  for (const obstacle of obstacles) {
    const edges =
      obstacle.kind === 'tree' ? [] : prismEdges(obstacle).map(([p, q]) => [flat(p), flat(q)] as const);
    const box = obstacle.kind === 'tree' ? treeBox(obstacle, flat) : boxOf(edges.flat());
    if (apart(box, around)) continue;
    for (let i = 0; i < lines.length; i++) {
      if (apart(box, boxes[i])) continue;
      if (obstacle.kind === 'tree') {
        treeCrossings(lines[i], obstacle, sun, out[i]);
        continue;
      }
      const [p, q] = ends[i];
      for (const [c, d] of edges) {
        const t = crossing(p, q, c, d);
        if (t > 0 && t < 1) out[i].push(t);
      }
      faceCrossings(lines[i], obstacle, out[i]);
    }
  }
  return out.map((places) => {
    if (places.length === 1) return [0, 1];
    const sorted = places.sort((p, q) => p - q);
    const kept: number[] = [];
    for (const t of sorted)
      if (kept.length === 0 || (t - kept[kept.length - 1] > LEAST && t < 1 - LEAST)) kept.push(t);
    return [...kept, 1];
  });
}

/** Turns points into the plane across the sun's rays. */
function flattener(sun: Direction): (p: YardPoint) => Flat {
  const level = Math.hypot(sun.east, sun.north);
  const e: Direction =
    level > 1e-9
      ? { east: sun.north / level, north: -sun.east / level, up: 0 }
      : { east: 1, north: 0, up: 0 };
  const f = cross(sun, e);
  return ([x, y, z]) => [x * e.east + y * e.north + z * e.up, x * f.east + y * f.north + z * f.up];
}

function prismEdges(o: Exclude<Obstacle, { kind: 'tree' }>): (readonly [YardPoint, YardPoint])[] {
  return o.footprint.flatMap(([x, y], i) => {
    const [u, v] = o.footprint[(i + 1) % o.footprint.length];
    return [
      [
        [x, y, o.base_m],
        [u, v, o.base_m],
      ],
      [
        [x, y, o.top_m],
        [u, v, o.top_m],
      ],
      [
        [x, y, o.base_m],
        [x, y, o.top_m],
      ],
    ] as const;
  });
}

/** Where a line goes through the walls, floor or roof of a prism, as that of a panel sunk into a roof does. */
function faceCrossings({ a, b }: YardLine, o: Exclude<Obstacle, { kind: 'tree' }>, out: number[]): void {
  const rise = b[2] - a[2];
  const [x0, y0, x1, y1] = boxOf(o.footprint);
  const low = Math.min(a[2], b[2]);
  const high = Math.max(a[2], b[2]);
  const [ax, ay, bx, by] = [a[0], a[1], b[0], b[1]];
  if (low > o.top_m || high < o.base_m) return;
  if (Math.max(ax, bx) < x0 || Math.min(ax, bx) > x1 || Math.max(ay, by) < y0 || Math.min(ay, by) > y1)
    return;
  const add = (t: number): void => {
    if (t > 0 && t < 1) out.push(t);
  };
  for (const level of [o.base_m, o.top_m]) add((level - a[2]) / rise);
  o.footprint.forEach((c, i) => {
    add(crossing([ax, ay], [bx, by], c, o.footprint[(i + 1) % o.footprint.length]));
  });
}

type Box = readonly [x0: number, y0: number, x1: number, y1: number];

function apart(a: Box, b: Box): boolean {
  return a[2] < b[0] || a[0] > b[2] || a[3] < b[1] || a[1] > b[3];
}

/** Round the trunk and a ball about the crown. */
function treeBox(tree: Extract<Obstacle, { kind: 'tree' }>, flat: (p: YardPoint) => Flat): Box {
  const [x, y] = tree.at;
  const half = (tree.height_m - tree.crownBase_m) / 2;
  const reach = Math.max(tree.crownRadius_m, half, tree.trunkRadius_m);
  const middle = tree.ground_m + tree.crownBase_m + half;
  const [x0, y0, x1, y1] = boxOf([flat([x, y, tree.ground_m]), flat([x, y, middle])]);
  return [x0 - reach, y0 - reach, x1 + reach, y1 + reach];
}

function boxOf(points: readonly Flat[]): Box {
  let [x0, y0, x1, y1] = [Infinity, Infinity, -Infinity, -Infinity];
  for (const [x, y] of points) {
    x0 = Math.min(x0, x);
    y0 = Math.min(y0, y);
    x1 = Math.max(x1, x);
    y1 = Math.max(y1, y);
  }
  return [x0, y0, x1, y1];
}

/** Where the segment a–b meets c–d, as a share of a–b; NaN where it does not. */
function crossing(a: Flat, b: Flat, c: Flat, d: Flat): number {
  const [rx, ry] = [b[0] - a[0], b[1] - a[1]];
  const [sx, sy] = [d[0] - c[0], d[1] - c[1]];
  const det = rx * sy - ry * sx;
  if (Math.abs(det) < 1e-12) return Number.NaN;
  const [qx, qy] = [c[0] - a[0], c[1] - a[1]];
  const along = (qx * ry - qy * rx) / det;
  return along >= 0 && along <= 1 ? (qx * sy - qy * sx) / det : Number.NaN;
}

/** Outline of the crown, where the line itself goes in and out of it, sides of the trunk and its top. */
function treeCrossings(
  { a, b }: YardLine,
  tree: Extract<Obstacle, { kind: 'tree' }>,
  sun: Direction,
  out: number[],
): void {
  const [x, y] = tree.at;
  const half = (tree.height_m - tree.crownBase_m) / 2;
  const middle = tree.ground_m + (tree.height_m + tree.crownBase_m) / 2;
  const r = tree.crownRadius_m;
  const add = (t: number): void => {
    if (t > 0 && t < 1) out.push(t);
  };
  // in the frame in which the crown is a ball of radius 1, the part of everything across the rays
  const s = [sun.east / r, sun.north / r, sun.up / half];
  const ss = dot(s, s);
  const across = (p: readonly number[]): number[] => {
    const along = dot(p, s) / ss;
    return p.map((v, i) => v - along * s[i]);
  };
  const begin = [(a[0] - x) / r, (a[1] - y) / r, (a[2] - middle) / half];
  const way = [(b[0] - a[0]) / r, (b[1] - a[1]) / r, (b[2] - a[2]) / half];
  const ball = (p: readonly number[], v: readonly number[]): void => {
    const [vv, pv, pp] = [dot(v, v), dot(p, v), dot(p, p) - 1];
    const under = pv * pv - vv * pp;
    if (vv > 1e-18 && under > 0) for (const sign of [-1, 1]) add((-pv + sign * Math.sqrt(under)) / vv);
  };
  ball(across(begin), across(way));
  ball(begin, way);
  const level = Math.hypot(sun.east, sun.north);
  if (!(tree.trunkRadius_m > 0 && level > 1e-9)) return;
  const side = (q: YardPoint): number => ((q[0] - x) * sun.north - (q[1] - y) * sun.east) / level;
  const [s0, s1] = [side(a), side(b)];
  for (const edge of [-tree.trunkRadius_m, tree.trunkRadius_m]) add((edge - s0) / (s1 - s0));
  const before = (q: YardPoint, end: number): number => {
    const away = ((x - q[0]) * sun.east + (y - q[1]) * sun.north) / level;
    return away - end - ((middle - q[2]) * level) / sun.up;
  };
  for (const end of [-tree.trunkRadius_m, tree.trunkRadius_m]) {
    const [h0, h1] = [before(a, end), before(b, end)];
    add(h0 / (h0 - h1));
  }
}

function dot(a: readonly number[], b: readonly number[]): number {
  return a[0] * b[0] + a[1] * b[1] + a[2] * b[2];
}

/** Direct light in the middle of every stretch, line after line. */
function sharesBetween(
  lines: readonly YardLine[],
  cuts: readonly (readonly number[])[],
  obstacles: readonly Obstacle[],
  month: number,
  azimuth: number,
  elevation: number,
): Float64Array {
  const n = cuts.reduce((sum, places) => sum + places.length - 1, 0);
  const [east, north] = [Math.sin(azimuth), Math.cos(azimuth)];
  const u = new Float64Array(n);
  const v = new Float64Array(n);
  const z = new Float64Array(n);
  let at = 0;
  lines.forEach(({ a, b }, i) => {
    for (let k = 0; k + 1 < cuts[i].length; k++, at++) {
      const t = (cuts[i][k] + cuts[i][k + 1]) / 2;
      const [px, py, pz] = [a[0] + t * (b[0] - a[0]), a[1] + t * (b[1] - a[1]), a[2] + t * (b[2] - a[2])];
      u[at] = px * east + py * north;
      v[at] = px * north - py * east;
      z[at] = pz;
    }
  });
  const least = (list: Float64Array): number => list.reduce((m, x) => Math.min(m, x), Infinity);
  const most = (list: Float64Array): number => list.reduce((m, x) => Math.max(m, x), -Infinity);
  const rays: Rays = {
    n,
    u,
    v,
    z,
    uMin: least(u),
    uMax: most(u),
    vMin: least(v),
    vMax: most(v),
    zMin: least(z),
  };
  const share = new Float64Array(n).fill(1);
  const hit = new Float64Array(n);
  for (const obstacle of obstacles) {
    const placed = placeObstacle(obstacle);
    turnObstacle(placed, rays, east, north);
    if (!castObstacle(placed, rays, azimuth, elevation, hit)) continue;
    const crown =
      obstacle.kind !== 'tree'
        ? 0
        : obstacle.leafMonths[month]
          ? obstacle.leafTransmittance
          : obstacle.bareTransmittance;
    // a crown is marked by −1
    for (let i = 0; i < n; i++) share[i] *= hit[i] < 0 ? crown : hit[i];
  }
  return share;
}
