import { DomainError } from '../numeric/errors';

const RAD = Math.PI / 180;
const CHORDS = 400;

/**
 * Share of unpolarised light that a smooth surface reflects (Fresnel).
 *
 * @param cosIncidence  [–], 0…1
 * @param index         of refraction [–], ≥ 1
 * @throws {DomainError} outside those ranges
 * @example fresnelReflection(1, 1.5) // 0.04
 */
export function fresnelReflection(cosIncidence: number, index: number): number {
  if (!(cosIncidence >= 0 && cosIncidence <= 1))
    throw new DomainError('cosine of incidence', cosIncidence, '[0, 1]');
  if (!(index >= 1)) throw new DomainError('index of refraction', index, '≥ 1');
  const c1 = cosIncidence;
  const c2 = Math.sqrt(1 - (1 - c1 * c1) / (index * index));
  const s = (c1 - index * c2) / (c1 + index * c2);
  const p = (index * c1 - c2) / (index * c1 + c2);
  return (s * s + p * p) / 2;
}

/**
 * Absorption of direct light averaged round a cylinder by projected area, over that at normal incidence.
 * It holds the curvature: no second angle factor.
 *
 *   K(β) = ∫₀¹ [1 − ρ(cos β·√(1 − x²))] dx / (1 − ρ(1))
 *
 * @param axialAngle_deg  between the sun and the plane across the tube [deg], 0…90
 * @param index           of refraction [–], ≥ 1; 1.5 for plastics
 * @throws {DomainError} outside those ranges
 * @example cylinderAngleFactor(0) // 0.971
 */
export function cylinderAngleFactor(axialAngle_deg: number, index = 1.5): number {
  if (!(axialAngle_deg >= 0 && axialAngle_deg <= 90))
    throw new DomainError('axial angle', axialAngle_deg, '[0, 90]°');
  const cosBeta = Math.cos(axialAngle_deg * RAD);
  let sum = 0;
  for (let i = 0; i < CHORDS; i += 1) {
    const x = (i + 0.5) / CHORDS;
    sum += 1 - fresnelReflection(Math.max(0, cosBeta) * Math.sqrt(1 - x * x), index);
  }
  return sum / CHORDS / (1 - fresnelReflection(1, index));
}

const TABLE = new Float64Array(91).fill(Number.NaN);

/**
 * The same for n = 1.5 from a table by whole degrees, linear between: within 0.001 up to 85°.
 *
 * @param axialAngle_deg  [deg], 0…90
 * @example plasticAngleFactor(45) // 0.935
 */
export function plasticAngleFactor(axialAngle_deg: number): number {
  if (!(axialAngle_deg >= 0 && axialAngle_deg <= 90))
    throw new DomainError('axial angle', axialAngle_deg, '[0, 90]°');
  const i = Math.min(89, Math.floor(axialAngle_deg));
  if (Number.isNaN(TABLE[i])) TABLE[i] = cylinderAngleFactor(i);
  if (Number.isNaN(TABLE[i + 1])) TABLE[i + 1] = cylinderAngleFactor(i + 1);
  return TABLE[i] + (TABLE[i + 1] - TABLE[i]) * (axialAngle_deg - i);
}
