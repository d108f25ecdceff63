import type { Obstacle, YardPoint } from '@sunlap/engine/sun/shade-obstacle';
import { type Direction, skyDirection } from '@sunlap/engine/sun/vectors';

/** A plane in the yard: a point of it and its unit normal, upward. */
export interface ShadowPlane {
  readonly through: YardPoint;
  readonly normal: YardPoint;
}

/** The plane of the pool's water. */
export const WATER_PLANE: ShadowPlane = { through: [0, 0, 0], normal: [0, 0, 1] };

/** One patch of shadow: corners in the yard, and how much direct light still passes it. */
export interface ShadowPatch {
  readonly corners: readonly YardPoint[];
  readonly passes: number;
}

/** Corners that stand for the outline of a crown. */
const CROWN = 36;

/**
 * Shadow of a solid on a plane, as polygons whose union it is. What lies behind the plane throws none on it.
 *
 * @param month 0 = January: trees may be bare
 * @returns none while the sun is down, or shines on the plane's rear
 */
export function shadowOf(
  solid: Obstacle,
  plane: ShadowPlane,
  sunZenith_deg: number,
  sunAzimuth_deg: number,
  month: number,
): ShadowPatch[] {
  const sun = skyDirection(sunZenith_deg, sunAzimuth_deg);
  if (!(sunZenith_deg < 89.5) || !(along(plane.normal, sun) > 0.01)) return [];
  if (solid.kind === 'tree') return treeShadow(solid, plane, sun, month);
  const passes = solid.kind === 'screen' ? (solid.mesh.kind === 'typed' ? solid.mesh.openness : 0.7) : 0;
  const faces = prismFaces(solid.footprint, solid.base_m, solid.top_m);
  const patches = faces.flatMap((face) => project(clip(face, plane), plane, sun));
  if (!isConvex(solid.footprint)) return patches.map((corners) => ({ corners, passes }));
  const outline = hull(patches.flat());
  return outline.length >= 3 ? [{ corners: outline, passes }] : [];
}

function treeShadow(
  tree: Extract<Obstacle, { kind: 'tree' }>,
  plane: ShadowPlane,
  sun: Direction,
  month: number,
): ShadowPatch[] {
  const [x, y] = tree.at;
  const out: ShadowPatch[] = [];
  const base = tree.ground_m + tree.crownBase_m;
  const top = tree.ground_m + tree.height_m;
  const r = tree.trunkRadius_m;
  if (r > 0 && tree.crownBase_m > 0) {
    const square = [
      [x - r, y - r],
      [x + r, y - r],
      [x + r, y + r],
      [x - r, y + r],
    ] as const;
    const trunk = prismFaces(square, tree.ground_m, base).flatMap((f) => project(clip(f, plane), plane, sun));
    const outline = hull(trunk.flat());
    if (outline.length >= 3) out.push({ corners: outline, passes: 0 });
  }
  // outline of the ellipsoid against the sun: points whose normal is square to it
  const [a, b] = [tree.crownRadius_m, (top - base) / 2];
  const s = unit([sun.east / a, sun.north / a, sun.up / b]);
  const p = unit(Math.abs(s[2]) < 0.9 ? cross(s, [0, 0, 1]) : cross(s, [1, 0, 0]));
  const q = cross(s, p);
  const ring: YardPoint[] = [];
  for (let k = 0; k < CROWN; k++) {
    const t = (2 * Math.PI * k) / CROWN;
    const [c, d] = [Math.cos(t), Math.sin(t)];
    ring.push([
      x + a * (c * p[0] + d * q[0]),
      y + a * (c * p[1] + d * q[1]),
      (base + top) / 2 + b * (c * p[2] + d * q[2]),
    ]);
  }
  const passes = tree.leafMonths[month] ? tree.leafTransmittance : tree.bareTransmittance;
  for (const corners of project(clip(ring, plane), plane, sun)) out.push({ corners, passes });
  return out;
}

