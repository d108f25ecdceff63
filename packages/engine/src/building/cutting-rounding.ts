import { fullestBars } from './cutting-fullest';
import { firstFitDecreasing, type GreedyCuts } from './cutting-greedy';
import { type Relaxation, relaxedCuts } from './cutting-relaxation';
import type { CutGrid, Pattern } from './cutting-types';

/** Times that the relaxation is solved again for what is left. */
const DIVES = 25;
/** Extra worth of long pieces that is tried when the rest is filled bar by bar. */
const BIASES = [0, 0.05, 0.3, 1];

/**
 * A plan from the relaxation: whole parts are taken, what is left is relaxed again; where nothing is whole the largest
 * fraction goes up to one. At each step the rest is finished by first-fit decreasing and by fullest bars, and the best
 * of all is kept.
 *
 * @param enough cost at which it stops: nothing is cheaper
 * @returns null when nothing could be finished within the limits
 */
export function roundedCuts(grid: CutGrid, first: Relaxation, enough: number): GreedyCuts | null {
  let best: GreedyCuts | null = null;
  const demand = [...grid.demand];
  const used = grid.limits.map(() => 0);
  const taken: Pattern[] = [];
  let cost = 0;
  let relaxation: Relaxation | null = first;
  const take = (pattern: Pattern, times: number): void => {
    for (let k = 0; k < times; k++) taken.push(pattern);
    used[pattern.stock] += times;
    cost += times * grid.costs[pattern.stock];
    pattern.counts.forEach((n, i) => {
      demand[i] = Math.max(0, demand[i] - n * times);
    });
  };
  for (const whole of finishes(grid, demand, used)) if (best === null || whole.cost < best.cost) best = whole;
  if (best !== null && best.cost <= enough) return best;
  for (let dive = 0; dive < DIVES && relaxation; dive++) {
    const whole = relaxation.solution.filter((s) => s.amount >= 1 - 1e-6);
    if (whole.length > 0) for (const s of whole) take(s.pattern, Math.floor(s.amount + 1e-6));
    else {
      // the fullest of the large fractions
      const up = [...relaxation.solution].sort((a, b) => b.amount - a.amount)[0];
      if (!up) break;
      take(up.pattern, 1);
    }
    if (demand.every((d) => d === 0)) {
      if (best === null || cost < best.cost) best = { patterns: [...taken], cost };
      break;
    }
    for (const rest of finishes(grid, demand, used))
      if (best === null || cost + rest.cost < best.cost)
        best = { patterns: [...taken, ...rest.patterns], cost: cost + rest.cost };
    if (best !== null && best.cost <= enough) break;
    const limits = grid.limits.map((limit, j) => limit - used[j]);
    const pool = relaxation.pool.filter((p) => p.counts.every((n, i) => n <= demand[i]));
    relaxation = relaxedCuts(grid, demand, limits, pool);
  }
  return best;
}

function* finishes(grid: CutGrid, demand: readonly number[], used: readonly number[]): Generator<GreedyCuts> {
  const fit = firstFitDecreasing(grid, demand, used);
  if (fit) yield fit;
  for (let j = 0; j < grid.costs.length; j++) {
    if (grid.limits[j] < Infinity) continue;
    for (const bias of BIASES) {
      const full = fullestBars(grid, demand, used, j, bias);
      if (full) yield full;
    }
  }
}
