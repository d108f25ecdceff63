import { DomainError } from '../numeric/errors';

/** One way in which a thing is sold. */
export interface PackOffer {
  /** Pieces in it, 1 when singly. */
  readonly holds: number;
  readonly price: number;
}

export interface PackChoice {
  /** How many of each offer, by place. */
  readonly packs: readonly number[];
  readonly price: number;
  /** Pieces over what was needed. */
  readonly left: number;
}

/** Largest need that is planned piece by piece. */
const MOST = 200_000;

/**
 * Cheapest packs that hold at least what is needed; of equal price the one with most left, and of those the fewest packs.
 *
 * @param needed whole number ≥ 0
 * @param offers holds 1, 2, …; price ≥ 0
 * @returns null when nothing is offered and something is needed
 * @throws {DomainError} outside those ranges
 * @example cheapestPacks(18, [{ holds: 1, price: 0.8 }, { holds: 10, price: 6.4 }]) // 1 bag + 8 singly: 12.80, equal to 2 bags, which leave 2
 */
export function cheapestPacks(needed: number, offers: readonly PackOffer[]): PackChoice | null {
  if (!(Number.isInteger(needed) && needed >= 0 && needed <= MOST))
    throw new DomainError('pieces needed', needed, `0…${MOST}`);
  for (const offer of offers) {
    if (!(Number.isInteger(offer.holds) && offer.holds >= 1))
      throw new DomainError('pieces in a pack', offer.holds, '1, 2, …');
    if (!(offer.price >= 0 && offer.price < Infinity)) throw new DomainError('price', offer.price, '[0, ∞)');
  }
  if (needed === 0) return { packs: offers.map(() => 0), price: 0, left: 0 };
  if (offers.length === 0) return null;
  // best way to hold exactly n, n up to the need and one largest pack more
  const size = needed + Math.max(...offers.map((o) => o.holds));
  const price = new Float64Array(size + 1).fill(Infinity);
  const count = new Float64Array(size + 1).fill(Infinity);
  const last = new Int32Array(size + 1).fill(-1);
  price[0] = 0;
  count[0] = 0;
  for (let n = 1; n <= size; n++)
    offers.forEach((offer, j) => {
      const before = n - offer.holds;
      if (before < 0 || price[before] === Infinity) return;
      const p = price[before] + offer.price;
      const c = count[before] + 1;
      if (p < price[n] - 1e-9 || (p < price[n] + 1e-9 && c < count[n])) {
        price[n] = p;
        count[n] = c;
        last[n] = j;
      }
    });
  let best = -1;
  for (let n = needed; n <= size; n++)
    if (price[n] < Infinity && (best < 0 || price[n] <= price[best] + 1e-9)) best = n;
  if (best < 0) return null;
  const packs = offers.map(() => 0);
  for (let n = best; n > 0; n -= offers[last[n]].holds) packs[last[n]]++;
  return { packs, price: Number(price[best].toFixed(6)), left: best - needed };
}
