import { DomainError } from '../numeric/errors';

/**
 * Change of length of a free pipe, α·L·ΔT.
 *
 * @param expansion coefficient of linear expansion [1/K], ≥ 0
 * @param length    [m], ≥ 0
 * @param change    of temperature [K], finite
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example lengthChange(5.4e-5, 6.096, 33.33) // 0.01097: 20 ft over 60 °F, 0.43 in
 */
export function lengthChange(expansion: number, length: number, change: number): number {
  if (!(expansion >= 0 && expansion < Infinity))
    throw new DomainError('expansion coefficient', expansion, '[0, ∞) 1/K');
  if (!(length >= 0 && length < Infinity)) throw new DomainError('length', length, '[0, ∞) m');
  if (!Number.isFinite(change)) throw new DomainError('change of temperature', change, 'finite K');
  return expansion * length * change;
}

/**
 * Leg of a change of direction that takes up a change of length by bending, guided cantilever with the stress halved:
 *
 *   L = √(3·E·D·ΔL / (2·S))
 *
 * @param modulus of the wall at the temperature [Pa], > 0
 * @param outside diameter [m], > 0
 * @param change  of length to be taken up [m], ≥ 0
 * @param stress  allowable at the temperature [Pa], > 0
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example offsetLeg(352_000 * 6894.757, 0.021336, 0.010922, 1240 * 6894.757) // 0.315: 12.4 in
 * @see plasticPipeManual in references.json
 */
export function offsetLeg(modulus: number, outside: number, change: number, stress: number): number {
  if (!(modulus > 0 && modulus < Infinity)) throw new DomainError('modulus', modulus, '(0, ∞) Pa');
  if (!(outside > 0 && outside < Infinity)) throw new DomainError('outside diameter', outside, '(0, ∞) m');
  if (!(change >= 0 && change < Infinity)) throw new DomainError('change of length', change, '[0, ∞) m');
  if (!(stress > 0 && stress < Infinity)) throw new DomainError('allowable stress', stress, '(0, ∞) Pa');
  return Math.sqrt((3 * modulus * outside * change) / (2 * stress));
}
