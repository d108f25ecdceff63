import { DomainError } from '../numeric/errors';
import { smoothstep, smoothstepSlope } from '../numeric/interpolation';
import { checkFriction, churchill, type FrictionSlope } from './friction';

/** Half width of the bridge round the critical Reynolds number, over it: continuity, no physics. */
const BRIDGE = 0.1;

/**
 * Critical Reynolds number of a coiled pipe, 2·10⁴·(D/Dcoil)^0.32 (Ito 1959, from memory), never under the
 * straight pipe's 2100.
 *
 * @param boreRatio D/Dcoil [–], over 0, ≤ 0.5
 * @returns Reynolds number where laminar flow ends [–]
 * @throws {DomainError} outside that range
 * @example coilCriticalReynolds(0.05) // 7668.32
 */
export function coilCriticalReynolds(boreRatio: number): number {
  if (!(boreRatio > 0 && boreRatio <= 0.5))
    throw new DomainError('bore over coil diameter', boreRatio, '(0, 0.5]');
  return Math.max(2100, 2e4 * boreRatio ** 0.32);
}

/**
 * Darcy friction factor of a coiled pipe: laminar 64/Re·[1 + 0.033·(log10 De)⁴], De = Re·√(D/Dcoil), De > 1
 * (Mishra & Gupta 1979, from memory); turbulent f + 0.03·√(D/Dcoil) on Churchill's f. A smooth step over
 * ± 10 % of the critical Reynolds number joins them.
 *
 * @param re           Reynolds number [–], finite, > 0
 * @param relRoughness ε/D [–], 0…0.05
 * @param boreRatio    D/Dcoil [–], over 0, ≤ 0.5
 * @throws {DomainError} outside those ranges
 * @example frictionFactorCoil(1000, 0, 0.05) // 0.128355 (64/Re gives 0.064)
 */
export function frictionFactorCoil(re: number, relRoughness: number, boreRatio: number): number {
  checkFriction(re, relRoughness);
  const out = { f: 0, reSlope: 0 };
  coil(re, relRoughness, boreRatio, coilCriticalReynolds(boreRatio), out);
  return out.f;
}

/**
 * {@link frictionFactorCoil} with its slope, unchecked.
 *
 * @param critical critical Reynolds number [–]
 * @param out      receives f and Re·df/dRe
 */
export function coil(
  re: number,
  relRoughness: number,
  boreRatio: number,
  critical: number,
  out: FrictionSlope,
): void {
  const root = Math.sqrt(boreRatio);
  const t = (re / critical - 1 + BRIDGE) / (2 * BRIDGE);
  const turbulent = smoothstep(t);
  if (turbulent < 1) {
    const dean = re * root;
    const q = dean > 1 ? Math.log10(dean) : 0;
    out.f = (64 / re) * (1 + 0.033 * q * q * q * q);
    out.reSlope = -out.f + ((64 / re) * 0.132 * q * q * q) / Math.LN10;
    if (turbulent === 0) return;
  }
  const laminar = out.f;
  const laminarSlope = out.reSlope;
  churchill(re, relRoughness, out);
  out.f += 0.03 * root;
  if (turbulent === 1) return;
  const gap = out.f - laminar;
  const shareSlope = (smoothstepSlope(t) * re) / (2 * BRIDGE * critical);
  out.reSlope = laminarSlope + turbulent * (out.reSlope - laminarSlope) + shareSlope * gap;
  out.f = laminar + turbulent * gap;
}
