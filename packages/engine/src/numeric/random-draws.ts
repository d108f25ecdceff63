import { DomainError } from './errors';
import type { Random } from './random';

/**
 * One standard normal draw (Marsaglia's polar method; the second number of each pair is dropped so that a
 * stream has no hidden state).
 *
 * @example drawNormal(createRandom(1))
 */
export function drawNormal(random: Random): number {
  for (;;) {
    const u = 2 * random() - 1;
    const v = 2 * random() - 1;
    const s = u * u + v * v;
    if (s > 0 && s < 1) return u * Math.sqrt((-2 * Math.log(s)) / s);
  }
}

/** One draw, uniform within ±1 (JCGM 101:2008, 6.4.2); its standard deviation is 1/√3. */
export function drawRectangular(random: Random): number {
  return 2 * random() - 1;
}

/** One draw, triangular within ±1 (JCGM 101:2008, 6.4.5); its standard deviation is 1/√6. */
export function drawTriangular(random: Random): number {
  return random() - random();
}

/**
 * One gamma draw of unit scale (Marsaglia & Tsang 2000; below shape 1 by the power of a uniform number).
 *
 * @param shape [–], > 0
 * @throws {DomainError} shape ≤ 0, NaN or infinite
 */
export function drawGamma(random: Random, shape: number): number {
  if (!(shape > 0 && shape < Infinity)) throw new DomainError('shape', shape, '(0, ∞)');
  if (shape < 1) return drawGamma(random, shape + 1) * (1 - random()) ** (1 / shape);
  const d = shape - 1 / 3;
  const c = 1 / Math.sqrt(9 * d);
  for (;;) {
    const x = drawNormal(random);
    const v = (1 + c * x) ** 3;
    if (v > 0 && Math.log(1 - random()) < 0.5 * x * x + d - d * v + d * Math.log(v)) return d * v;
  }
}

/**
 * One Student-t draw, N/√(χ²/ν) (JCGM 101:2008, 6.4.9); ν = ∞ is the normal distribution.
 *
 * @param dof degrees of freedom ν [–], > 0, may be Infinity
 * @throws {DomainError} ν ≤ 0 or NaN
 */
export function drawStudent(random: Random, dof: number): number {
  if (!(dof > 0)) throw new DomainError('degrees of freedom', dof, '(0, ∞]');
  const z = drawNormal(random);
  return dof === Infinity ? z : z / Math.sqrt((2 * drawGamma(random, dof / 2)) / dof);
}
