import { DomainError } from './errors';
import { normalCdf, normalQuantile } from './statistics-normal';
import { regularisedBeta } from './statistics-special';

/**
 * Student's t distribution function; ν need not be whole (Welch–Satterthwaite gives fractions), and ν = ∞ is
 * the normal distribution.
 *
 *   F(t) = 1 − ½·I_{ν/(ν+t²)}(ν/2, ½)   for t ≥ 0
 *
 * Abramowitz & Stegun 26.7.1 with 26.5.27.
 *
 * @param t   value [–]
 * @param dof degrees of freedom ν [–], > 0, may be Infinity
 * @returns probability of a smaller value [–]
 * @throws {DomainError} NaN, or ν ≤ 0
 * @example studentCdf(4.302653, 2) // 0.975
 */
export function studentCdf(t: number, dof: number): number {
  if (Number.isNaN(t)) throw new DomainError('t', t, 'a number');
  if (!(dof > 0)) throw new DomainError('degrees of freedom', dof, '(0, ∞]');
  if (dof > 1e7 || Math.abs(t) === Infinity) return normalCdf(t);
  const square = t * t;
  // the smaller argument of the beta function keeps its digits
  const tail =
    square > dof
      ? 0.5 * regularisedBeta(dof / (dof + square), dof / 2, 0.5)
      : 0.5 - 0.5 * regularisedBeta(square / (dof + square), 0.5, dof / 2);
  return t < 0 ? tail : 1 - tail;
}

/**
 * Student's t quantile, by a bracket grown from the normal quantile and bisection with secant steps on
 * {@link studentCdf}.
 *
 * @param p   probability [–], 0 < p < 1
 * @param dof degrees of freedom ν [–], > 0, may be Infinity
 * @returns t with F(t) = p [–]
 * @throws {DomainError} outside those ranges
 * @example studentQuantile(0.975, 2) // 4.302653
 */
export function studentQuantile(p: number, dof: number): number {
  if (!(p > 0 && p < 1)) throw new DomainError('probability', p, '(0, 1)');
  if (!(dof > 0)) throw new DomainError('degrees of freedom', dof, '(0, ∞]');
  if (dof > 1e7) return normalQuantile(p);
  if (p === 0.5) return 0;
  if (p < 0.5) return -studentQuantile(1 - p, dof);
  const excess = (t: number): number => 1 - p - studentCdf(-t, dof);
  let low = 0;
  let high = normalQuantile(p) + 1;
  while (excess(high) < 0) {
    low = high;
    high *= 2;
  }
  let fLow = excess(low);
  let fHigh = excess(high);
  // Illinois variant of regula falsi: keeps its bracket, faster than bisection
  for (let i = 0; i < 200 && high - low > 1e-14 * high; i++) {
    const t = (low * fHigh - high * fLow) / (fHigh - fLow);
    const f = excess(t);
    if (f === 0) return t;
    if (f < 0) {
      low = t;
      fLow = f;
      fHigh /= 2;
    } else {
      high = t;
      fHigh = f;
      fLow /= 2;
    }
    if (i % 12 === 11) {
      const middle = (low + high) / 2;
      const fMiddle = excess(middle);
      if (fMiddle < 0) [low, fLow] = [middle, fMiddle];
      else [high, fHigh] = [middle, fMiddle];
    }
  }
  return (low + high) / 2;
}
