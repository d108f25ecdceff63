import { DomainError } from '../numeric/errors';

export interface Steadiness {
  /** time to wait in steady sun [s] */
  needed_s: number;
  steady: boolean;
  /** part of the last change that has not arrived yet [–], 0…1 */
  unfinishedShare: number;
  /** error of the rise from the inlet's drift [K], positive when the rise reads too high */
  driftError_K: number;
}

/**
 * Has the loop settled? Three transit times and one time constant of steady sun, after which about
 * exp(−(t − transit)/τ) of the last change is still to come. When the inlet drifts, the outlet belongs to the
 * inlet one transit earlier: the rise reads too low by drift × transit while the pool warms.
 *
 * @param transit    loop volume over flow [s], > 0
 * @param timeConstant τ = C/U of the tubes [s], ≥ 0
 * @param waited     time since valve, sun or flow last changed [s], ≥ 0
 * @param inletDrift slope of the inlet temperature [K/s]
 * @throws {DomainError} outside those ranges
 * @example steadiness(60, 600, 900, 0).steady // true: 780 s were needed
 */
export function steadiness(
  transit: number,
  timeConstant: number,
  waited: number,
  inletDrift = 0,
): Steadiness {
  if (!(transit > 0 && transit < Infinity)) throw new DomainError('transit time', transit, '(0, ∞) s');
  if (!(timeConstant >= 0 && timeConstant < Infinity))
    throw new DomainError('time constant', timeConstant, '[0, ∞) s');
  if (!(waited >= 0)) throw new DomainError('time waited', waited, '[0, ∞) s');
  if (!Number.isFinite(inletDrift)) throw new DomainError('inlet drift', inletDrift, 'finite K/s');
  const needed = 3 * transit + timeConstant;
  const since = Math.max(0, waited - transit);
  const unfinished = timeConstant === 0 ? (since > 0 ? 0 : 1) : Math.exp(-since / timeConstant);
  return {
    needed_s: needed,
    steady: waited >= needed,
    unfinishedShare: unfinished,
    driftError_K: inletDrift === 0 ? 0 : -inletDrift * transit,
  };
}
