import { DomainError } from '../numeric/errors';
import { standardDeviation, standardDeviationOfMean } from '../numeric/statistics';

/** What is known of the distribution behind an uncertainty. */
export type Shape = 'normal' | 'rectangular' | 'triangular';

/**
 * One independent source of doubt, already carried to the result: effect = ∂f/∂x · u(x)
 * (JCGM 100:2008, 5.1.3).
 */
export interface Component {
  /** stable name; two components with the same source are the same error and add with their signs */
  source: string;
  /** as a person would say it */
  label: string;
  /** signed standard uncertainty of the result from this source [unit of the result] */
  effect: number;
  /** degrees of freedom [–]; Infinity when the spread is known */
  dof: number;
  shape: Shape;
  /** how many readings were averaged, for type A only */
  repeats?: number;
}

/**
 * Type B from limits: a rectangle of half-width a has u = a/√3 (JCGM 100:2008, 4.3.7).
 *
 * @param sensitivity ∂f/∂x [unit of result per unit of x]
 * @param halfWidth   a [unit of x], ≥ 0
 * @throws {DomainError} half-width negative or not finite
 * @example fromLimits('in', 'thermometer', 1, 0.5).effect // 0.288675
 */
export function fromLimits(source: string, label: string, sensitivity: number, halfWidth: number): Component {
  if (!(halfWidth >= 0 && halfWidth < Infinity))
    throw new DomainError(`limit of ${label}`, halfWidth, '[0, ∞)');
  return {
    source,
    label,
    effect: (sensitivity * halfWidth) / Math.sqrt(3),
    dof: Infinity,
    shape: 'rectangular',
  };
}

/**
 * Type A of the mean of repeated readings: u = s/√n with n − 1 degrees of freedom (JCGM 100:2008, 4.2.3).
 *
 * @param sensitivity ∂f/∂x [unit of result per unit of x]
 * @param readings    at least two, finite
 * @throws {DomainError} fewer than two readings, or one not finite
 * @example fromReadings('t', 'stopwatch', 1, [61.2, 60.4, 61.9]).effect // 0.43333
 */
export function fromReadings(
  source: string,
  label: string,
  sensitivity: number,
  readings: readonly number[],
): Component {
  return {
    source,
    label,
    effect: sensitivity * standardDeviationOfMean(readings),
    dof: readings.length - 1,
    shape: 'normal',
    repeats: readings.length,
  };
}

/**
 * The last digit of an instrument, a rectangle of half a digit (JCGM 100:2008, F.2.2.1). Readings that scatter
 * by half a digit or more already show their rounding in that scatter: it is not counted twice and the effect
 * is 0 (the larger of repeatability and resolution counts, as in ISO 14253-2, from memory).
 *
 * @param sensitivity ∂f/∂x [unit of result per unit of x]
 * @param readings    as read
 * @param resolution  last digit [unit of x], ≥ 0
 * @throws {DomainError} resolution negative or not finite
 * @example fromResolution('in', 'last digit', 1, [26, 26, 26], 0.1).effect // 0.0289
 */
export function fromResolution(
  source: string,
  label: string,
  sensitivity: number,
  readings: readonly number[],
  resolution: number,
): Component {
  const shown = readings.length > 1 && standardDeviation(readings) >= resolution / 2;
  return fromLimits(source, label, shown ? 0 : sensitivity, resolution / 2);
}

/**
 * Type B judged by experience: a standard uncertainty believed to a relative ±r has ν = ½·r^−2
 * (JCGM 100:2008, eq. G.3).
 *
 * @param standardUncertainty u(x) [unit of x], ≥ 0
 * @param reliability         relative standard uncertainty of u(x) itself [–], 0…0.7
 * @throws {DomainError} outside those ranges
 * @example fromJudgement('t', 'stopwatch', 1, 0.4, 0.35).dof // 4.08
 */
export function fromJudgement(
  source: string,
  label: string,
  sensitivity: number,
  standardUncertainty: number,
  reliability: number,
): Component {
  if (!(standardUncertainty >= 0 && standardUncertainty < Infinity))
    throw new DomainError(`standard uncertainty of ${label}`, standardUncertainty, '[0, ∞)');
  if (!(reliability >= 0 && reliability <= 0.7))
    throw new DomainError('reliability', reliability, '[0, 0.7]');
  const dof = reliability === 0 ? Infinity : 0.5 / reliability ** 2;
  return { source, label, effect: sensitivity * standardUncertainty, dof, shape: 'normal' };
}

/** Carries components through a further factor: the chain rule. */
export function scaled(components: readonly Component[], factor: number): Component[] {
  return components.map((c) => ({ ...c, effect: c.effect * factor }));
}

/** Adds, with their signs, components that are the same error met twice; drops those without effect. */
export function merged(components: readonly Component[]): Component[] {
  const bySource = new Map<string, Component>();
  for (const c of components) {
    const known = bySource.get(c.source);
    bySource.set(
      c.source,
      known ? { ...known, effect: known.effect + c.effect, dof: Math.min(known.dof, c.dof) } : c,
    );
  }
  return [...bySource.values()].filter((c) => c.effect !== 0);
}

/** A contribution to the variance of a result. */
export interface Contribution {
  source: string;
  label: string;
  /** standard uncertainty it brings [unit of the result], ≥ 0 */
  standardUncertainty: number;
  /** its part of the variance [–], 0…1; they add to 1 */
  share: number;
}

/**
 * Contributions to the variance, largest first.
 *
 * @example contributions([...]) // [{ source: 'thermometer.in.class', share: 0.49, … }, …]
 */
export function contributions(components: readonly Component[]): Contribution[] {
  const total = components.reduce((sum, c) => sum + c.effect ** 2, 0);
  return components
    .map((c) => ({
      source: c.source,
      label: c.label,
      standardUncertainty: Math.abs(c.effect),
      share: total > 0 ? c.effect ** 2 / total : 0,
    }))
    .sort((a, b) => b.share - a.share);
}
