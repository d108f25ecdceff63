import { candidatePatterns } from './cutting-candidates';
import { firstFitDecreasing, type GreedyCuts, withinReach } from './cutting-greedy';
import { attainableSums, cutGrid, type Measure } from './cutting-grid';
import { type Relaxation, relaxedCuts } from './cutting-relaxation';
import { roundedCuts } from './cutting-rounding';
import type {
  CutBars,
  CutGrid,
  CutPiece,
  CutPlan,
  CutProgramSolver,
  CutStock,
  Pattern,
} from './cutting-types';

export interface CutOptions {
  /** Width of a cut [m]: ratchet cutter 0, hand saw 0.001, chop saw 0.003. */
  readonly kerf_m?: number;
  /** Solves the last integer programme; without one the gap is shown. */
  readonly solver?: CutProgramSolver;
  /** Patterns handed to it at most. */
  readonly patterns?: number;
}

/**
 * Cutting plan of least price, with a bound that proves it or the gap that is left.
 *
 * Bound: column generation rounded up to the next price that sums of the stocks' prices can make. Start: first-fit
 * decreasing, and rounding of the relaxation. If they meet the bound it is proven. Otherwise every pattern with
 * reduced cost up to the gap goes to an integer solver, whose optimum is then a proof.
 *
 * Where stock is limited and does not reach, the plan, its price and its proof are for what can be cut, longest first;
 * `short` says what is missing.
 *
 * @param pieces  lengths [m] and counts
 * @param stocks  lengths [m] and prices; on hand: price 0 and how many
 * @param options kerf, integer solver, budget
 * @throws {DomainError} for lengths, counts, prices or kerf out of range
 * @example planCuts([{ length_m: 2, count: 3 }], [{ length_m: 6, price: 9.5 }]).price // 9.5
 */
export function planCuts(
  pieces: readonly CutPiece[],
  stocks: readonly CutStock[],
  options: CutOptions = {},
): CutPlan {
  const whole = cutGrid(pieces, stocks, options.kerf_m ?? 0);
  const longest = Math.max(0, ...whole.capacities.filter((_, j) => whole.limits[j] > 0));
  const tooLong = whole.lengths.flatMap((l, i) => (l > longest && whole.demand[i] > 0 ? [i] : []));
  const grid: CutGrid = {
    ...whole,
    demand: whole.demand.map((d, i) => (tooLong.includes(i) ? 0 : d)),
  };
  const finish = (
    cuts: readonly Pattern[],
    method: CutPlan['method'],
    bound: number,
    firstFit: number,
  ): CutPlan => planOf(whole, grid, stocks, cuts, method, bound, firstFit, tooLong);

  if (grid.demand.every((d) => d === 0)) return finish([], 'firstFit', 0, 0);
  const firstFit = firstFitDecreasing(grid);
  const relaxation = relaxedCuts(grid, grid.demand, grid.limits);
  if (!relaxation) {
    // what is on hand does not reach and nothing long enough can be bought: cut what can be cut
    return partPlan(grid, pieces, stocks, options);
  }
  const lowest = relaxation.bound - 1e-7 * (1 + relaxation.bound);
  const sums = attainableSums(
    grid.costs,
    grid.limits,
    firstFit?.cost ?? 2 * relaxation.bound + Math.max(...grid.costs),
    measuresOf(grid, relaxation),
  );
  const rounded = roundedCuts(grid, relaxation, sums.atLeast(lowest));
  let best: GreedyCuts | null = firstFit;
  let method: CutPlan['method'] = 'firstFit';
  if (rounded && (best === null || rounded.cost < best.cost)) {
    best = rounded;
    method = 'rounding';
  }
  if (!best) return partPlan(grid, pieces, stocks, options);
  let bound = Math.min(best.cost, sums.atLeast(lowest));
  if (bound < best.cost && options.solver) {
    const most = sums.under(best.cost);
    const { patterns, complete } = candidatePatterns(grid, relaxation, most, options.patterns ?? 20_000);
    if (complete && patterns.length === 0) bound = best.cost;
    else {
      const columns = complete ? patterns : [...relaxation.pool];
      const { demand, limits, costs } = grid;
      const outcome = options.solver({
        columns,
        costs: columns.map((p) => costs[p.stock]),
        demand,
        limits,
        most,
      });
      const found = outcome.counts ? expanded(grid, columns, outcome.counts) : null;
      if (found && found.cost < best.cost) {
        best = found;
        method = 'integer';
      }
      if (complete && outcome.status !== 'stopped') bound = best.cost;
    }
  }
  return finish(best.patterns, method, bound, firstFit?.cost ?? best.cost);
}

