import { DomainError } from './errors';

/**
 * Arithmetic mean, with the correction that makes it exact for equal values.
 *
 * @param values readings, at least one, finite
 * @throws {DomainError} none given, or one not finite
 * @example mean([61.2, 60.4, 61.9]) // 61.1667
 */
export function mean(values: readonly number[]): number {
  checked(values, 1);
  const rough = values.reduce((sum, x) => sum + x, 0) / values.length;
  return rough + values.reduce((sum, x) => sum + (x - rough), 0) / values.length;
}

/**
 * Experimental standard deviation, s² = Σ(x − x̄)²/(n − 1) (JCGM 100:2008, eq. 4).
 *
 * @param values readings, at least two, finite
 * @throws {DomainError} fewer than two, or one not finite
 * @example standardDeviation([61.2, 60.4, 61.9]) // 0.7506
 */
export function standardDeviation(values: readonly number[]): number {
  return Math.sqrt(covariance(values, values));
}

/**
 * Experimental standard deviation of the mean, s/√n (JCGM 100:2008, eq. 5): the type A standard uncertainty.
 *
 * @param values readings, at least two, finite
 * @throws {DomainError} fewer than two, or one not finite
 * @example standardDeviationOfMean([61.2, 60.4, 61.9]) // 0.4333
 */
export function standardDeviationOfMean(values: readonly number[]): number {
  return standardDeviation(values) / Math.sqrt(values.length);
}

/**
 * Experimental covariance of paired readings, Σ(x − x̄)(y − ȳ)/(n − 1); that of the means is this over n
 * (JCGM 100:2008, eq. 17).
 *
 * @param x,y paired readings, the same number of each, at least two, finite
 * @throws {DomainError} fewer than two, unequal numbers, or one not finite
 * @example covariance([1, 2, 3], [2, 4, 6]) // 2
 */
export function covariance(x: readonly number[], y: readonly number[]): number {
  checked(x, 2);
  checked(y, 2);
  if (x.length !== y.length) throw new DomainError('number of paired readings', y.length, String(x.length));
  const mx = mean(x);
  const my = mean(y);
  return x.reduce((sum, v, i) => sum + (v - mx) * (y[i]! - my), 0) / (x.length - 1);
}

/**
 * Correlation coefficient of paired readings (JCGM 100:2008, eq. 14).
 *
 * @param x,y paired readings as for {@link covariance}, neither constant
 * @throws {DomainError} as {@link covariance}, or one of them constant
 * @example correlation([1, 2, 3], [2, 4, 6]) // 1
 */
export function correlation(x: readonly number[], y: readonly number[]): number {
  const scale = standardDeviation(x) * standardDeviation(y);
  if (!(scale > 0)) throw new DomainError('spread of the readings', scale, '(0, ∞)');
  return Math.max(-1, Math.min(1, covariance(x, y) / scale));
}

/**
 * Sample quantile by linear interpolation between order statistics (Hyndman & Fan 1996, type 7).
 *
 * @param values readings in any order, at least one, finite
 * @param p      probability [–], 0…1
 * @throws {DomainError} outside those ranges
 * @example sampleQuantile([3, 1, 2], 0.5) // 2
 */
export function sampleQuantile(values: readonly number[], p: number): number {
  checked(values, 1);
  if (!(p >= 0 && p <= 1)) throw new DomainError('probability', p, '[0, 1]');
  const sorted = Float64Array.from(values).sort();
  const place = p * (sorted.length - 1);
  const below = Math.floor(place);
  const above = Math.min(sorted.length - 1, below + 1);
  return sorted[below]! + (place - below) * (sorted[above]! - sorted[below]!);
}

function checked(values: readonly number[], least: number): void {
  if (!(values.length >= least)) throw new DomainError('number of readings', values.length, `≥ ${least}`);
  for (const x of values) if (!Number.isFinite(x)) throw new DomainError('reading', x, 'finite');
}