function prismFaces(
  footprint: readonly (readonly [number, number])[],
  base_m: number,
  top_m: number,
): YardPoint[][] {
  const at = (z: number): YardPoint[] => footprint.map(([x, y]) => [x, y, z]);
  const sides = footprint.map(([x, y], i): YardPoint[] => {
    const [u, v] = footprint[(i + 1) % footprint.length];
    return [
      [x, y, base_m],
      [u, v, base_m],
      [u, v, top_m],
      [x, y, top_m],
    ];
  });
  return [at(base_m), at(top_m), ...sides];
}

function over(p: YardPoint, plane: ShadowPlane): number {
  const { through: o, normal: n } = plane;
  return (p[0] - o[0]) * n[0] + (p[1] - o[1]) * n[1] + (p[2] - o[2]) * n[2];
}

/** Part of a polygon in front of a plane (Sutherland & Hodgman 1974). */
function clip(polygon: readonly YardPoint[], plane: ShadowPlane): YardPoint[] {
  const out: YardPoint[] = [];
  polygon.forEach((p, i) => {
    const q = polygon[(i + 1) % polygon.length];
    const [a, b] = [over(p, plane), over(q, plane)];
    if (a >= 0) out.push(p);
    if (a >= 0 !== b >= 0) {
      const t = a / (a - b);
      out.push([p[0] + t * (q[0] - p[0]), p[1] + t * (q[1] - p[1]), p[2] + t * (q[2] - p[2])]);
    }
  });
  return out;
}

/** A polygon thrown onto the plane along the sun's rays; none when less than three corners are left. */
function project(polygon: readonly YardPoint[], plane: ShadowPlane, sun: Direction): YardPoint[][] {
  if (polygon.length < 3) return [];
  const down = along(plane.normal, sun);
  return [
    polygon.map((p) => {
      const t = over(p, plane) / down;
      return [p[0] - t * sun.east, p[1] - t * sun.north, p[2] - t * sun.up] as const;
    }),
  ];
}

function along(n: YardPoint, s: Direction): number {
  return n[0] * s.east + n[1] * s.north + n[2] * s.up;
}

function cross(a: YardPoint, b: YardPoint): YardPoint {
  return [a[1] * b[2] - a[2] * b[1], a[2] * b[0] - a[0] * b[2], a[0] * b[1] - a[1] * b[0]];
}

function unit(v: YardPoint): YardPoint {
  const l = Math.hypot(v[0], v[1], v[2]);
  return [v[0] / l, v[1] / l, v[2] / l];
}

function isConvex(footprint: readonly (readonly [number, number])[]): boolean {
  let sign = 0;
  return footprint.every(([x, y], i) => {
    const [u, v] = footprint[(i + 1) % footprint.length];
    const [p, q] = footprint[(i + 2) % footprint.length];
    const turn = (u - x) * (q - v) - (v - y) * (p - u);
    if (Math.abs(turn) < 1e-12) return true;
    if (sign === 0) sign = Math.sign(turn);
    return Math.sign(turn) === sign;
  });
}

/** Convex outline of points of one plane, seen from above (monotone chain, Andrew 1979). */
function hull(points: readonly YardPoint[]): YardPoint[] {
  const sorted = [...points].sort((a, b) => a[0] - b[0] || a[1] - b[1]);
  const half = (list: readonly YardPoint[]): YardPoint[] => {
    const out: YardPoint[] = [];
    for (const p of list) {
      while (out.length >= 2) {
        const [a, b] = [out[out.length - 2], out[out.length - 1]];
        if ((b[0] - a[0]) * (p[1] - a[1]) - (b[1] - a[1]) * (p[0] - a[0]) > 1e-12) break;
        out.pop();
      }
      out.push(p);
    }
    return out.slice(0, -1);
  };
  return [...half(sorted), ...half([...sorted].reverse())];
}
