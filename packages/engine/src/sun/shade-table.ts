import { DomainError } from '../numeric/errors';
import { GRID_SIDE, type ShadeReceiver, shadeGrid } from './shade-grid';
import { checkObstacle, type Obstacle } from './shade-obstacle';
import { castObstacle, placeObstacle, turnObstacle } from './shade-rays';

const RAD = Math.PI / 180;
const AZIMUTHS = 90; // every 4°
const ELEVATIONS = 31; // 0…90°, every 3°
const AZIMUTH_STEP = 360 / AZIMUTHS;
/** Share of the area by which a straight shadow edge is off at most, with the usual grid. */
const RAY_ERROR = 0.01;
const ELEVATION_STEP = 90 / (ELEVATIONS - 1);

/**
 * Sunlit share of one receiver for every direction of the sky, worked out once and read through the year.
 * Months that have the same trees in leaf share a *state*.
 */
export interface ShadeTable {
  readonly obstacles: number;
  /** State of each month, January first. */
  readonly monthState: readonly number[];
  /** [state] → share of direct light that arrives, by direction. */
  readonly share: readonly Float32Array[];
  /** [state][obstacle] → share that would be gained if that one obstacle were gone, by direction. */
  readonly gainWithout: readonly (readonly Float32Array[])[];
  /** [state] → share of diffuse light and of long wave from the sky still seen [–]. */
  readonly skyShare: readonly number[];
  /** [state][obstacle] → sky share gained if that obstacle were gone [–]. */
  readonly skyGainWithout: readonly (readonly number[])[];
  /** Largest error of the sunlit share from the finite number of rays [–], for a straight shadow edge. */
  readonly rayError: number;
}

/**
 * Table of the sunlit share over the sky: rays from a fixed grid of points on the receiver to each of 90 × 31
 * directions, through every obstacle. A solid stops a ray, a crown or a screen thins it.
 *
 * @param receiver  the water's surface or a part of the collector
 * @param obstacles solids of the yard, in the same coordinates; the receiver's own house included
 * @param side      points along a side of the receiver; 8 are enough for the share of the sky (within 0.003)
 * @throws {DomainError} for obstacles or receivers without volume or area
 */
export function shadeTable(
  receiver: ShadeReceiver,
  obstacles: readonly Obstacle[],
  side = GRID_SIDE,
): ShadeTable {
  for (const obstacle of obstacles) checkObstacle(obstacle);
  const grid = shadeGrid(receiver, side);
  const n = grid.count;
  const { states, monthState } = leafStates(obstacles);
  const directions = AZIMUTHS * ELEVATIONS;
  const share = states.map(() => new Float32Array(directions).fill(1));
  const gainWithout = states.map(() => obstacles.map(() => new Float32Array(directions)));
  const placed = obstacles.map(placeObstacle);

  const u = new Float64Array(n);
  const v = new Float64Array(n);
  const hits = obstacles.map(() => new Float64Array(n));
  const product = new Float64Array(n);
  const passed = obstacles.map((o, k) => (o.kind === 'tree' ? new Float64Array(n) : hits[k]));
  let zMin = Infinity;
  for (const z of grid.z_m) if (z < zMin) zMin = z;

  for (let ia = 0; ia < AZIMUTHS; ia++) {
    const azimuth = ia * AZIMUTH_STEP * RAD;
    const east = Math.sin(azimuth);
    const north = Math.cos(azimuth);
    let uMin = Infinity;
    let uMax = -Infinity;
    let vMin = Infinity;
    let vMax = -Infinity;
    for (let i = 0; i < n; i++) {
      const ui = grid.x_m[i] * east + grid.y_m[i] * north;
      const vi = grid.x_m[i] * north - grid.y_m[i] * east;
      u[i] = ui;
      v[i] = vi;
      if (ui < uMin) uMin = ui;
      if (ui > uMax) uMax = ui;
      if (vi < vMin) vMin = vi;
      if (vi > vMax) vMax = vi;
    }
    const rays = { n, u, v, z: grid.z_m, uMin, uMax, vMin, vMax, zMin };
    for (const p of placed) turnObstacle(p, rays, east, north);
    for (let ie = 0; ie < ELEVATIONS; ie++) {
      const elevation = ie * ELEVATION_STEP * RAD;
      const cell = ie * AZIMUTHS + ia;
      const met: number[] = [];
      for (let k = 0; k < placed.length; k++)
        if (castObstacle(placed[k], rays, azimuth, elevation, hits[k])) met.push(k);
      if (met.length === 0) continue;
      const seasonal = met.some((k) => obstacles[k].kind === 'tree');
      for (let s = 0; s < states.length; s++) {
        if (s > 0 && !seasonal) {
          // Nothing on this side changes with the leaves.
          share[s][cell] = share[0][cell];
          for (const k of met) gainWithout[s][k][cell] = gainWithout[0][k][cell];
          continue;
        }
        for (const k of met) {
          if (obstacles[k].kind !== 'tree') continue;
          const through = passed[k];
          const hit = hits[k];
          const crown = states[s][k];
          for (let i = 0; i < n; i++) through[i] = hit[i] < 0 ? crown : hit[i];
        }
        share[s][cell] = meanProduct(passed, met, -1, n, product);
        for (const k of met)
          gainWithout[s][k][cell] = meanProduct(passed, met, k, n, product) - share[s][cell];
      }
    }
  }

  const weights = skyWeights(grid.normal);
  return {
    obstacles: obstacles.length,
    monthState,
    share,
    gainWithout,
    skyShare: share.map((table) => dot(weights, table)),
    skyGainWithout: gainWithout.map((tables) => tables.map((table) => dot(weights, table))),
    rayError: RAY_ERROR * (GRID_SIDE / side) ** 1.5,
  };
}

