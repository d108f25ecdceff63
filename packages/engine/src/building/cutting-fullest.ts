import type { GreedyCuts } from './cutting-greedy';
import { bestFilling } from './cutting-knapsack';
import type { CutGrid, Pattern } from './cutting-types';

/** Places looked at for one bar: a nearly full one is found soon. */
const NODES = 3000;

/**
 * Bar by bar, each as full as can be (minimal bin slack, Gupta & Ho 1999): the longest piece left goes in first, the rest
 * of the bar is filled by the best sum of pieces. What is on hand comes first; the last bars go down to the cheapest
 * stock that holds them.
 *
 * @param preferred bought stock to fill
 * @param bias      extra worth of long pieces, so that short ones stay for the end [–]
 * @returns null when a piece fits nowhere
 */
export function fullestBars(
  grid: CutGrid,
  wanted: readonly number[],
  used: readonly number[],
  preferred: number,
  bias: number,
): GreedyCuts | null {
  const { lengths, capacities, costs, limits } = grid;
  const demand = [...wanted];
  const left = limits.map((limit, j) => limit - used[j]);
  const order = lengths.map((_, i) => i).sort((a, b) => lengths[b] - lengths[a]);
  const longest = Math.max(...lengths);
  const values = lengths.map((l) => l * (1 + (bias * l) / longest));
  const onHand = capacities
    .map((_, j) => j)
    .filter((j) => limits[j] < Infinity)
    .sort((a, b) => capacities[a] - capacities[b]);
  const patterns: Pattern[] = [];
  let cost = 0;
  const cut = (stock: number, first: number): void => {
    const room = capacities[stock] - (first >= 0 ? lengths[first] : 0);
    if (first >= 0) demand[first]--;
    const filling = bestFilling(values, lengths, demand, room, NODES);
    const counts = [...filling.counts];
    counts.forEach((n, i) => {
      demand[i] -= n;
    });
    if (first >= 0) counts[first]++;
    patterns.push({ stock, counts });
    cost += costs[stock];
    left[stock]--;
  };
  const shortest = () => {
    let least = Infinity;
    for (let i = 0; i < lengths.length; i++) if (demand[i] > 0 && lengths[i] < least) least = lengths[i];
    return least;
  };
  for (const j of onHand) while (left[j] > 0 && capacities[j] >= shortest()) cut(j, -1);
  for (;;) {
    const first = order.find((i) => demand[i] > 0);
    if (first === undefined) return { patterns, cost };
    const total = lengths.reduce((sum, l, i) => sum + l * demand[i], 0);
    let stock = -1;
    // everything left into one bar, the cheapest that holds it
    for (let j = 0; j < costs.length; j++)
      if (left[j] > 0 && capacities[j] >= total && (stock < 0 || costs[j] < costs[stock])) stock = j;
    if (stock < 0) {
      const fits = (j: number) => left[j] > 0 && capacities[j] >= lengths[first];
      stock = fits(preferred) ? preferred : costs.findIndex((_, j) => fits(j));
    }
    if (stock < 0) return null;
    cut(stock, first);
  }
}
