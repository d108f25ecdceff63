import { DomainError } from '../numeric/errors';

/** Poisson's ratio of polyolefins over long times [–]. */
export const POLYOLEFIN_POISSON = 0.45;

/**
 * Outside pressure at which a long, free, round tube collapses:
 *
 *   p = 2E / [(1 − ν²)·(DR − 1)³]
 *
 * Ovality lowers it; ask for twice the vacuum that can come (common practice).
 *
 * @param modulus long-term at the temperature [Pa], > 0
 * @param poisson [–], 0…0.5
 * @param ratio   DR, outside diameter over wall [–], > 2
 * @returns [Pa]
 * @throws {DomainError} outside those ranges
 * @example collapsePressure(100e6, 0.45, 17) // 61 200
 */
export function collapsePressure(modulus: number, poisson: number, ratio: number): number {
  if (!(modulus > 0 && modulus < Infinity)) throw new DomainError('modulus', modulus, '(0, ∞) Pa');
  if (!(poisson >= 0 && poisson <= 0.5)) throw new DomainError('Poisson’s ratio', poisson, '[0, 0.5]');
  if (!(ratio > 2 && ratio < Infinity)) throw new DomainError('diameter over wall', ratio, '(2, ∞)');
  return (2 * modulus) / ((1 - poisson * poisson) * (ratio - 1) ** 3);
}
