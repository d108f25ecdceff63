import type { PoolBody, PoolConditions } from './conditions';

/** What leaves the water otherwise than by evaporation. */
type Drawn = Pick<PoolConditions, 'splash_kg' | 'backwash_kg'>;

/**
 * Water that the mains must bring in a step [kg]. They fill up when the level has sunk to its lowest, so that rain and
 * what rain has left over it come first.
 *
 * @param evaporated_kg negative when moisture condensed, which raises no level
 * @param drawn         splashed and backwashed [kg]
 * @param rain_kg       on the whole pool
 * @param spare_kg      over the lowest level at the start
 * @example makeUp(3, { splash_kg: 10, backwash_kg: 0 }, 4, 2) // 7
 */
export function makeUp(evaporated_kg: number, drawn: Drawn, rain_kg: number, spare_kg = 0): number {
  return Math.max(0, gone(evaporated_kg, drawn) - rain_kg - spare_kg);
}

/**
 * Water over the lowest level at the end of a step [kg]; what would go over the highest runs over.
 *
 *   spare₁ = min(most, spare₀ + rain + make-up − evaporated − splashed − backwashed)
 *
 * @param most_kg between lowest level and overflow
 * @example spareAfter(100, 3, { splash_kg: 10, backwash_kg: 0 }, 40, 2) // 29
 */
export function spareAfter(
  most_kg: number,
  evaporated_kg: number,
  drawn: Drawn,
  rain_kg: number,
  spare_kg = 0,
): number {
  return Math.min(most_kg, Math.max(0, spare_kg + rain_kg - gone(evaporated_kg, drawn)));
}

/**
 * Water that runs over in a step [kg]: it leaves as warm as the pool.
 *
 * @param most_kg between lowest level and overflow
 * @example overflow(20, 3, { splash_kg: 10, backwash_kg: 0 }, 40, 2) // 9
 */
export function overflow(
  most_kg: number,
  evaporated_kg: number,
  drawn: Drawn,
  rain_kg: number,
  spare_kg = 0,
): number {
  return Math.max(0, spare_kg + rain_kg - gone(evaporated_kg, drawn) - most_kg);
}

/**
 * Water that a step leaves more in the pool than there was [kg], from all that came and went.
 *
 * @example gained(5, 3, { splash_kg: 10, backwash_kg: 0 }, 40, 9) // 23
 */
export function gained(
  makeUp_kg: number,
  evaporated_kg: number,
  drawn: Drawn,
  rain_kg: number,
  overflow_kg: number,
): number {
  return makeUp_kg + rain_kg - gone(evaporated_kg, drawn) - overflow_kg;
}

/** Water between the level at which the mains fill up and the overflow [kg]. */
export function mostSpare_kg(body: Pick<PoolBody, 'area_m2' | 'levelRange_m'>): number {
  // a kilogram on a square metre is a millimetre
  return 1000 * (body.levelRange_m ?? 0) * body.area_m2;
}

function gone(evaporated_kg: number, { splash_kg, backwash_kg }: Drawn): number {
  return Math.max(0, evaporated_kg) + splash_kg + backwash_kg;
}