/** By length, and by worth at the duals. */
function measuresOf(grid: CutGrid, relaxation: Relaxation): Measure[] {
  const total = (worth: readonly number[]) => grid.demand.reduce((sum, d, i) => sum + d * worth[i], 0);
  return [
    { holds: grid.capacities, needed: total(grid.lengths) },
    { holds: relaxation.holds, needed: total(relaxation.duals) },
  ];
}

/** Columns as often as the solver says; null when a demand is not met or a limit is passed. */
function expanded(grid: CutGrid, columns: readonly Pattern[], counts: readonly number[]): GreedyCuts | null {
  const patterns: Pattern[] = [];
  const made = new Array<number>(grid.lengths.length).fill(0);
  const used = new Array<number>(grid.costs.length).fill(0);
  let cost = 0;
  columns.forEach((p, c) => {
    const q = Math.round(counts[c] ?? 0);
    for (let k = 0; k < q; k++) patterns.push(p);
    used[p.stock] += q;
    cost += q * grid.costs[p.stock];
    p.counts.forEach((n, i) => {
      made[i] += q * n;
    });
  });
  const ok = grid.demand.every((d, i) => made[i] >= d) && grid.limits.every((limit, j) => used[j] <= limit);
  return ok ? { patterns, cost } : null;
}

/** What is on hand does not reach for all: the plan for those it reaches for, and which are short. */
function partPlan(
  grid: CutGrid,
  pieces: readonly CutPiece[],
  stocks: readonly CutStock[],
  options: CutOptions,
): CutPlan {
  const met = withinReach(grid);
  const plan = planCuts(
    // pieces that are too long keep their count, to be named again
    pieces.map((p, i) => (grid.demand[i] === 0 ? p : { ...p, count: met[i] })),
    stocks,
    options,
  );
  const short = grid.demand.flatMap((d, piece) => (d > met[piece] ? [{ piece, count: d - met[piece] }] : []));
  return { ...plan, short };
}

function planOf(
  whole: CutGrid,
  grid: CutGrid,
  stocks: readonly CutStock[],
  cuts: readonly Pattern[],
  method: CutPlan['method'],
  bound: number,
  firstFit: number,
  tooLong: readonly number[],
): CutPlan {
  const price = (units: number): number => Number((units * whole.priceUnit).toFixed(6));
  const left = [...grid.demand];
  const saw = grid.capacities.length > 0 ? grid.capacities[0] - Math.round(stocks[0].length_m / 1e-5) : 0;
  const groups = new Map<string, { bar: CutBars; bars: number }>();
  let cost = 0;
  let sawCuts = 0;
  for (const cut of cuts) {
    // a pattern may hold more than is needed: the extra is left uncut
    const counts = cut.counts.map((n, i) => {
      const take = Math.min(n, left[i]);
      left[i] -= take;
      return take;
    });
    const total = counts.reduce((sum, n) => sum + n, 0);
    if (total === 0) continue;
    cost += grid.costs[cut.stock];
    const room = grid.capacities[cut.stock] - counts.reduce((sum, n, i) => sum + n * grid.lengths[i], 0);
    const over = room - saw;
    const own = over > 0 || saw > 0 ? total - (over <= 0 && room <= saw ? 1 : 0) : total - 1;
    sawCuts += own;
    const key = `${cut.stock}|${counts.join(',')}`;
    const group = groups.get(key);
    if (group) group.bars++;
    else
      groups.set(key, {
        bars: 1,
        bar: {
          stock: cut.stock,
          bars: 1,
          cuts: counts.flatMap((count, piece) => (count > 0 ? [{ piece, count }] : [])),
          left_m: Math.max(0, over) * 1e-5,
          sawCuts: own,
        },
      });
  }
  const reached = Math.min(bound, cost);
  return {
    bars: [...groups.values()].map((g) => ({ ...g.bar, bars: g.bars })),
    price: price(cost),
    bound: price(reached),
    gap: price(cost - reached),
    proven: cost - reached < 0.5,
    method,
    firstFitPrice: price(firstFit),
    sawCuts,
    tooLong,
    short: [],
  };
}
