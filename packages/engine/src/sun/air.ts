import { STANDARD_ATMOSPHERE_PA } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/**
 * Air pressure at an elevation in the standard atmosphere.
 *
 *   p = 101325·(1 − 2.25577·10⁻⁵·h)^5.2559      (US Standard Atmosphere 1976, troposphere)
 *
 * @param elevation_m  height above sea level [m], −500…11000
 * @returns pressure [Pa]
 * @throws {DomainError} outside that range
 * @example pressureAtElevation_Pa(500) // 95461
 * @see ussa1976 in references.json
 */
export function pressureAtElevation_Pa(elevation_m: number): number {
  if (!(elevation_m >= -500 && elevation_m <= 11_000))
    throw new DomainError('elevation', elevation_m, '[-500, 11000] m');
  return STANDARD_ATMOSPHERE_PA * (1 - 2.25577e-5 * elevation_m) ** 5.2559;
}
