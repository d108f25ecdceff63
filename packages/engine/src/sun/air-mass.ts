import { STANDARD_ATMOSPHERE_PA } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/**
 * Relative optical air mass (Kasten & Young 1989).
 *
 *   m = 1/[cos z + 0.50572·(96.07995 − z)^−1.6364]
 *
 * @param apparentZenith_deg  refraction included [deg]; below the horizon the value at 90° is kept
 * @returns [–], 1 at the zenith, 37.9 at the horizon
 * @throws {DomainError} when not in 0…180
 * @example airMass(60) // 1.9943
 * @see kasten1989 in references.json
 */
export function airMass(apparentZenith_deg: number): number {
  if (!(apparentZenith_deg >= -0.01 && apparentZenith_deg <= 180.01))
    throw new DomainError('zenith', apparentZenith_deg, '[0, 180]°');
  const z = Math.min(apparentZenith_deg, 90);
  return 1 / (Math.cos((z * Math.PI) / 180) + 0.50572 * (96.07995 - z) ** -1.6364);
}

/**
 * Air mass corrected for the site's pressure: m·p/101325.
 *
 * @param apparentZenith_deg  [deg]
 * @param pressure_Pa         [Pa], > 0
 * @example absoluteAirMass(60, 95461) // 1.8789
 */
export function absoluteAirMass(apparentZenith_deg: number, pressure_Pa: number): number {
  if (!(pressure_Pa > 0)) throw new DomainError('air pressure', pressure_Pa, '> 0 Pa');
  return (airMass(apparentZenith_deg) * pressure_Pa) / STANDARD_ATMOSPHERE_PA;
}
