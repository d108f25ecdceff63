import type { Obstacle, PlanPoint, ScreenObstacle } from './shade-obstacle';
import { screenTransmittance } from './shade-screen';

/** Rays that start at the receiver's points, in a frame turned so that the sun lies towards +u. */
export interface Rays {
  readonly n: number;
  readonly u: Float64Array;
  readonly v: Float64Array;
  readonly z: Float64Array;
  readonly uMin: number;
  readonly uMax: number;
  readonly vMin: number;
  readonly vMax: number;
  readonly zMin: number;
}

/** An obstacle in the turned frame, with what holds for every elevation of one azimuth. */
export interface PlacedObstacle {
  readonly obstacle: Obstacle;
  readonly u: Float64Array;
  readonly v: Float64Array;
  /**
   * Prisms: level distance at which each ray enters and leaves the footprint, one pair of arrays per time a
   * line can enter it (one for a convex outline). A ray that misses enters at ∞.
   */
  readonly enter: Float64Array[];
  readonly leave: Float64Array[];
  /** Nearest entry of all rays. */
  nearest: number;
}

/** A ray met the crown of a tree: its transmittance depends on the month. */
const CROWN = -1;
const AT_SURFACE = 1e-6; // [m] a point on a roof is not inside the house

export function placeObstacle(obstacle: Obstacle): PlacedObstacle {
  const corners: readonly PlanPoint[] = obstacle.kind === 'tree' ? [obstacle.at] : obstacle.footprint;
  return {
    obstacle,
    u: new Float64Array(corners.length),
    v: new Float64Array(corners.length),
    enter: [],
    leave: [],
    nearest: 0,
  };
}

/** Turns an obstacle into the frame of one azimuth and, for a prism, finds where each ray crosses it. */
export function turnObstacle(placed: PlacedObstacle, rays: Rays, east: number, north: number): void {
  const { obstacle, u, v, enter, leave } = placed;
  const corners: readonly PlanPoint[] = obstacle.kind === 'tree' ? [obstacle.at] : obstacle.footprint;
  for (let i = 0; i < corners.length; i++) {
    const [x, y] = corners[i];
    u[i] = x * east + y * north;
    v[i] = x * north - y * east;
  }
  if (obstacle.kind !== 'prism') return;
  placed.nearest = Infinity;
  if (outOfSight(placed, rays)) return;
  const crossings = new Float64Array(u.length);
  for (let i = 0; i < rays.n; i++) {
    const pv = rays.v[i];
    let count = 0;
    for (let a = 0, b = u.length - 1; a < u.length; b = a++)
      if (v[a] > pv !== v[b] > pv)
        crossings[count++] = u[a] + ((pv - v[a]) * (u[b] - u[a])) / (v[b] - v[a]) - rays.u[i];
    if (count > 2) crossings.subarray(0, count).sort();
    for (let k = 0; k < Math.max(enter.length, count / 2); k++) {
      if (k >= enter.length) {
        enter.push(new Float64Array(rays.n).fill(Infinity));
        leave.push(new Float64Array(rays.n).fill(-Infinity));
      }
      if (2 * k >= count) {
        enter[k][i] = Infinity;
        leave[k][i] = -Infinity;
        continue;
      }
      const p = crossings[2 * k];
      const q = crossings[2 * k + 1];
      enter[k][i] = Math.min(p, q);
      leave[k][i] = Math.max(p, q);
      if (leave[k][i] > 0) placed.nearest = Math.min(placed.nearest, enter[k][i]);
    }
  }
}

/** No point of the receiver can see the obstacle along this azimuth. */
function outOfSight({ u, v }: PlacedObstacle, rays: Rays): boolean {
  let uHigh = -Infinity;
  let vLow = Infinity;
  let vHigh = -Infinity;
  for (let i = 0; i < u.length; i++) {
    uHigh = Math.max(uHigh, u[i]);
    vLow = Math.min(vLow, v[i]);
    vHigh = Math.max(vHigh, v[i]);
  }
  return uHigh < rays.uMin || vHigh < rays.vMin || vLow > rays.vMax;
}

/**
 * Sends all rays towards one direction through one obstacle.
 *
 * @param out per ray: 1 free, 0 stopped, between thinned, CROWN (−1) through a tree's crown
 * @returns false when no ray meets the obstacle; `out` then means nothing
 */
export function castObstacle(
  placed: PlacedObstacle,
  rays: Rays,
  azimuth: number,
  elevation: number,
  out: Float64Array,
): boolean {
  const cot = Math.min(1e9, Math.cos(elevation) / Math.max(1e-12, Math.sin(elevation)));
  const obstacle = placed.obstacle;
  if (obstacle.kind === 'tree') return castTree(placed, rays, elevation, cot, out);
  const rise = obstacle.top_m - rays.zMin;
  if (!(rise > AT_SURFACE)) return false;
  if (obstacle.kind === 'prism')
    return placed.nearest < rise * cot || placed.nearest <= 0
      ? castPrism(placed, rays, obstacle.base_m, obstacle.top_m, cot, out)
      : false;
  return outOfSight(placed, rays) ? false : castScreen(placed, obstacle, rays, azimuth, elevation, cot, out);
}

