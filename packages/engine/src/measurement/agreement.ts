import { DomainError } from '../numeric/errors';

export type Verdict = 'agrees' | 'cannotTell' | 'low' | 'high';

export interface Agreement {
  /** E_n [–]; beyond ±1 the two differ */
  normalisedError: number;
  verdict: Verdict;
  /** measured minus expected [W] */
  difference_W: number;
  /** of it, what is beyond both doubts [W], ≥ 0 */
  surely_W: number;
  /** joint 95 % half-width [W] */
  jointExpanded_W: number;
}

/**
 * Agreement of a measured with an expected heat by the normalised error
 *
 *   E_n = (Q − Q_exp)/√(U² + U_exp²)
 *
 * (ISO/IEC 17043, annex B, from memory), both U for 95 %. Beyond ±1: low or high. Within: agrees, unless the
 * joint interval is wider than a stated share of the expected heat; then a collector lacking that share would
 * have passed as well, and the honest word is that one cannot tell.
 *
 * @param measured          Q [W]
 * @param measuredExpanded  U [W], ≥ 0
 * @param expected          Q_exp [W]
 * @param expectedExpanded  U_exp [W], ≥ 0
 * @param tellableShare     joint half-width that still tells something, as a share of |Q_exp| [–]; 0.25 is a choice
 * @throws {DomainError} both intervals zero, or one negative, or a value not finite
 * @example agreement(4000, 400, 5000, 600).verdict // 'low': E_n = −1.39
 */
export function agreement(
  measured: number,
  measuredExpanded: number,
  expected: number,
  expectedExpanded: number,
  tellableShare = 0.25,
): Agreement {
  for (const q of [measured, expected]) if (!Number.isFinite(q)) throw new DomainError('heat', q, 'finite W');
  for (const u of [measuredExpanded, expectedExpanded])
    if (!(u >= 0 && u < Infinity)) throw new DomainError('expanded uncertainty', u, '[0, ∞) W');
  const joint = Math.hypot(measuredExpanded, expectedExpanded);
  if (!(joint > 0)) throw new DomainError('joint expanded uncertainty', joint, '(0, ∞) W');
  const difference = measured - expected;
  const normalisedError = difference / joint;
  let verdict: Verdict = joint > tellableShare * Math.abs(expected) ? 'cannotTell' : 'agrees';
  if (normalisedError < -1) verdict = 'low';
  if (normalisedError > 1) verdict = 'high';
  return {
    normalisedError,
    verdict,
    difference_W: difference,
    surely_W: Math.max(0, Math.abs(difference) - joint),
    jointExpanded_W: joint,
  };
}
