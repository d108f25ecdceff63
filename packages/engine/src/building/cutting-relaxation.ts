import { bestFilling } from './cutting-knapsack';
import type { CutGrid, Pattern } from './cutting-types';

/** Linear relaxation of a cutting order over all patterns. */
export interface Relaxation {
  /** Patterns in the solution with their fractional number. */
  readonly solution: readonly { readonly pattern: Pattern; readonly amount: number }[];
  /** No plan costs less, fractions or not; holds whatever rounding went before. */
  readonly bound: number;
  /** Worth of one piece of each length, ≥ 0, and of one more of each stock, ≤ 0, that prove the bound. */
  readonly duals: readonly number[];
  readonly stockDuals: readonly number[];
  /** Most worth that one of each stock holds at those duals. */
  readonly holds: readonly number[];
  /** All patterns generated. */
  readonly pool: readonly Pattern[];
  readonly iterations: number;
}

const EPS = 1e-9;
/** Steps before the bound is taken as it stands. */
const ITERATIONS = 4000;

/**
 * Column generation (Gilmore & Gomory 1961, 1963): revised simplex over patterns, each new one the best filling of a
 * bar at the present worth of the pieces. The bound is Farley's (1990), from the duals made feasible against the best
 * fillings, so that rounding errors cannot raise it.
 *
 * @param grid   the order
 * @param demand how many of each
 * @param limits how many of each stock
 * @param start  patterns known already
 * @returns null when some piece fits no stock within the limits
 */
