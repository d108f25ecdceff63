import type { Obstacle, PlanPoint, TreeObstacle } from '@sunlap/engine/sun/shade-obstacle';

const RAD = Math.PI / 180;
/** Lower suns throw shadows out of every yard. */
export const LEAST_ELEVATION_DEG = 1;
const ROUND = 28;

/** A flat surface that shadows fall on: z = z0 + east·x + north·y [m]. */
export interface ShadowPlane {
  readonly z0_m: number;
  readonly east: number;
  readonly north: number;
}

export const LEVEL: ShadowPlane = { z0_m: 0, east: 0, north: 0 };

/** One shadow seen from above, with the share of direct light that it takes. */
export interface PlanShadow {
  readonly points: readonly PlanPoint[];
  readonly dark: number;
}

/**
 * Shadow of a solid on a plane, seen from above; parts of one solid may overlap.
 *
 * A point at height h over the plane, met along the ray of light, moves by h/(tan(elevation) + slope towards the
 * light). The crown of a tree throws the shadow of its ellipsoid's outline as the sun sees it. What lies under
 * the plane throws none.
 *
 * @param azimuth_deg    of the sun, from north clockwise [deg]
 * @param elevation_deg  of the sun [deg]; under 1° nothing is drawn
 * @param month          0 = January: trees in leaf or bare
 * @example planShadows(wall, 180, 45, 5)[0] // reaches its own height to the north
 */
export function planShadows(
  solid: Obstacle,
  azimuth_deg: number,
  elevation_deg: number,
  month: number,
  plane: ShadowPlane = LEVEL,
): PlanShadow[] {
  if (!(elevation_deg >= LEAST_ELEVATION_DEG)) return [];
  const light = towardsSun(azimuth_deg, elevation_deg);
  if (!(light.z - plane.east * light.x - plane.north * light.y > 0.01)) return [];
  if (solid.kind === 'tree') return treeShadows(solid, light, month, plane);
  // a mesh is drawn as a property of the pool, not as a dark shape
  if (solid.kind === 'screen') return [];
  if (solid.footprint.every(([x, y]) => solid.top_m <= heightOf(plane, x, y))) return [];
  const n = solid.footprint.length;
  const foot = solid.footprint.map(([x, y]) =>
    cast(x, y, Math.max(solid.base_m, heightOf(plane, x, y)), light, plane),
  );
  const head = solid.footprint.map(([x, y]) =>
    cast(x, y, Math.max(solid.top_m, heightOf(plane, x, y)), light, plane),
  );
  const parts: PlanPoint[][] = [head];
  for (let i = 0; i < n; i++) {
    const k = (i + 1) % n;
    parts.push([foot[i], foot[k], head[k], head[i]]);
  }
  return parts.filter((p) => Math.abs(area_m2(p)) > 1e-4).map((points) => ({ points, dark: 1 }));
}

interface Light {
  readonly x: number;
  readonly y: number;
  readonly z: number;
}

function towardsSun(azimuth_deg: number, elevation_deg: number): Light {
  const [a, e] = [azimuth_deg * RAD, elevation_deg * RAD];
  return { x: Math.cos(e) * Math.sin(a), y: Math.cos(e) * Math.cos(a), z: Math.sin(e) };
}

const heightOf = (p: ShadowPlane, x: number, y: number): number => p.z0_m + p.east * x + p.north * y;

function cast(x: number, y: number, z: number, s: Light, plane: ShadowPlane): PlanPoint {
  const t = (z - heightOf(plane, x, y)) / (s.z - plane.east * s.x - plane.north * s.y);
  return [x - t * s.x, y - t * s.y];
}

