import { DomainError } from '../numeric/errors';
import type { CutGrid, CutPiece, CutStock } from './cutting-types';

/** Lengths are whole numbers of this: finer than any tape. */
export const GRID_M = 1e-5;
/** Prices are whole numbers of this before their common divisor is taken out. */
const PRICE_GRID = 1e-4;
/** Longest list of sums that is searched for attainable prices. */
const MOST_SUMS = 2_000_000;

/**
 * An order in whole numbers. Lengths go to the nearest hundredth of a millimetre; a piece takes its kerf with it and
 * the stock gets one back, because n pieces need n − 1 cuts where the last ends with the stock.
 *
 * @param pieces lengths [m] > 0, counts 0, 1, 2 …
 * @param stocks lengths [m] > 0, prices ≥ 0
 * @param kerf   width of a cut [m], ≥ 0
 * @throws {DomainError} outside those ranges
 */
export function cutGrid(pieces: readonly CutPiece[], stocks: readonly CutStock[], kerf: number): CutGrid {
  if (!(kerf >= 0 && kerf < Infinity)) throw new DomainError('kerf', kerf, '[0, ∞) m');
  const saw = Math.round(kerf / GRID_M);
  for (const p of pieces) {
    if (!(p.length_m > 0 && p.length_m < Infinity))
      throw new DomainError('piece length', p.length_m, '(0, ∞) m');
    if (!(Number.isInteger(p.count) && p.count >= 0)) throw new DomainError('pieces', p.count, '0, 1, 2, …');
  }
  for (const s of stocks) {
    if (!(s.length_m > 0 && s.length_m < Infinity))
      throw new DomainError('stock length', s.length_m, '(0, ∞) m');
    if (!(s.price >= 0 && s.price < Infinity)) throw new DomainError('price', s.price, '[0, ∞)');
    if (s.available !== undefined && !(s.available >= 0)) throw new DomainError('stock', s.available, '≥ 0');
  }
  const raw = stocks.map((s) => Math.round(s.price / PRICE_GRID));
  const divisor = raw.reduce(gcd, 0) || 1;
  return {
    lengths: pieces.map((p) => Math.max(1, Math.round(p.length_m / GRID_M)) + saw),
    demand: pieces.map((p) => p.count),
    capacities: stocks.map((s) => Math.round(s.length_m / GRID_M) + saw),
    costs: raw.map((c) => c / divisor),
    limits: stocks.map((s) => Math.floor(s.available ?? Infinity)),
    priceUnit: divisor * PRICE_GRID,
  };
}

function gcd(a: number, b: number): number {
  while (b !== 0) [a, b] = [b, a % b];
  return a;
}

/** What one stock of each kind holds at most, by some measure, and how much of that measure is needed in all. */
export interface Measure {
  /** By stock. */
  readonly holds: readonly number[];
  readonly needed: number;
}

export interface PriceSums {
  /** Least attainable sum at or over a value. */
  atLeast(value: number): number;
  /** Most attainable sum under a value. */
  under(value: number): number;
}

/**
 * Sums of prices that a plan can come to: whole numbers of stocks that together hold what is needed, by every measure
 * (length; worth at the relaxation's duals, where a cheap short stick may hold less worth than it costs). Limited
 * stock adds all it has. With very many sums every whole number counts, which is still a bound.
 *
 * @param costs    whole numbers ≥ 0
 * @param limits   Infinity for what can be bought
 * @param most     largest value that will be asked for
 * @param measures each must be met; none: any sum counts
 */
export function attainableSums(
  costs: readonly number[],
  limits: readonly number[],
  most: number,
  measures: readonly Measure[] = [],
): PriceSums {
  const paid = costs.flatMap((c, j) => (c > 0 ? [j] : []));
  const size = Math.ceil(most) + Math.max(0, ...costs) + 1;
  if (paid.length === 0 || !(size <= MOST_SUMS))
    return { atLeast: (v) => Math.ceil(v), under: (v) => Math.ceil(v) - 1 };
  const good = new Uint8Array(size + 1).fill(1);
  const none: Measure = { holds: costs.map(() => 0), needed: 0 };
  for (const { holds, needed } of measures.length > 0 ? measures : [none]) {
    // most of the measure that a sum buys
    const bought = new Float64Array(size + 1).fill(-Infinity);
    let free = 0;
    for (let j = 0; j < costs.length; j++) if (costs[j] === 0) free += holds[j] * Math.max(limits[j], 0);
    bought[0] = Number.isNaN(free) ? Infinity : free;
    for (const j of paid)
      for (let s = costs[j]; s <= size; s++) bought[s] = Math.max(bought[s], bought[s - costs[j]] + holds[j]);
    const asked = needed - 1e-7 * (1 + Math.abs(needed));
    for (let s = 0; s <= size; s++) if (!(bought[s] >= asked)) good[s] = 0;
  }
  return {
    atLeast(value) {
      let s = Math.max(0, Math.ceil(value));
      while (s < size && good[s] === 0) s++;
      return s;
    },
    under(value) {
      let s = Math.min(size, Math.ceil(value) - 1);
      while (s > 0 && good[s] === 0) s--;
      return s;
    },
  };
}