export function relaxedCuts(
  grid: CutGrid,
  demand: readonly number[],
  limits: readonly number[],
  start: readonly Pattern[] = [],
): Relaxation | null {
  const { lengths, capacities, costs } = grid;
  const pieces = demand.flatMap((d, i) => (d > 0 ? [i] : []));
  const limited = limits.flatMap((limit, j) => (limit < Infinity ? [j] : []));
  const n = pieces.length;
  const m = n + limited.length;
  const rowOfPiece = new Map(pieces.map((i, r) => [i, r]));
  const rowOfStock = new Map(limited.map((j, r) => [j, n + r]));
  const big = 10 * (1 + Math.max(...costs)) * (1 + Math.max(0, ...demand));

  const pool: Pattern[] = [...start];
  // columns in the basis: a pattern of the pool, or −1 − row for slack and surplus, or `ARTIFICIAL`
  const basis = new Array<number>(m);
  const cost = new Float64Array(m);
  const x = new Float64Array(m);
  const inverse = new Float64Array(m * m);
  pieces.forEach((i, r) => {
    let pick = -1;
    let fits = 0;
    for (let j = 0; j < costs.length; j++) {
      if (limits[j] < Infinity) continue;
      const q = Math.min(demand[i], Math.floor(capacities[j] / lengths[i]));
      if (q > 0 && (pick < 0 || costs[j] / q < costs[pick] / fits)) {
        pick = j;
        fits = q;
      }
    }
    const counts = new Array<number>(lengths.length).fill(0);
    counts[i] = Math.max(fits, 1);
    // an artificial column stands where nothing can be bought that is long enough
    basis[r] = pool.length;
    cost[r] = pick < 0 ? big : costs[pick];
    pool.push({ stock: pick, counts });
    inverse[r * m + r] = 1 / counts[i];
    x[r] = demand[i] / counts[i];
  });
  limited.forEach((j, k) => {
    const r = n + k;
    basis[r] = -1 - r;
    inverse[r * m + r] = 1;
    x[r] = limits[j];
  });

  const y = new Float64Array(m);
  const w = new Float64Array(m);
  const worth = new Float64Array(lengths.length);
  const value = (p: Pattern): number => {
    let sum = 0;
    for (const i of pieces) sum += worth[i] * p.counts[i];
    return sum;
  };
  let fillings: number[] = [];
  let iterations = 0;
  for (; iterations < ITERATIONS; iterations++) {
    y.fill(0);
    for (let r = 0; r < m; r++) {
      const c = cost[r];
      if (c !== 0) for (let s = 0; s < m; s++) y[s] += c * inverse[r * m + s];
    }
    worth.fill(0);
    pieces.forEach((i, r) => {
      worth[i] = y[r];
    });
    let entering: number | null = null;
    let least = -EPS * (1 + Math.abs(Math.max(...costs)));
    let enteringCost = 0;
    for (let r = 0; r < m; r++) {
      const reduced = r < n ? y[r] : -y[r];
      if (reduced < least) {
        least = reduced;
        entering = -1 - r;
      }
    }
    const stockDual = (j: number): number => {
      const r = rowOfStock.get(j);
      return r === undefined ? 0 : y[r];
    };
    for (let p = 0; p < pool.length; p++) {
      const { stock } = pool[p];
      if (stock < 0) continue;
      const reduced = costs[stock] - value(pool[p]) - stockDual(stock);
      if (reduced < least) {
        least = reduced;
        entering = p;
        enteringCost = costs[stock];
      }
    }
    if (entering === null) {
      // nothing among the known ones: ask for the best filling of each stock
      fillings = [];
      let found: Pattern | null = null;
      for (let j = 0; j < costs.length; j++) {
        const filling = bestFilling(worth, lengths, demand, capacities[j]);
        fillings.push(filling.upper);
        if (limits[j] <= 0) continue;
        const reduced = costs[j] - filling.value - stockDual(j);
        if (reduced < least) {
          least = reduced;
          found = { stock: j, counts: filling.counts };
        }
      }
      if (!found) break;
      entering = pool.length;
      enteringCost = costs[found.stock];
      pool.push(found);
    }
    // direction
    w.fill(0);
    const addColumn = (row: number, amount: number): void => {
      for (let r = 0; r < m; r++) w[r] += inverse[r * m + row] * amount;
    };
    if (entering < 0) {
      const row = -1 - entering;
      addColumn(row, row < n ? -1 : 1);
      enteringCost = 0;
    } else {
      const p = pool[entering];
      for (const i of pieces) if (p.counts[i] > 0) addColumn(rowOfPiece.get(i)!, p.counts[i]);
      const r = rowOfStock.get(p.stock);
      if (r !== undefined) addColumn(r, 1);
    }
    let leaving = -1;
    let step = Infinity;
    for (let r = 0; r < m; r++) {
      if (!(w[r] > EPS)) continue;
      const ratio = Math.max(0, x[r]) / w[r];
      if (ratio < step - 1e-12 || (ratio <= step + 1e-12 && leaving >= 0 && w[r] > w[leaving])) {
        step = Math.min(step, ratio);
        leaving = r;
      }
    }
    if (leaving < 0) break;
    for (let r = 0; r < m; r++) if (r !== leaving) x[r] = Math.max(0, x[r] - step * w[r]);
    x[leaving] = step;
    const pivot = w[leaving];
    for (let s = 0; s < m; s++) inverse[leaving * m + s] /= pivot;
    for (let r = 0; r < m; r++) {
      if (r === leaving || w[r] === 0) continue;
      const f = w[r];
      for (let s = 0; s < m; s++) inverse[r * m + s] -= f * inverse[leaving * m + s];
    }
    basis[leaving] = entering;
    cost[leaving] = enteringCost;
  }

  const solution: { pattern: Pattern; amount: number }[] = [];
  for (let r = 0; r < m; r++) {
    if (basis[r] < 0 || !(x[r] > 1e-7)) continue;
    const pattern = pool[basis[r]];
    if (pattern.stock < 0) return null;
    solution.push({ pattern, amount: x[r] });
  }
  const duals = Array.from(worth, (v) => Math.max(0, v));
  if (fillings.length === 0 || iterations >= ITERATIONS)
    fillings = capacities.map((c) => bestFilling(duals, lengths, demand, c).upper);
  return {
    solution,
    ...farley(grid, demand, limits, duals, fillings),
    pool: pool.filter((p) => p.stock >= 0),
    iterations,
  };
}

/** Duals scaled down until no filling is worth more than its stock costs; limited stock pays the rest itself. */
function farley(
  grid: CutGrid,
  demand: readonly number[],
  limits: readonly number[],
  worth: readonly number[],
  fillings: readonly number[],
): { bound: number; duals: number[]; stockDuals: number[]; holds: number[] } {
  let scale = 1;
  for (let j = 0; j < grid.costs.length; j++)
    if (limits[j] === Infinity && fillings[j] > grid.costs[j])
      scale = Math.min(scale, grid.costs[j] / fillings[j]);
  const duals = worth.map((v) => v * scale);
  const stockDuals = grid.costs.map((c, j) =>
    limits[j] === Infinity ? 0 : Math.min(0, c - scale * fillings[j]),
  );
  let bound = 0;
  for (let i = 0; i < demand.length; i++) bound += duals[i] * demand[i];
  for (let j = 0; j < limits.length; j++) if (stockDuals[j] < 0) bound += stockDuals[j] * limits[j];
  return { bound: Math.max(0, bound), duals, stockDuals, holds: fillings.map((f) => f * scale) };
}
