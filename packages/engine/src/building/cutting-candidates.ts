import type { Relaxation } from './cutting-relaxation';
import type { CutGrid, Pattern } from './cutting-types';

/** Longest search for patterns; cut off there, nothing is proven. */
const NODES = 3_000_000;

/**
 * Every filled-up pattern that a plan of at most `most` can use: those whose reduced cost is within `most` of the
 * relaxation's bound. Demands are met or passed, so a bar that has room for one more needed piece need not be looked at.
 *
 * @param most     largest cost of interest, in grid units
 * @param atMost   number of patterns at which to give up
 * @returns the patterns; `complete` is false when the search was cut off
 */
export function candidatePatterns(
  grid: CutGrid,
  relaxation: Relaxation,
  most: number,
  atMost: number,
): { patterns: Pattern[]; complete: boolean } {
  const { lengths, demand, capacities, costs, limits } = grid;
  const { duals, stockDuals, bound } = relaxation;
  const slack = most - bound + 1e-6 * (1 + Math.abs(most));
  const order = lengths
    .map((_, i) => i)
    .filter((i) => demand[i] > 0)
    .sort((a, b) => duals[b] / lengths[b] - duals[a] / lengths[a]);
  const n = order.length;
  const density = order.map((i) => duals[i] / lengths[i]);
  const counts = new Array<number>(lengths.length).fill(0);
  const patterns: Pattern[] = [];
  let nodes = 0;
  let complete = true;
  for (let j = 0; j < capacities.length && complete; j++) {
    if (!(limits[j] > 0)) continue;
    const needed = costs[j] - stockDuals[j] - slack;
    const dive = (k: number, room: number, value: number): void => {
      if (!complete) return;
      if (++nodes > NODES || patterns.length > atMost) {
        complete = false;
        return;
      }
      if (k === n) {
        // filled up: nothing still wanted fits
        for (const i of order) if (counts[i] < demand[i] && lengths[i] <= room) return;
        if (room < capacities[j]) patterns.push({ stock: j, counts: [...counts] });
        return;
      }
      const i = order[k];
      const rest = k + 1 < n ? density[k + 1] : 0;
      for (let q = Math.min(demand[i], Math.floor(room / lengths[i])); q >= 0; q--) {
        const left = room - q * lengths[i];
        const worth = value + q * duals[i];
        if (worth + left * rest < needed) break;
        counts[i] = q;
        dive(k + 1, left, worth);
      }
      counts[i] = 0;
    };
    dive(0, capacities[j], 0);
  }
  return { patterns, complete };
}
