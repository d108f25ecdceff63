import { DomainError } from '../numeric/errors';

/** Coefficients of sunshine to clearness: overcast share `a`, and what full sunshine adds `b` [–]. */
export interface Angstrom {
  readonly a: number;
  readonly b: number;
}

/** FAO Irrigation and Drainage Paper 56, eq. 35. */
export const ANGSTROM_FAO: Angstrom = { a: 0.25, b: 0.5 };
/** Fits stations of the United States better (from memory). */
export const ANGSTROM_US: Angstrom = { a: 0.256, b: 0.442 };

/**
 * Clearness index from sunshine (Ångström–Prescott): H/H₀ = a + b·n/N.
 *
 * @param sunshine share of the possible sunshine n/N [–], 0…1
 * @returns [–]
 * @throws {DomainError} outside that range
 * @example clearnessFromSunshine(0.6) // 0.55
 */
export function clearnessFromSunshine(sunshine: number, { a, b }: Angstrom = ANGSTROM_FAO): number {
  if (!(sunshine >= 0 && sunshine <= 1)) throw new DomainError('share of sunshine', sunshine, '[0, 1]');
  return a + b * sunshine;
}

/**
 * Covered share of the sky from the day's clearness: what of the possible sunshine is missing, 1 − n/N, by the
 * same line backward. One rule for synthesised and measured years, so that long wave agrees with the sun.
 *
 * @param clearness daily clearness index [–], ≥ 0
 * @returns [–], 0…1
 * @throws {DomainError} when negative or not a number
 * @example cloudFromClearness(0.5) // 0.5
 */
export function cloudFromClearness(clearness: number, { a, b }: Angstrom = ANGSTROM_FAO): number {
  if (!(clearness >= 0)) throw new DomainError('clearness index', clearness, '[0, ∞)');
  return Math.min(1, Math.max(0, 1 - (clearness - a) / b));
}
