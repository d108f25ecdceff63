import { DomainError } from '../numeric/errors';

/** Heat of melting of ice at 0 °C [J/kg], IAPWS-06 (333.43 kJ/kg; from memory). */
export const MELTING_HEAT_JKG = 333_430;

/**
 * Heat of vaporisation of water, straight line through the steam tables.
 *
 *   L = 2 500 900 − 2370·t
 *
 * Within 0.05 % of IAPWS-95 from 0 to 45 °C (2500.9, 2441.7, 2406.0 kJ/kg at 0, 25, 40 °C; from memory).
 *
 * @param temperature [°C], 0…60
 * @returns [J/kg]
 * @throws {DomainError} outside that range
 * @example latentHeat(26.67) // 2.4377e6, 1048 Btu/lb at 80 °F
 */
export function latentHeat(temperature: number): number {
  if (!(temperature >= 0 && temperature <= 60))
    throw new DomainError('water temperature', temperature, '[0, 60] °C');
  return 2_500_900 - 2370 * temperature;
}
