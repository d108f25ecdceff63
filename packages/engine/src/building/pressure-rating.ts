import { DomainError } from '../numeric/errors';

/** A rating at the temperature that is reached, against the pressure that comes. */
export interface RatingCheck {
  readonly allowed_Pa: number;
  /** Pressure over what is allowed; 0 with no pressure, Infinity where nothing is allowed. */
  readonly share: number;
  readonly ok: boolean;
}

/**
 * Pressure that a pipe may bear at a temperature: rating × derating factor there.
 *
 * @param rating   at the rating's own temperature [Pa], ≥ 0
 * @param factor   share left at the temperature reached [–], 0…1
 * @param pressure gauge, that comes [Pa]; under 0 counts as none
 * @throws {DomainError} outside those ranges
 * @example ratedAt(4_136_850, 0.22, 200_000).allowed_Pa // 910 107: half-inch sch 40 at 60 °C
 */
export function ratedAt(rating: number, factor: number, pressure: number): RatingCheck {
  if (!(rating >= 0 && rating < Infinity)) throw new DomainError('pressure rating', rating, '[0, ∞) Pa');
  if (!(factor >= 0 && factor <= 1)) throw new DomainError('derating factor', factor, '[0, 1]');
  if (!Number.isFinite(pressure)) throw new DomainError('pressure', pressure, 'finite Pa');
  const allowed = rating * factor;
  const p = Math.max(0, pressure);
  const share = p === 0 ? 0 : p / allowed;
  return { allowed_Pa: allowed, share, ok: share <= 1 };
}

/**
 * Wind pressure as a number only: 0.613·V² (ASCE 7, sea-level air, no coefficients). Nothing is sized by it.
 *
 * @param wind speed [m/s], ≥ 0
 * @returns [Pa]
 * @throws {DomainError} outside that range
 * @example windPressure(40) // 981
 */
export function windPressure(wind: number): number {
  if (!(wind >= 0 && wind < Infinity)) throw new DomainError('wind', wind, '[0, ∞) m/s');
  return 0.613 * wind * wind;
}
