import { DomainError } from '../numeric/errors';
import { power12, power16, root12 } from '../numeric/integer-power';
import { smoothstep, smoothstepSlope } from '../numeric/interpolation';
import type { FrictionLaw } from './network-types';

/** Friction factor and its slope in ln Re, Re·df/dRe; filled in place so that nothing is allocated. */
export interface FrictionSlope {
  f: number;
  reSlope: number;
}

/** Below this Re Churchill and 64/Re agree to the last bit (the turbulent part is under 1e-40). */
const CHURCHILL_FROM = 500;
/** Where friction is not known: the window in which 'laminar' and 'blasius' differ from Churchill. */
const UNKNOWN_FROM = 2000;
const UNKNOWN_TO = 4000;
/** Width, over its edge, of the ramp back to Churchill outside that window: continuity, no physics. */
const EDGE = 0.1;

/**
 * Darcy friction factor of a round pipe, all regimes in one expression (Churchill 1977).
 *
 *   f = 8·[(8/Re)¹² + (A + B)^(−3/2)]^(1/12)
 *   A = {−2.457·ln[(7/Re)^0.9 + 0.27·ε/D]}¹⁶      B = (37530/Re)¹⁶
 *
 * Within 0.14 % of 64/Re up to Re = 2000; within 3.1 % of Colebrook from Re = 4000. Between them it is a
 * smooth bridge, not a measurement.
 *
 * @param re            Reynolds number [–], finite, > 0
 * @param relRoughness  ε/D [–], 0…0.05
 * @returns Darcy (not Fanning) friction factor [–]
 * @throws {DomainError} outside those ranges
 * @example frictionFactorChurchill(1e5, 1e-4) // 0.0184626
 * @see churchill1977 in references.json
 */
export function frictionFactorChurchill(re: number, relRoughness: number): number {
  checkFriction(re, relRoughness);
  const out = { f: 0, reSlope: 0 };
  churchill(re, relRoughness, out);
  return out.f;
}

/**
 * Laminar Darcy friction factor 64/Re (Hagen–Poiseuille).
 *
 * @param re Reynolds number [–], finite, > 0
 * @throws {DomainError} outside that range
 * @example frictionFactorLaminar(500) // 0.128
 */
export function frictionFactorLaminar(re: number): number {
  checkFriction(re, 0);
  return 64 / re;
}

/**
 * Turbulent Darcy friction factor of a smooth pipe, 0.3164·Re^(−1/4) (Blasius 1913), Re 3000–1e5.
 *
 * @param re Reynolds number [–], finite, > 0
 * @throws {DomainError} outside that range
 * @example frictionFactorBlasius(2206) // 0.0461669
 */
export function frictionFactorBlasius(re: number): number {
  checkFriction(re, 0);
  return 0.3164 / Math.sqrt(Math.sqrt(re));
}

/** @throws {DomainError} for a Reynolds number or roughness the formulas do not take */
export function checkFriction(re: number, relRoughness: number): void {
  if (!(re > 0 && re < Infinity)) throw new DomainError('Reynolds number', re, '(0, ∞)');
  if (!(relRoughness >= 0 && relRoughness <= 0.05)) throw new DomainError('ε/D', relRoughness, '[0, 0.05]');
}

/**
 * Churchill's factor with its slope, unchecked.
 *
 * @param re           Reynolds number [–], > 0
 * @param relRoughness ε/D [–], 0…0.05
 * @param out          receives f and Re·df/dRe
 */
export function churchill(re: number, relRoughness: number, out: FrictionSlope): void {
  if (re < CHURCHILL_FROM) {
    out.f = 64 / re;
    out.reSlope = -out.f;
    return;
  }
  const w = Math.exp(0.9 * Math.log(7 / re));
  const u = w + 0.27 * relRoughness;
  const t = -2.457 * Math.log(u);
  const a = power16(t);
  const b = power16(37530 / re);
  const s = a + b;
  // Re·dA/dRe = 16·A/t·2.457·0.9·w/u; Re·dB/dRe = −16·B
  const sSlope = (16 * 2.457 * 0.9 * a * w) / (t * u) - 16 * b;
  const laminar = power12(8 / re);
  const turbulent = 1 / (s * Math.sqrt(s));
  const g = laminar + turbulent;
  out.f = 8 * root12(g);
  out.reSlope = (out.f * (-12 * laminar - (1.5 * turbulent * sSlope) / s)) / (12 * g);
}

/**
 * Factor by the chosen law with its slope, unchecked. 'laminar' and 'blasius' stand for Churchill between
 * Re 2000 and 4000 and lead back to it over a tenth of the edge (Blasius below 2000, both above 4000), so
 * that head stays continuous in flow.
 *
 * @param law          which law
 * @param re           Reynolds number [–], > 0
 * @param relRoughness ε/D [–], 0…0.05
 * @param out          receives f and Re·df/dRe
 */
export function friction(law: FrictionLaw, re: number, relRoughness: number, out: FrictionSlope): void {
  churchill(re, relRoughness, out);
  if (law === 'churchill') return;
  if (re <= UNKNOWN_FROM * (1 - EDGE) || re >= UNKNOWN_TO * (1 + EDGE)) return;
  let share = 1;
  let shareSlope = 0;
  if (re < UNKNOWN_FROM) {
    if (law === 'laminar') return;
    const t = (re / UNKNOWN_FROM - 1 + EDGE) / EDGE;
    share = smoothstep(t);
    shareSlope = (smoothstepSlope(t) * re) / (UNKNOWN_FROM * EDGE);
  } else if (re > UNKNOWN_TO) {
    const t = (re / UNKNOWN_TO - 1) / EDGE;
    share = 1 - smoothstep(t);
    shareSlope = (-smoothstepSlope(t) * re) / (UNKNOWN_TO * EDGE);
  }
  const other = law === 'laminar' ? 64 / re : 0.3164 / Math.sqrt(Math.sqrt(re));
  const otherSlope = law === 'laminar' ? -other : -0.25 * other;
  const gap = other - out.f;
  out.reSlope += share * (otherSlope - out.reSlope) + shareSlope * gap;
  out.f += share * gap;
}
