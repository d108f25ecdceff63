/** A straight thing in the collector's plane, as the neighbour search sees it. */
export interface Rod {
  /** Ends in the plane [m]. */
  readonly u0_m: number;
  readonly v0_m: number;
  readonly u1_m: number;
  readonly v1_m: number;
  /** Height of the axis over the plane [m]. */
  readonly w_m: number;
}

/** The nearest other tube on one side. */
export interface Neighbour {
  /** Place of the neighbour in the list. */
  readonly index: number;
  /** Between the axes, straight [m]. */
  readonly distance_m: number;
  /** Between the axes as seen at right angles to the plane [m]; ≥ 0. */
  readonly sideways_m: number;
  /** How much higher over the plane the neighbour lies [m]; negative when deeper. */
  readonly depth_m: number;
}

export interface Neighbours {
  readonly left: Neighbour | null;
  readonly right: Neighbour | null;
  /** Order across the panel among rods of one direction, from 0. */
  readonly order: number;
}

/**
 * Who lies beside whom in the sun. Rods of one direction that overlap along at least half the shorter one are
 * neighbours; banks and sections do not matter, only places. Left is the side of the smaller coordinate across.
 *
 * @param rods any number; directions within 0.1° count as one
 * @example three banks nested a third of a pitch apart: each tube's neighbours belong to the other banks
 */
export function realNeighbours(rods: readonly Rod[]): Neighbours[] {
  const out: Neighbours[] = rods.map(() => ({ left: null, right: null, order: 0 }));
  const groups = new Map<number, number[]>();
  for (let i = 0; i < rods.length; i++) {
    const key = Math.round(angleOf(rods[i]) * 10) % 1800;
    const group = groups.get(key);
    if (group) group.push(i);
    else groups.set(key, [i]);
  }
  for (const [key, group] of groups) placeGroup(rods, group, key / 10, out);
  return out;
}

function angleOf(rod: Rod): number {
  const a = (Math.atan2(rod.v1_m - rod.v0_m, rod.u1_m - rod.u0_m) * 180) / Math.PI;
  return ((a % 180) + 180) % 180;
}

interface Placed {
  index: number;
  across: number;
  from: number;
  to: number;
  w: number;
}

function placeGroup(
  rods: readonly Rod[],
  group: readonly number[],
  angle_deg: number,
  out: Neighbours[],
): void {
  const c = Math.cos((angle_deg * Math.PI) / 180);
  const s = Math.sin((angle_deg * Math.PI) / 180);
  const placed: Placed[] = group.map((index) => {
    const r = rods[index];
    const t0 = c * r.u0_m + s * r.v0_m;
    const t1 = c * r.u1_m + s * r.v1_m;
    const across = (-s * (r.u0_m + r.u1_m) + c * (r.v0_m + r.v1_m)) / 2;
    return { index, across, from: Math.min(t0, t1), to: Math.max(t0, t1), w: r.w_m };
  });
  placed.sort((a, b) => a.across - b.across || a.w - b.w);
  for (let k = 0; k < placed.length; k++) {
    out[placed[k].index] = {
      left: nearest(placed, k, -1),
      right: nearest(placed, k, 1),
      order: k,
    };
  }
}

function nearest(placed: readonly Placed[], k: number, step: 1 | -1): Neighbour | null {
  const me = placed[k];
  let best: Neighbour | null = null;
  for (let j = k + step; j >= 0 && j < placed.length; j += step) {
    const other = placed[j];
    const sideways_m = Math.abs(other.across - me.across);
    if (best && sideways_m >= best.distance_m) break;
    const overlap = Math.min(me.to, other.to) - Math.max(me.from, other.from);
    if (!(overlap >= 0.5 * Math.min(me.to - me.from, other.to - other.from))) continue;
    const distance_m = Math.hypot(sideways_m, other.w - me.w);
    if (!best || distance_m < best.distance_m) {
      best = { index: other.index, distance_m, sideways_m, depth_m: other.w - me.w };
    }
  }
  return best;
}
