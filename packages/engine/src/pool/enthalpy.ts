import { waterEnthalpy, waterHeatCapacity } from '../fluids/water';
import { DomainError } from '../numeric/errors';

/** Hottest water the pool's equations are asked about [°C]. */
export const HOTTEST_POOL_C = 60;

const H = Float64Array.from({ length: HOTTEST_POOL_C + 2 }, (_, t) => waterEnthalpy(t));
const CP = Float64Array.from({ length: HOTTEST_POOL_C + 2 }, (_, t) => waterHeatCapacity(t));

/**
 * Specific enthalpy of water from a table by whole degrees, cubic with the exact slope (cp) at each: the year
 * asks for it a hundred thousand times. Within 0.02 J/kg (5 µK) of `waterEnthalpy`, and smooth.
 *
 * @param temperature [°C], 0…60
 * @returns [J/kg]
 * @throws {DomainError} outside that range
 * @example poolEnthalpy(30) - poolEnthalpy(20) // 41818
 */
export function poolEnthalpy(temperature: number): number {
  if (!(temperature >= 0 && temperature <= HOTTEST_POOL_C))
    throw new DomainError('water temperature', temperature, `[0, ${HOTTEST_POOL_C}] °C`);
  const i = Math.floor(temperature);
  const x = temperature - i;
  const rise = H[i + 1] - H[i];
  const a = CP[i] - rise;
  const b = rise - CP[i + 1];
  return H[i] + x * (rise + (1 - x) * (a * (1 - x) + b * x));
}