/** A ray is stopped where its stretch between base and top overlaps a stretch over the footprint. */
function castPrism(
  { enter, leave }: PlacedObstacle,
  rays: Rays,
  base: number,
  top: number,
  cot: number,
  out: Float64Array,
): boolean {
  const n = rays.n;
  out.fill(1);
  let met = false;
  for (let k = 0; k < enter.length; k++) {
    const on = enter[k];
    const off = leave[k];
    for (let i = 0; i < n; i++) {
      const z = rays.z[i];
      const near = base > z ? (base - z) * cot : 0;
      if (off[i] > near && on[i] <= (top - z) * cot && top - z > AT_SURFACE) {
        out[i] = 0;
        met = true;
      }
    }
  }
  return met;
}

function castTree(
  { obstacle, u, v }: PlacedObstacle,
  rays: Rays,
  elevation: number,
  cot: number,
  out: Float64Array,
): boolean {
  if (obstacle.kind !== 'tree') return false;
  const cu = u[0];
  const cv = v[0];
  const r = obstacle.crownRadius_m;
  const trunk = obstacle.trunkRadius_m;
  const reach = Math.max(r, trunk);
  const top = obstacle.ground_m + obstacle.height_m;
  if (top <= rays.zMin || cv + reach < rays.vMin || cv - reach > rays.vMax || cu + reach < rays.uMin)
    return false;
  if (cu - reach - rays.uMax > (top - rays.zMin) * cot) return false;
  const c = (obstacle.height_m - obstacle.crownBase_m) / 2;
  const cz = obstacle.ground_m + (obstacle.height_m + obstacle.crownBase_m) / 2;
  const trunkTop = cz;
  const du = Math.cos(elevation) / r;
  const dz = Math.sin(elevation) / c;
  const dd = du * du + dz * dz;
  let met = false;
  for (let i = 0; i < rays.n; i++) {
    out[i] = 1;
    const qv = (rays.v[i] - cv) / r;
    const side = rays.v[i] - cv;
    if (Math.abs(side) > reach) continue;
    const qu = (rays.u[i] - cu) / r;
    const qz = (rays.z[i] - cz) / c;
    const b = qu * du + qz * dz;
    const rest = qu * qu + qv * qv + qz * qz - 1;
    if (rest < 0 || (b < 0 && b * b >= dd * rest)) {
      out[i] = CROWN;
      met = true;
    }
    const across = trunk * trunk - side * side;
    if (across <= 0) continue;
    const half = Math.sqrt(across);
    const s = cu - rays.u[i];
    const near = Math.max(0, (obstacle.ground_m - rays.z[i]) * cot);
    if (rays.z[i] < trunkTop && s + half > near && s - half < (trunkTop - rays.z[i]) * cot) {
      out[i] = 0;
      met = true;
    }
  }
  return met;
}

function castScreen(
  { u, v }: PlacedObstacle,
  screen: ScreenObstacle,
  rays: Rays,
  azimuth: number,
  elevation: number,
  cot: number,
  out: Float64Array,
): boolean {
  const cosE = Math.cos(elevation);
  const sinE = Math.sin(elevation);
  // Roof wires run along north and east; a wall's run upright and level.
  const roof = screenTransmittance(
    screen.mesh,
    sinE,
    Math.abs(cosE * Math.sin(azimuth)),
    Math.abs(cosE * Math.cos(azimuth)),
  );
  const walls: number[] = [];
  for (let a = 0, b = u.length - 1; a < u.length; b = a++) {
    const length = Math.hypot(u[a] - u[b], v[a] - v[b]);
    const along = length > 0 ? Math.abs(u[a] - u[b]) / length : 0; // share of the level direction along the wall
    const square = Math.sqrt(Math.max(0, 1 - along * along));
    walls.push(screenTransmittance(screen.mesh, cosE * square, cosE * along, sinE));
  }
  let met = false;
  for (let i = 0; i < rays.n; i++) {
    out[i] = 1;
    const rise = screen.top_m - rays.z[i];
    if (rise <= AT_SURFACE) continue;
    const near = Math.max(0, (screen.base_m - rays.z[i]) * cot);
    const far = rise * cot;
    let underRoof = false;
    let share = 1;
    for (let a = 0, b = u.length - 1; a < u.length; b = a++) {
      const pv = rays.v[i];
      if (v[a] > pv === v[b] > pv) continue;
      const s = u[a] + ((pv - v[a]) * (u[b] - u[a])) / (v[b] - v[a]) - rays.u[i];
      if (s > near && s < far) share *= walls[a];
      if (s > far) underRoof = !underRoof;
    }
    if (underRoof) share *= roof;
    if (share < 1) {
      out[i] = share;
      met = true;
    }
  }
  return met;
}