function treeShadows(tree: TreeObstacle, s: Light, month: number, plane: ShadowPlane): PlanShadow[] {
  const [x, y] = tree.at;
  const leaf = tree.leafMonths[month] ?? true;
  const r = tree.crownRadius_m;
  const half = (tree.height_m - tree.crownBase_m) / 2;
  const middle = tree.ground_m + (tree.height_m + tree.crownBase_m) / 2;
  const out: PlanShadow[] = [];
  const top = tree.ground_m + tree.height_m;
  if (top <= heightOf(plane, x, y)) return [];
  if (tree.trunkRadius_m > 0) {
    const across = Math.hypot(s.x, s.y) || 1;
    const [ox, oy] = [(-s.y / across) * tree.trunkRadius_m, (s.x / across) * tree.trunkRadius_m];
    const low = Math.max(tree.ground_m, heightOf(plane, x, y));
    if (middle > low)
      out.push({
        points: [
          cast(x - ox, y - oy, low, s, plane),
          cast(x + ox, y + oy, low, s, plane),
          cast(x + ox, y + oy, middle, s, plane),
          cast(x - ox, y - oy, middle, s, plane),
        ],
        dark: 1,
      });
  }
  // in heights shrunk by half/r the crown is a ball, and its outline a circle square to the light
  const z = (s.z * r) / half;
  const flat = Math.hypot(s.x, s.y);
  const long = Math.hypot(flat, z);
  const [ax, ay] = flat > 1e-9 ? [-s.y / flat, s.x / flat] : [1, 0];
  const [bx, by, bz] =
    flat > 1e-9 ? [(-s.x / flat) * (z / long), (-s.y / flat) * (z / long), flat / long] : [0, 1, 0];
  const points = Array.from({ length: ROUND }, (_, k): PlanPoint => {
    const [c, d] = [r * Math.cos((2 * Math.PI * k) / ROUND), r * Math.sin((2 * Math.PI * k) / ROUND)];
    return cast(x + c * ax + d * bx, y + c * ay + d * by, middle + (d * bz * half) / r, s, plane);
  });
  const through = leaf ? tree.leafTransmittance : tree.bareTransmittance;
  if (through < 1) out.push({ points, dark: 1 - through });
  return out;
}

/** Signed area of a polygon, positive anticlockwise [m²]. */
export function area_m2(points: readonly PlanPoint[]): number {
  let sum = 0;
  for (let i = 0; i < points.length; i++) {
    const [x1, y1] = points[i];
    const [x2, y2] = points[(i + 1) % points.length];
    sum += x1 * y2 - x2 * y1;
  }
  return sum / 2;
}

/** What of a polygon lies inside a convex one (Sutherland & Hodgman 1974). */
export function clipConvex(subject: readonly PlanPoint[], clip: readonly PlanPoint[]): PlanPoint[] {
  const turn = area_m2(clip) < 0 ? -1 : 1;
  let out = [...subject];
  for (let i = 0; i < clip.length && out.length > 0; i++) {
    const a = clip[i];
    const b = clip[(i + 1) % clip.length];
    const side = (p: PlanPoint): number =>
      turn * ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]));
    const next: PlanPoint[] = [];
    out.forEach((p, k) => {
      const q = out[(k + 1) % out.length];
      const [dp, dq] = [side(p), side(q)];
      if (dp >= 0) next.push(p);
      if (dp >= 0 !== dq >= 0) {
        const f = dp / (dp - dq);
        next.push([p[0] + f * (q[0] - p[0]), p[1] + f * (q[1] - p[1])]);
      }
    });
    out = next;
  }
  return out;
}

/** Plane through the corners of a flat surface that is not upright. */
export function planeOf(corners: readonly (readonly [number, number, number])[]): ShadowPlane | null {
  let [nx, ny, nz] = [0, 0, 0];
  for (let i = 0; i < corners.length; i++) {
    const [x1, y1, z1] = corners[i];
    const [x2, y2, z2] = corners[(i + 1) % corners.length];
    nx += (y1 - y2) * (z1 + z2);
    ny += (z1 - z2) * (x1 + x2);
    nz += (x1 - x2) * (y1 + y2);
  }
  if (!(Math.abs(nz) > 1e-3 * Math.hypot(nx, ny, nz))) return null;
  const [east, north] = [-nx / nz, -ny / nz];
  const [x, y, z] = corners[0];
  return { z0_m: z - east * x - north * y, east, north };
}
