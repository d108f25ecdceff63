import { DomainError } from '../numeric/errors';
import { smoothstep, smoothstepSlope } from '../numeric/interpolation';
import type { FrictionLaw } from './network-types';

/** Friction factor and its slope in ln Re, Re·df/dRe; filled in place so that nothing is allocated. */
export interface FrictionSlope {
  f: number;
  reSlope: number;
}

/** Below this Re Churchill and 64/Re agree to the last bit (the turbulent part is under 1e-40). */
const CHURCHILL_FROM = 500;
/** Shares of the laminar and the bridging part below which their series are used. */
const SERIES = 1e-4;
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
 * @example frictionFactorBlasius(2206) // 0.0461674
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
 * Churchill's factor with its slope for many pipes at once, unchecked. One pass per transcendental function:
 * twice as fast as pipe by pipe, because the plain arithmetic overlaps.
 *
 * @param count     how many
 * @param re        Reynolds numbers [–], > 0
 * @param roughness ε/D [–], 0…0.05
 * @param f         receives factors
 * @param reSlope   receives Re·df/dRe
 */
export function churchillMany(
  count: number,
  re: Float64Array,
  roughness: Float64Array,
  f: Float64Array,
  reSlope: Float64Array,
): void {
  // f holds w = (7/Re)^0.9, reSlope holds ln(w + 0.27 ε/D), until the last pass
  for (let i = 0; i < count; i++) f[i] = Math.log(7 / re[i]!);
  for (let i = 0; i < count; i++) f[i] = Math.exp(0.9 * f[i]!);
  for (let i = 0; i < count; i++) reSlope[i] = Math.log(f[i]! + 0.27 * roughness[i]!);
  for (let i = 0; i < count; i++) {
    const r = re[i]!;
    if (r < CHURCHILL_FROM) {
      f[i] = 64 / r;
      reSlope[i] = -64 / r;
      continue;
    }
    const w = f[i]!;
    const u = w + 0.27 * roughness[i]!;
    const t = -2.457 * reSlope[i]!;
    // With A = t¹⁶: f = 8/t²·g^(1/12), g = (1 + δ)^(−3/2) + x¹², δ = B/A = (37530/(Re·t))¹⁶, x = 8t²/Re
    const inverse = 1 / (r * t * u);
    // powers by repeated squaring: several times faster than `**`
    const b = 37530 * inverse * u;
    const b2 = b * b;
    const b4 = b2 * b2;
    const b8 = b4 * b4;
    const delta = b8 * b8;
    const x = 8 * t * t * t * inverse * u;
    const x2 = x * x;
    const x4 = x2 * x2;
    const laminar = x4 * x4 * x4;
    let bend: number;
    let g: number;
    let root: number;
    if (delta + laminar < SERIES) {
      // both parts are small above Re 6000: their series are exact to the last bit, without roots
      bend = 1 - 2.5 * delta;
      g = 1 - 1.5 * delta * (1 - 1.25 * delta * (1 - (7 / 6) * delta)) + laminar;
      const s = g - 1;
      root = 1 + (s / 12) * (1 - (11 / 24) * s * (1 - (23 / 36) * s));
    } else {
      const p = 1 / ((1 + delta) * Math.sqrt(1 + delta));
      bend = p / (1 + delta);
      g = p + laminar;
      root = Math.cbrt(Math.sqrt(Math.sqrt(g)));
    }
    const factor = (8 / (t * t)) * root;
    // Re·dt/dRe = τ·t; δ falls as (Re·t)^−16, x¹² goes as (t²/Re)¹²
    const tau = 2.457 * 0.9 * w * inverse * r;
    const gSlope = 24 * bend * delta * (1 + tau) + 12 * laminar * (2 * tau - 1);
    f[i] = factor;
    reSlope[i] = factor * (gSlope / (12 * g) - 2 * tau);
  }
}

const one = {
  re: new Float64Array(1),
  roughness: new Float64Array(1),
  f: new Float64Array(1),
  reSlope: new Float64Array(1),
};

/**
 * Churchill's factor with its slope, unchecked.
 *
 * @param re           Reynolds number [–], > 0
 * @param relRoughness ε/D [–], 0…0.05
 * @param out          receives f and Re·df/dRe
 */
export function churchill(re: number, relRoughness: number, out: FrictionSlope): void {
  one.re[0] = re;
  one.roughness[0] = relRoughness;
  churchillMany(1, one.re, one.roughness, one.f, one.reSlope);
  out.f = one.f[0]!;
  out.reSlope = one.reSlope[0]!;
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