/** Mean over the points of the product of all obstacles met, `skip` left out. */
function meanProduct(
  passed: readonly Float64Array[],
  met: readonly number[],
  skip: number,
  n: number,
  product: Float64Array,
): number {
  const rest = met.filter((k) => k !== skip);
  if (rest.length === 0) return 1;
  let sum = 0;
  if (rest.length === 1) {
    const only = passed[rest[0]];
    for (let i = 0; i < n; i++) sum += only[i];
    return sum / n;
  }
  product.set(passed[rest[0]]);
  for (let m = 1; m < rest.length - 1; m++) {
    const next = passed[rest[m]];
    for (let i = 0; i < n; i++) product[i] *= next[i];
  }
  const last = passed[rest[rest.length - 1]];
  for (let i = 0; i < n; i++) sum += product[i] * last[i];
  return sum / n;
}

/** Which trees are in leaf, month by month: one list of crown transmittances per distinct state. */
function leafStates(obstacles: readonly Obstacle[]): { states: number[][]; monthState: number[] } {
  const states: number[][] = [];
  const keys: string[] = [];
  const monthState: number[] = [];
  for (let month = 0; month < 12; month++) {
    const crowns = obstacles.map((o) =>
      o.kind !== 'tree' ? 0 : o.leafMonths[month] ? o.leafTransmittance : o.bareTransmittance,
    );
    const key = crowns.join();
    let index = keys.indexOf(key);
    if (index < 0) {
      index = keys.push(key) - 1;
      states.push(crowns);
    }
    monthState.push(index);
  }
  return { states, monthState };
}

/**
 * Share of direct light that reaches the receiver with the sun at a place in the sky, bilinear in the table.
 * Between nodes (4° × 3°) a shadow edge is smoothed; the mean over a day keeps it.
 *
 * @param table         from shadeTable
 * @param month         0 = January
 * @param azimuth_deg   clockwise from north [°], any turn
 * @param elevation_deg [°], below the horizon counts as 0
 * @returns sunlit share [–], 0…1
 * @throws {DomainError} for a month or an angle that is none
 */
export function sunlitShare(
  table: ShadeTable,
  month: number,
  azimuth_deg: number,
  elevation_deg: number,
): number {
  return lookUp(table.share[stateOf(table, month)], azimuth_deg, elevation_deg);
}

/** Sunlit share that one obstacle alone takes away at that moment [–]: what felling it would bring. */
export function sunlitGainWithout(
  table: ShadeTable,
  month: number,
  obstacle: number,
  azimuth_deg: number,
  elevation_deg: number,
): number {
  const one = table.gainWithout[stateOf(table, month)][obstacle];
  if (one === undefined) throw new DomainError('obstacle', obstacle, `0…${table.obstacles - 1}`);
  return lookUp(one, azimuth_deg, elevation_deg);
}

/** Share of the sky the receiver still sees in that month [–], for diffuse light and for long wave. */
export function skyShare(table: ShadeTable, month: number): number {
  return table.skyShare[stateOf(table, month)];
}

function stateOf(table: ShadeTable, month: number): number {
  const state = table.monthState[month];
  if (state === undefined) throw new DomainError('month', month, '0…11');
  return state;
}

function lookUp(table: Float32Array, azimuth_deg: number, elevation_deg: number): number {
  if (!Number.isFinite(azimuth_deg)) throw new DomainError('azimuth', azimuth_deg, 'finite °');
  if (!(elevation_deg >= -90 && elevation_deg <= 90))
    throw new DomainError('elevation', elevation_deg, '[−90, 90]°');
  const a = (((azimuth_deg % 360) + 360) % 360) / AZIMUTH_STEP;
  const e = Math.max(0, elevation_deg) / ELEVATION_STEP;
  const a0 = Math.floor(a) % AZIMUTHS;
  const a1 = (a0 + 1) % AZIMUTHS;
  const e0 = Math.min(ELEVATIONS - 2, Math.floor(e));
  const fa = a - Math.floor(a);
  const fe = e - e0;
  const low = table[e0 * AZIMUTHS + a0] * (1 - fa) + table[e0 * AZIMUTHS + a1] * fa;
  const high = table[(e0 + 1) * AZIMUTHS + a0] * (1 - fa) + table[(e0 + 1) * AZIMUTHS + a1] * fa;
  return low * (1 - fe) + high * fe;
}

/** Weights of the directions for evenly bright sky on a plane: cos(incidence)·dΩ, sum 1. */
function skyWeights(normal: readonly [number, number, number]): Float64Array {
  const weights = new Float64Array(AZIMUTHS * ELEVATIONS);
  let sum = 0;
  for (let ie = 0; ie < ELEVATIONS; ie++) {
    const elevation = ie * ELEVATION_STEP * RAD;
    // Exact solid angle of the band of elevations nearest to this node.
    const half = (ELEVATION_STEP / 2) * RAD;
    const band = Math.sin(Math.min(Math.PI / 2, elevation + half)) - Math.sin(Math.max(0, elevation - half));
    for (let ia = 0; ia < AZIMUTHS; ia++) {
      const azimuth = ia * AZIMUTH_STEP * RAD;
      const cos =
        Math.cos(elevation) * (Math.sin(azimuth) * normal[0] + Math.cos(azimuth) * normal[1]) +
        Math.sin(elevation) * normal[2];
      const w = Math.max(0, cos) * band;
      weights[ie * AZIMUTHS + ia] = w;
      sum += w;
    }
  }
  for (let i = 0; i < weights.length; i++) weights[i] /= sum;
  return weights;
}

function dot(weights: Float64Array, table: Float32Array): number {
  let sum = 0;
  for (let i = 0; i < weights.length; i++) sum += weights[i] * table[i];
  return sum;
}
