import { DomainError } from '../numeric/errors';

/**
 * Wind at the tubes (or over the pool) from the wind at 10 m in open country: exposure × wind. One exposure for
 * the collector, one for the pool, each with an interval; the first thing that test days replace.
 *
 * @param wind10_ms  at 10 m [m/s], ≥ 0
 * @param exposure   local wind over wind at 10 m [–], 0…1.5
 * @returns [m/s]
 * @throws {DomainError} outside those ranges
 * @example localWind_ms(4, 0.35) // 1.4
 */
export function localWind_ms(wind10_ms: number, exposure: number): number {
  if (!(wind10_ms >= 0 && wind10_ms < 100)) throw new DomainError('wind', wind10_ms, '[0, 100) m/s');
  if (!(exposure >= 0 && exposure <= 1.5)) throw new DomainError('exposure', exposure, '[0, 1.5]');
  return wind10_ms * exposure;
}

/**
 * Wind at 10 m from a force on the Beaufort scale: v = 0.836·B^1.5 (WMO code 1100).
 *
 * @param force  [–], 0…12; fractions allowed
 * @returns [m/s]
 * @throws {DomainError} outside that range
 * @example beaufortWind_ms(3) // 4.34
 */
export function beaufortWind_ms(force: number): number {
  if (!(force >= 0 && force <= 12)) throw new DomainError('Beaufort force', force, '[0, 12]');
  return 0.836 * force ** 1.5;
}

/**
 * Force on the Beaufort scale of a wind at 10 m, rounded.
 *
 * @param wind_ms  [m/s], ≥ 0
 * @example beaufortForce(4.3) // 3
 */
export function beaufortForce(wind_ms: number): number {
  if (!(wind_ms >= 0)) throw new DomainError('wind', wind_ms, '≥ 0 m/s');
  return Math.min(12, Math.round((wind_ms / 0.836) ** (2 / 3)));
}
