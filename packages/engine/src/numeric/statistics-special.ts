import { DomainError } from './errors';

const LANCZOS = [
  0.99999999999980993, 676.5203681218851, -1259.1392167224028, 771.32342877765313, -176.61502916214059,
  12.507343278686905, -0.13857109526572012, 9.9843695780195716e-6, 1.5056327351493116e-7,
];

/**
 * Natural logarithm of the gamma function (Lanczos, g = 7, nine terms; Numerical Recipes 3rd ed., 6.1).
 * Relative error of Γ about 1e-14.
 *
 * @param x argument [–], > 0
 * @throws {DomainError} x ≤ 0 or NaN
 * @example lnGamma(5) // 3.178054 = ln 24
 */
export function lnGamma(x: number): number {
  if (!(x > 0)) throw new DomainError('argument of ln Γ', x, '(0, ∞)');
  if (x < 0.5) return Math.log(Math.PI / Math.sin(Math.PI * x)) - lnGamma(1 - x);
  const z = x - 1;
  let sum = LANCZOS[0]!;
  for (let i = 1; i < LANCZOS.length; i++) sum += LANCZOS[i]! / (z + i);
  const t = z + 7.5;
  return 0.5 * Math.log(2 * Math.PI) + (z + 0.5) * Math.log(t) - t + Math.log(sum);
}

/**
 * Regularised lower incomplete gamma function P(a, x), by series below x = a + 1 and by continued fraction
 * above (Numerical Recipes 3rd ed., 6.2).
 *
 * @param a shape [–], > 0
 * @param x upper limit [–], ≥ 0
 * @returns P [–], 0…1
 * @throws {DomainError} outside those ranges
 * @example regularisedGamma(1, 1) // 0.6321206 = 1 − 1/e
 */
export function regularisedGamma(a: number, x: number): number {
  if (!(a > 0 && a < Infinity)) throw new DomainError('shape', a, '(0, ∞)');
  if (!(x >= 0)) throw new DomainError('limit of the gamma integral', x, '[0, ∞]');
  if (x === 0) return 0;
  if (x === Infinity) return 1;
  const front = Math.exp(a * Math.log(x) - x - lnGamma(a));
  if (x < a + 1) {
    let term = 1 / a;
    let sum = term;
    for (let n = 1; n < 10_000 && Math.abs(term) > Math.abs(sum) * 1e-16; n++) {
      term *= x / (a + n);
      sum += term;
    }
    return Math.min(1, sum * front);
  }
  let b = x + 1 - a;
  let c = 1e300;
  let d = 1 / b;
  let h = d;
  for (let i = 1; i < 10_000; i++) {
    const an = -i * (i - a);
    b += 2;
    d = 1 / nonZero(an * d + b);
    c = nonZero(b + an / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return Math.max(0, 1 - front * h);
}

/**
 * Regularised incomplete beta function I_x(a, b), by Lentz's continued fraction (Numerical Recipes 3rd ed.,
 * 6.4).
 *
 * @param x upper limit [–], 0…1
 * @param a first shape [–], > 0
 * @param b second shape [–], > 0
 * @returns I [–], 0…1
 * @throws {DomainError} outside those ranges
 * @example regularisedBeta(0.5, 2, 2) // 0.5
 */
export function regularisedBeta(x: number, a: number, b: number): number {
  if (!(x >= 0 && x <= 1)) throw new DomainError('limit of the beta integral', x, '[0, 1]');
  if (!(a > 0 && a < Infinity)) throw new DomainError('first shape', a, '(0, ∞)');
  if (!(b > 0 && b < Infinity)) throw new DomainError('second shape', b, '(0, ∞)');
  if (x === 0 || x === 1) return x;
  if (x > (a + 1) / (a + b + 2)) return 1 - regularisedBeta(1 - x, b, a);
  const front = Math.exp(lnGamma(a + b) - lnGamma(a) - lnGamma(b) + a * Math.log(x) + b * Math.log1p(-x)) / a;
  let c = 1;
  let d = 1 / nonZero(1 - ((a + b) * x) / (a + 1));
  let h = d;
  for (let m = 1; m < 10_000; m++) {
    const even = (m * (b - m) * x) / ((a + 2 * m - 1) * (a + 2 * m));
    d = 1 / nonZero(1 + even * d);
    c = nonZero(1 + even / c);
    h *= d * c;
    const odd = (-(a + m) * (a + b + m) * x) / ((a + 2 * m) * (a + 2 * m + 1));
    d = 1 / nonZero(1 + odd * d);
    c = nonZero(1 + odd / c);
    h *= d * c;
    if (Math.abs(d * c - 1) < 1e-15) break;
  }
  return Math.min(1, front * h);
}

const nonZero = (x: number): number => (Math.abs(x) < 1e-300 ? 1e-300 : x);
