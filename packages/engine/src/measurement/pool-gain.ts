import { waterDensity, waterHeatCapacity } from '../fluids/water';
import { DomainError } from '../numeric/errors';

/**
 * How long the collector must run before the pool's own thermometer could show its gain. The gain Q·t/C must
 * exceed twice the doubt of a difference of two readings and of what else the pool gained or lost meanwhile:
 *
 *   Q·t/C = 2·√(2u_T² + (u_o·t/C)²)   ⇒   t = C·√(8u_T² / (Q² − 4u_o²))
 *
 * @param heat         Q [W], what the collector brings on average while it runs
 * @param pool         volume [m³], > 0
 * @param water        temperature of the pool [°C], 0…100
 * @param thermometer  u_T, standard uncertainty of one reading that does not cancel in a difference [K], ≥ 0
 * @param other        u_o, standard uncertainty of the rest of the pool's balance [W], ≥ 0
 * @returns running time [s]; Infinity when the rest of the balance hides the gain however long it runs
 * @throws {DomainError} outside those ranges, or heat not above 0
 * @example poolShowsGain(4000, 40, 26, 0.2, 500) // 2.4e4 s, under seven hours
 */
export function poolShowsGain(
  heat: number,
  pool: number,
  water: number,
  thermometer: number,
  other: number,
): number {
  if (!(heat > 0 && heat < Infinity)) throw new DomainError('heat', heat, '(0, ∞) W');
  if (!(pool > 0 && pool < Infinity)) throw new DomainError('pool volume', pool, '(0, ∞) m³');
  if (!(thermometer >= 0 && thermometer < Infinity))
    throw new DomainError('uncertainty of the thermometer', thermometer, '[0, ∞) K');
  if (!(other >= 0 && other < Infinity))
    throw new DomainError('uncertainty of the balance', other, '[0, ∞) W');
  const left = heat ** 2 - 4 * other ** 2;
  if (!(left > 0)) return Infinity;
  const capacity = pool * waterDensity(water) * waterHeatCapacity(water);
  return capacity * thermometer * Math.sqrt(8 / left);
}
