import type { CutGrid, Pattern } from './cutting-types';

/** Bars cut for a demand, and what they cost; null when something fits nowhere. */
export interface GreedyCuts {
  readonly patterns: readonly Pattern[];
  readonly cost: number;
}

interface Bar {
  stock: number;
  room: number;
  counts: number[];
}

/**
 * First-fit decreasing: longest piece first, into the first bar with room, else a new bar. What is on hand is opened
 * first, shortest first; then always the same bought length, or the cheapest that holds the piece. Tried with every
 * bought length; afterwards each bar goes down to the cheapest stock that still holds its pieces.
 *
 * @param grid   the order
 * @param demand how many of each are still needed
 * @param used   how many of each stock are taken already
 */
export function firstFitDecreasing(
  grid: CutGrid,
  demand: readonly number[] = grid.demand,
  used: readonly number[] = grid.limits.map(() => 0),
): GreedyCuts | null {
  let best: GreedyCuts | null = null;
  const bought = grid.limits.flatMap((limit, j) => (limit === Infinity ? [j] : []));
  for (const preferred of bought.length > 0 ? bought : [-1]) {
    const made = fill(grid, demand, used, preferred);
    if (made && (best === null || made.cost < best.cost)) best = made;
  }
  return best;
}

/**
 * How many of each can be cut at all: those that can be bought for all, the longer ones longest first as long as what
 * is on hand reaches. First-fit decreasing then finds room for them all.
 */
export function withinReach(grid: CutGrid): number[] {
  const { lengths, capacities, demand, limits } = grid;
  const bought = Math.max(0, ...capacities.filter((_, j) => limits[j] === Infinity));
  const onHand = capacities
    .flatMap((room, j) => (limits[j] === Infinity ? [] : new Array<number>(limits[j]).fill(room)))
    .sort((a, b) => a - b);
  // as first-fit decreasing goes: bars begun before bars untouched, those shortest first
  const begun: number[] = [];
  const met = [...demand];
  const order = lengths.map((_, i) => i).sort((a, b) => lengths[b] - lengths[a]);
  for (const i of order) {
    if (lengths[i] <= bought) continue;
    met[i] = 0;
    while (met[i] < demand[i]) {
      const at = begun.findIndex((room) => room >= lengths[i]);
      if (at >= 0) begun[at] -= lengths[i];
      else {
        const fresh = onHand.findIndex((room) => room >= lengths[i]);
        if (fresh < 0) break;
        begun.push(onHand.splice(fresh, 1)[0] - lengths[i]);
      }
      met[i]++;
    }
  }
  return met;
}

function fill(
  grid: CutGrid,
  demand: readonly number[],
  used: readonly number[],
  preferred: number,
): GreedyCuts | null {
  const { lengths, capacities, costs, limits } = grid;
  const left = limits.map((limit, j) => limit - used[j]);
  const order = lengths.map((_, i) => i).sort((a, b) => lengths[b] - lengths[a]);
  const onHand = capacities
    .map((_, j) => j)
    .filter((j) => limits[j] < Infinity)
    .sort((a, b) => capacities[a] - capacities[b]);
  const others = capacities
    .map((_, j) => j)
    .filter((j) => limits[j] === Infinity && j !== preferred)
    .sort((a, b) => costs[a] - costs[b]);
  const opening = [...onHand, ...(preferred >= 0 ? [preferred] : []), ...others];
  const bars: Bar[] = [];
  for (const i of order) {
    for (let n = 0; n < demand[i]; n++) {
      let bar = bars.find((b) => b.room >= lengths[i]);
      if (!bar) {
        const stock = opening.find((j) => left[j] > 0 && capacities[j] >= lengths[i]);
        if (stock === undefined) return null;
        left[stock]--;
        bar = { stock, room: capacities[stock], counts: new Array<number>(lengths.length).fill(0) };
        bars.push(bar);
      }
      bar.room -= lengths[i];
      bar.counts[i]++;
    }
  }
  let cost = 0;
  for (const bar of bars) {
    const need = capacities[bar.stock] - bar.room;
    let to = bar.stock;
    for (let j = 0; j < costs.length; j++)
      if (left[j] > 0 && capacities[j] >= need && costs[j] < costs[to]) to = j;
    if (to !== bar.stock) {
      left[bar.stock]++;
      left[to]--;
      bar.stock = to;
    }
    cost += costs[bar.stock];
  }
  return { patterns: bars.map(({ stock, counts }) => ({ stock, counts })), cost };
}
