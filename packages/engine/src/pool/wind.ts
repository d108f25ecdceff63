import { DomainError } from '../numeric/errors';

/** Roughness of lawn and open yard [m]. */
export const YARD_ROUGHNESS_M = 0.03;

/**
 * Wind carried from one height to another by the logarithmic profile.
 *
 *   v(z) = v(z₁)·ln(z/z0) / ln(z₁/z0)
 *
 * Each evaporation correlation was measured with its anemometer at its own height; fed with another height's
 * wind it is wrong by up to two.
 *
 * @param wind_ms      at `from_m` [m/s], ≥ 0
 * @param from_m       [m], > roughness
 * @param to_m         [m], > roughness
 * @param roughness_m  z0 [m], > 0
 * @returns [m/s]
 * @throws {DomainError} outside those ranges
 * @example windAtHeight(2, 2, 0.3) // 1.096
 */
export function windAtHeight(
  wind_ms: number,
  from_m: number,
  to_m: number,
  roughness_m = YARD_ROUGHNESS_M,
): number {
  if (!(wind_ms >= 0 && wind_ms < Infinity)) throw new DomainError('wind', wind_ms, '[0, ∞) m/s');
  if (!(roughness_m > 0)) throw new DomainError('roughness', roughness_m, '(0, ∞) m');
  for (const height of [from_m, to_m])
    if (!(height > roughness_m && height < Infinity))
      throw new DomainError('height of wind', height, `(${roughness_m}, ∞) m`);
  return (wind_ms * Math.log(to_m / roughness_m)) / Math.log(from_m / roughness_m);
}
