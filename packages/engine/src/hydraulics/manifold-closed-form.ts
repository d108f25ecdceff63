import { DomainError } from '../numeric/errors';
import { findRoot } from '../numeric/roots';

/** Flow of the first and the last tube over the mean [–]; the first is the one nearest the inlet. */
export interface ManifoldShares {
  readonly first: number;
  readonly last: number;
}

/** Largest header number for which no tube at opposite ends runs dry: acosh²2. */
export const MOST_OPPOSITE = Math.acosh(2) ** 2;

/**
 * Header number of a bank, m = (N·a)²/(fL/d + K): velocity head of the header's whole flow over the head a
 * tube loses, both per tube velocity head. Small is even. For a header fed at both ends it is m/4.
 *
 * @param tubes        number of tubes N, ≥ 1
 * @param areaRatio    tube area / header area a [–], > 0
 * @param frictionLoss fL/d of a tube [–], ≥ 0
 * @param fixedLoss    other velocity heads lost per tube [–], ≥ 0: 1.5 for ideal tees
 * @returns header number m [–]
 * @throws {DomainError} outside those ranges
 * @example headerNumber(20, 0.149234, 20, 1.5) // 0.41434
 */
export function headerNumber(
  tubes: number,
  areaRatio: number,
  frictionLoss: number,
  fixedLoss = 1.5,
): number {
  if (!(tubes >= 1 && tubes < Infinity)) throw new DomainError('number of tubes', tubes, '[1, ∞)');
  if (!(areaRatio > 0 && areaRatio < Infinity)) throw new DomainError('area ratio', areaRatio, '(0, ∞)');
  if (!(frictionLoss >= 0 && frictionLoss < Infinity)) throw new DomainError('fL/d', frictionLoss, '[0, ∞)');
  if (!(fixedLoss >= 0 && frictionLoss + fixedLoss > 0 && fixedLoss < Infinity))
    throw new DomainError('fixed loss', fixedLoss, '[0, ∞), some loss in all');
  return (tubes * areaRatio) ** 2 / (frictionLoss + fixedLoss);
}

/**
 * Inlet and outlet at the same end, headers without friction, very many tubes, ideal tees:
 * first = s·coth s, last = s/sinh s, s = √m (momentum balance of both headers, our derivation).
 *
 * @param m header number [–], > 0
 * @returns shares of the first and the last tube
 * @throws {DomainError} outside that range
 * @example sameEndShares(1) // { first: 1.3130, last: 0.8509 }
 */
export function sameEndShares(m: number): ManifoldShares {
  if (!(m > 0 && m < Infinity)) throw new DomainError('header number', m, '(0, ∞)');
  const s = Math.sqrt(m);
  return { first: s / Math.tanh(s), last: s / Math.sinh(s) };
}

/**
 * Inlet and outlet at opposite ends, as {@link sameEndShares}. With c > 0: asinh(2/√c) − asinh(1/√c) = s; past
 * s = ln 2 c = −k² and acosh(2/k) − acosh(1/k) = s. first = s√(1 + c), last = s√(4 + c).
 *
 * @param m header number [–], 0…1.734 (acosh²2, where the first tube stops)
 * @returns shares of the first and the last tube
 * @throws {DomainError} outside that range
 * @example oppositeEndShares(1) // { first: 0.3888, last: 1.7752 }
 */
export function oppositeEndShares(m: number): ManifoldShares {
  if (!(m > 0 && m <= MOST_OPPOSITE)) throw new DomainError('header number', m, `(0, ${MOST_OPPOSITE}]`);
  const s = Math.sqrt(m);
  if (s === Math.LN2) return { first: s, last: 2 * s };
  let c: number;
  if (s < Math.LN2) {
    // in ln c: the difference falls from ln 2 at c → 0 to 0 at c → ∞
    const gap = (x: number) => Math.asinh(2 * Math.exp(-x / 2)) - Math.asinh(Math.exp(-x / 2)) - s;
    c = Math.exp(findRoot(gap, -80, 80).root);
  } else {
    const gap = (k: number) => Math.acosh(2 / k) - Math.acosh(1 / k) - s;
    const k = gap(1) <= 0 ? 1 : findRoot(gap, 1e-9, 1).root;
    c = -k * k;
  }
  return { first: s * Math.sqrt(1 + c), last: s * Math.sqrt(4 + c) };
}
