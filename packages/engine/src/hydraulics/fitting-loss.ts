import { DomainError } from '../numeric/errors';

/**
 * Loss coefficients on the velocity head of the pipe named that do not go by size, turbulent flow. Idelchik, from
 * memory; makers' fittings of small bore differ by tens of per cent.
 */
export const FITTING_LOSS = {
  /** socket coupling or bell, the two ends a little apart; Idelchik, from memory */
  coupling: 0.04,
  /** union, with its seat; Idelchik, from memory */
  union: 0.06,
  /** pipe flush with the wall, sharp; Idelchik, from memory */
  entranceSharp: 0.5,
  /** into a large vessel: the whole velocity head; exact for a flat profile */
  exit: 1,
} as const;

/** Fittings whose loss goes by size: K over f_T (Crane TP-410, from memory). */
const PER_FRICTION = {
  /** threaded or socket 90° elbow */
  elbow90: 30,
  /** 90° bend, centre line radius 1.5 bores */
  sweep90: 14,
  elbow45: 16,
  /** plain tee that the water passes straight, nothing in its branch */
  teeRun: 20,
  /** plain tee whose branch the water takes */
  teeBranch: 60,
} as const;

export type SizedFitting = keyof typeof PER_FRICTION;

/** Roughness of the clean commercial steel pipe that Crane's factors are scaled by: 0.00015 ft [m]. */
const STEEL_M = 4.572e-5;

/**
 * Crane's friction factor of fully turbulent flow, by which the losses of fittings are scaled from size to size.
 *
 *   f_T = 0.25 / [log10((ε/D)/3.7)]²      ε = 0.0457 mm, whatever the pipe: a measure of size, not of its wall
 *
 * Crane TP-410 (2009), from memory. In hardware sizes (1/2 in 0.026, 1 in 0.022, 2 in 0.019) the handbook's table
 * agrees within its last digit.
 *
 * @param bore [m], 0.001…3
 * @returns Darcy friction factor [–]
 * @throws {DomainError} outside that range
 * @example turbulentFriction(0.0525) // 0.01899
 */
export function turbulentFriction(bore: number): number {
  if (!(bore >= 0.001 && bore <= 3)) throw new DomainError('bore of a fitting', bore, '[0.001, 3] m');
  return 0.25 / Math.log10(STEEL_M / bore / 3.7) ** 2;
}

/**
 * Loss coefficient of a fitting of a size on its own pipe's velocity head, K = n·f_T (Crane TP-410, from memory).
 *
 * @param kind of fitting
 * @param bore of its pipe [m], 0.001…3
 * @throws {DomainError} outside that range
 * @example sizedFittingLoss('elbow90', 0.0525) // 0.570
 */
export const sizedFittingLoss = (kind: SizedFitting, bore: number): number =>
  PER_FRICTION[kind] * turbulentFriction(bore);

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
