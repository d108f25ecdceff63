/** Best filling of one bar by value. `upper` is a bound that holds even when the search was cut off. */
export interface Filling {
  readonly value: number;
  readonly counts: readonly number[];
  readonly upper: number;
}

/** Nodes of the search before it stops with its bound. */
const NODES = 400_000;

/**
 * Bounded knapsack by depth-first branch and bound, items by falling value per length (Gilmore & Gomory 1963).
 *
 * @param values   of one piece, by place; pieces of no value are left out
 * @param lengths  whole numbers > 0
 * @param most     how many of each may be used
 * @param capacity whole number
 * @param nodesAtMost places looked at before the search stops with its bound
 */
export function bestFilling(
  values: ArrayLike<number>,
  lengths: ArrayLike<number>,
  most: ArrayLike<number>,
  capacity: number,
  nodesAtMost = NODES,
): Filling {
  const items: number[] = [];
  for (let i = 0; i < values.length; i++)
    if (values[i] > 1e-12 && most[i] > 0 && lengths[i] <= capacity) items.push(i);
  items.sort((a, b) => values[b] / lengths[b] - values[a] / lengths[a]);
  const n = items.length;
  const counts = new Array<number>(values.length).fill(0);
  if (n === 0) return { value: 0, counts, upper: 0 };

  const density = items.map((i) => values[i] / lengths[i]);
  // shortest piece from a place on: with less room than that nothing more fits
  const shortest = new Float64Array(n + 1).fill(Infinity);
  for (let k = n - 1; k >= 0; k--) shortest[k] = Math.min(shortest[k + 1], lengths[items[k]]);

  const taken = new Int32Array(n);
  const best = new Int32Array(n);
  let bestValue = 0;
  let nodes = 0;
  const dive = (k: number, room: number, value: number): void => {
    nodes++;
    if (value > bestValue + 1e-12) {
      bestValue = value;
      best.fill(0);
      for (let j = 0; j < k; j++) best[j] = taken[j];
    }
    if (k === n || room < shortest[k] || nodes > nodesAtMost) return;
    const i = items[k];
    const rest = k + 1 < n ? density[k + 1] : 0;
    for (let q = Math.min(most[i], Math.floor(room / lengths[i])); q >= 0; q--) {
      const left = room - q * lengths[i];
      // with fewer of this piece the bound only falls
      if (value + q * values[i] + left * rest <= bestValue + 1e-12) break;
      taken[k] = q;
      dive(k + 1, left, value + q * values[i]);
    }
    taken[k] = 0;
  };
  dive(0, capacity, 0);
  for (let j = 0; j < n; j++) counts[items[j]] = best[j];
  const upper = nodes > nodesAtMost ? Math.max(bestValue, density[0] * capacity) : bestValue;
  return { value: bestValue, counts, upper };
}
