import { DomainError } from '../numeric/errors';

/**
 * Loss coefficients on the velocity head of the pipe named, turbulent flow. Crane TP-410 and Idelchik, all
 * from memory; makers' fittings of small bore differ by tens of per cent.
 */
export const FITTING_LOSS = {
  /** threaded or socket 90° elbow: 30·f_T, f_T 0.025 at 3/4 in down to 0.019 at 2 in; from memory */
  elbow90: 0.75,
  /** long-sweep 90° bend; from memory */
  sweep90: 0.4,
  /** 45° elbow: 16·f_T; from memory */
  elbow45: 0.35,
  /** socket coupling or bell, the two ends a little apart; Idelchik, from memory */
  coupling: 0.04,
  /** union, with its seat; Idelchik, from memory */
  union: 0.06,
  /** pipe flush with the wall, sharp; Idelchik, from memory */
  entranceSharp: 0.5,
  /** pipe end standing into the vessel; Crane, from memory */
  entranceProjecting: 0.78,
  /** rounded entrance, radius over 0.15 bore; Crane, from memory */
  entranceRounded: 0.04,
  /** into a large vessel: the whole velocity head; exact for a flat profile */
  exit: 1,
} as const;

/**
 * Sudden enlargement on the velocity head of the small pipe, (1 − a)² (Borda–Carnot).
 *
 * @param smallBore bore before it [m], > 0
 * @param largeBore bore behind it [m], ≥ smallBore
 * @returns loss coefficient [–]
 * @throws {DomainError} outside those ranges
 * @example enlargementLoss(0.02, 0.04) // 0.5625
 */
export function enlargementLoss(smallBore: number, largeBore: number): number {
  return (1 - areaRatio(smallBore, largeBore)) ** 2;
}

/**
 * Sudden contraction on the velocity head of the small pipe, 0.5·(1 − a)^0.75 (Idelchik, from memory).
 *
 * @param largeBore bore before it [m], ≥ smallBore
 * @param smallBore bore behind it [m], > 0
 * @returns loss coefficient [–]
 * @throws {DomainError} outside those ranges
 * @example contractionLoss(0.04, 0.02) // 0.40296
 */
export function contractionLoss(largeBore: number, smallBore: number): number {
  return 0.5 * (1 - areaRatio(smallBore, largeBore)) ** 0.75;
}

/**
 * Reducer fitting: {@link contractionLoss} or {@link enlargementLoss} by direction, always on the velocity
 * head of the smaller bore.
 *
 * @param fromBore bore upstream [m], > 0
 * @param toBore   bore downstream [m], > 0
 * @returns loss coefficient on the smaller pipe's velocity head [–]
 * @throws {DomainError} when a bore is not positive
 * @example reducerLoss(0.04, 0.02) // 0.40296
 */
export function reducerLoss(fromBore: number, toBore: number): number {
  return fromBore > toBore ? contractionLoss(fromBore, toBore) : enlargementLoss(fromBore, toBore);
}

function areaRatio(smallBore: number, largeBore: number): number {
  if (!(smallBore > 0)) throw new DomainError('smaller bore', smallBore, '(0, ∞) m');
  if (!(largeBore >= smallBore && largeBore < Infinity))
    throw new DomainError('larger bore', largeBore, `[${smallBore}, ∞) m`);
  return (smallBore / largeBore) ** 2;
}
