import { DomainError } from '../numeric/errors';
import { findRoot } from '../numeric/roots';

/** Least daily clearness index of the distribution [–]. */
const LEAST = 0.05;
/** |γ| beyond this is a step function. */
const STEEPEST = 400;

/**
 * Largest daily clearness index of a month (Hollands & Huget 1983; Duffie & Beckman eq. 2.9.7).
 *
 *   K_max = 0.6313 + 0.267·K̄ − 11.9·(K̄ − 0.75)⁸
 *
 * Below K̄ = 0.2 the polynomial dives; there K_max is kept at three times K̄ or 0.3, our choice.
 *
 * @param mean K̄ of the month [–], 0…0.85
 * @returns [–]
 * @throws {DomainError} outside that range
 * @example largestClearness(0.5) // 0.7646
 */
export function largestClearness(mean: number): number {
  if (!(mean >= 0 && mean <= 0.85)) throw new DomainError('mean clearness index', mean, '[0, 0.85]');
  const formula = 0.6313 + 0.267 * mean - 11.9 * (mean - 0.75) ** 8;
  return Math.max(formula, Math.min(0.3, 3 * mean), mean + 0.02);
}

/** Distribution of daily clearness about a month's mean. */
export interface ClearnessDistribution {
  readonly least: number;
  readonly largest: number;
  /** Steepness γ [–]: positive when clear days are the rule. */
  readonly gamma: number;
}

/**
 * Distribution of the daily clearness index in a month of mean K̄ (Bendt, Collares-Pereira & Rabl 1981, after
 * Liu & Jordan 1960; Duffie & Beckman eq. 2.9.6).
 *
 *   F(K) = [e^(γ·K_min) − e^(γ·K)] / [e^(γ·K_min) − e^(γ·K_max)]
 *
 * γ from the condition that the distribution's mean is K̄, solved, not from a fit.
 *
 * @param mean K̄ [–], 0…0.85
 * @throws {DomainError} outside that range
 * @example clearnessDistribution(0.5).gamma // 2.4
 */
export function clearnessDistribution(mean: number): ClearnessDistribution {
  const largest = largestClearness(mean);
  const least = Math.min(LEAST, mean / 2);
  const f = (gamma: number): number => meanOf({ least, largest, gamma }) - mean;
  if (!(f(-STEEPEST) < 0)) return { least, largest, gamma: -STEEPEST };
  if (!(f(STEEPEST) > 0)) return { least, largest, gamma: STEEPEST };
  return { least, largest, gamma: findRoot(f, -STEEPEST, STEEPEST, 1e-10).root };
}

/** Mean of the distribution: with y = γ·(K_max − K_min), K_min + (K_max − K_min)·[1/(1 − e^−y) − 1/y]. */
function meanOf({ least, largest, gamma }: ClearnessDistribution): number {
  const y = gamma * (largest - least);
  const share = Math.abs(y) < 1e-4 ? 0.5 + y / 12 : 1 / -Math.expm1(-y) - 1 / y;
  return least + (largest - least) * share;
}

/**
 * Share of days with a clearness index at or below K.
 *
 * @param clearness K [–]
 * @example clearnessShare(clearnessDistribution(0.5), 0.5)
 */
export function clearnessShare(distribution: ClearnessDistribution, clearness: number): number {
  const { least, largest, gamma } = distribution;
  if (!(clearness > least)) return 0;
  if (clearness >= largest) return 1;
  const y = gamma * (largest - least);
  if (Math.abs(y) < 1e-6) return (clearness - least) / (largest - least);
  return Math.expm1(gamma * (clearness - least)) / Math.expm1(y);
}

/**
 * Clearness index that a share u of the days stays under: the inverse of F.
 *
 *   K = K_min + ln[1 + u·(e^y − 1)]/γ        y = γ·(K_max − K_min)
 *
 * @param u share [–], 0…1
 * @throws {DomainError} outside that range
 */
export function clearnessQuantile(distribution: ClearnessDistribution, u: number): number {
  if (!(u >= 0 && u <= 1)) throw new DomainError('share of days', u, '[0, 1]');
  const { least, largest, gamma } = distribution;
  const y = gamma * (largest - least);
  if (Math.abs(y) < 1e-6) return least + u * (largest - least);
  // For large y written from the other end, so that e^y does not swallow the share.
  return y > 0
    ? largest + Math.log(u + (1 - u) * Math.exp(-y)) / gamma
    : least + Math.log1p(u * Math.expm1(y)) / gamma;
}
