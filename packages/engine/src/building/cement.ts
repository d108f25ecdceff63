import { DomainError } from '../numeric/errors';

/** Glued joints of one size: one socket with one pipe. */
export interface JointsOfSize {
  readonly joints: number;
  /** Joints from a US quart of cement, none wasted. */
  readonly perQuart: number;
}

export interface CementNeed {
  /** US quarts, waste included. */
  readonly cement_qt: number;
  readonly primer_qt: number;
}

/**
 * Cement and primer for a number of joints: Σ joints / (joints per quart) × (1 + waste). A quart of primer serves twice
 * the joints of a quart of cement.
 *
 * @param joints by size, ≥ 0 and > 0 per quart
 * @param waste  share added for cans that skin over [–], ≥ 0; 0.25 to 0.5 is common practice
 * @throws {DomainError} outside those ranges
 * @example cementFor([{ joints: 150, perQuart: 300 }], 0.5) // 0.75 qt of cement, 0.375 of primer
 */
export function cementFor(joints: readonly JointsOfSize[], waste: number): CementNeed {
  if (!(waste >= 0 && waste < Infinity)) throw new DomainError('waste', waste, '[0, ∞)');
  let quarts = 0;
  for (const size of joints) {
    if (!(size.joints >= 0 && size.joints < Infinity)) throw new DomainError('joints', size.joints, '[0, ∞)');
    if (!(size.perQuart > 0)) throw new DomainError('joints per quart', size.perQuart, '(0, ∞)');
    quarts += size.joints / size.perQuart;
  }
  quarts *= 1 + waste;
  return { cement_qt: quarts, primer_qt: quarts / 2 };
}
