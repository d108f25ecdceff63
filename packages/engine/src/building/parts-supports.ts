import { DomainError } from '../numeric/errors';

/**
 * Middles of the supports under a run: one near each end, the rest evenly between, no further apart than the spacing.
 *
 * @param length  of the run [m], > 0
 * @param spacing most, centre to centre [m], > 0
 * @param inset   of the outermost from the run's ends [m], ≥ 0
 * @returns from the run's first end [m]; one in the middle where the run is too short for two
 * @throws {DomainError} outside those ranges
 * @example supportPlaces(6, 0.762, 0.1).length // 9, 0.725 m apart
 */
export function supportPlaces(length: number, spacing: number, inset: number): number[] {
  if (!(length > 0 && length < Infinity)) throw new DomainError('length', length, '(0, ∞) m');
  if (!(spacing > 0 && spacing < Infinity)) throw new DomainError('support spacing', spacing, '(0, ∞) m');
  if (!(inset >= 0 && inset < Infinity)) throw new DomainError('inset', inset, '[0, ∞) m');
  const between = length - 2 * inset;
  if (!(between > 0.05)) return [length / 2];
  const steps = Math.max(1, Math.ceil(between / spacing - 1e-9));
  return Array.from({ length: steps + 1 }, (_, i) => inset + (between * i) / steps);
}
