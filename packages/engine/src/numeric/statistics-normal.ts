import { DomainError } from './errors';
import { regularisedGamma } from './statistics-special';

/**
 * Standard normal distribution function, Φ(x) = ½ + ½·sign(x)·P(½, x²/2), P the incomplete gamma function.
 *
 * @param x standardised value [–]
 * @returns probability [–], 0…1
 * @throws {DomainError} NaN
 * @example normalCdf(1.96) // 0.9750021
 */
export function normalCdf(x: number): number {
  if (Number.isNaN(x)) throw new DomainError('standardised value', x, 'a number');
  if (x < -5) return 0.5 * complement(x);
  return x < 0
    ? 0.5 - 0.5 * regularisedGamma(0.5, (x * x) / 2)
    : 0.5 + 0.5 * regularisedGamma(0.5, (x * x) / 2);
}

/** 2·Φ(x) for x < −5 by the asymptotic continued fraction, where 1 − P would cancel. */
function complement(x: number): number {
  const a = Math.abs(x);
  if (a === Infinity) return 0;
  let tail = a;
  for (let k = 40; k >= 1; k--) tail = a + k / tail;
  return (2 * Math.exp((-a * a) / 2)) / (Math.sqrt(2 * Math.PI) * tail);
}

/**
 * Standard normal quantile, by Newton steps on ln Φ kept within a shrinking bracket.
 *
 * @param p probability [–], 0 < p < 1
 * @returns x with Φ(x) = p [–]
 * @throws {DomainError} p outside (0, 1)
 * @example normalQuantile(0.975) // 1.959964
 */
export function normalQuantile(p: number): number {
  if (!(p > 0 && p < 1)) throw new DomainError('probability', p, '(0, 1)');
  if (p > 0.5) return -normalQuantile(1 - p);
  let low = -39;
  let high = 0;
  let x = -0.9 * Math.sqrt(-2 * Math.log(2 * p));
  for (let i = 0; i < 200; i++) {
    const reached = normalCdf(x);
    const error = Math.log(reached / p);
    if (error > 0) high = x;
    else low = x;
    const newton = x - (error * reached * Math.sqrt(2 * Math.PI)) / Math.exp((-x * x) / 2);
    const next = newton > low && newton <= high ? newton : (low + high) / 2;
    if (Math.abs(next - x) <= 1e-15 * (1 + Math.abs(x))) return next;
    x = next;
  }
  return x;
}

/**
 * Chi-square distribution function, P(ν/2, x/2).
 *
 * @param x   value [–], ≥ 0
 * @param dof degrees of freedom ν [–], > 0
 * @returns probability of a smaller value [–]
 * @throws {DomainError} outside those ranges
 * @example chiSquareCdf(3.841459, 1) // 0.95
 */
export function chiSquareCdf(x: number, dof: number): number {
  if (!(dof > 0)) throw new DomainError('degrees of freedom', dof, '(0, ∞)');
  return regularisedGamma(dof / 2, x / 2);
}
