import { DomainError } from '../numeric/errors';
import { interpolateLinear } from '../numeric/interpolation';

/** Kv against opening: linear when no points are given. */
export interface ValveCharacteristic {
  /** Kv wide open [m³/h] */
  readonly kvs_m3h: number;
  /** openings [–], rising, from 0 to 1 */
  readonly opening?: readonly number[];
  /** Kv/Kvs at those openings [–], 0 at 0 */
  readonly share?: readonly number[];
}

/**
 * Flow coefficient at an opening. Shut is exact: opening 0 gives Kv 0.
 *
 * @param valve   characteristic
 * @param opening [–], 0…1
 * @returns Kv [m³/h at 1 bar, 1000 kg/m³] (IEC 60534-1)
 * @throws {DomainError} for an opening outside 0…1, a negative Kvs, or unordered points
 * @example valveKv({ kvs_m3h: 20 }, 0.25) // 5
 */
export function valveKv(valve: ValveCharacteristic, opening: number): number {
  if (!(opening >= 0 && opening <= 1)) throw new DomainError('valve opening', opening, '[0, 1]');
  if (!(valve.kvs_m3h >= 0)) throw new DomainError('Kvs', valve.kvs_m3h, '[0, ∞) m³/h');
  if (opening === 0) return 0;
  if (!valve.opening || !valve.share) return valve.kvs_m3h * opening;
  return valve.kvs_m3h * Math.max(0, interpolateLinear(valve.opening, valve.share, opening));
}

/**
 * The two ways of a three-way valve that shares one opening: Kv to the collector falls with the opening as
 * Kv past it rises.
 *
 * @param valve   characteristic of either way
 * @param opening towards the collector [–], 0…1
 * @returns Kv of both ways [m³/h]
 * @throws {DomainError} as {@link valveKv}
 * @example threeWayKv({ kvs_m3h: 20 }, 0.75) // { collector_m3h: 15, past_m3h: 5 }
 */
export function threeWayKv(
  valve: ValveCharacteristic,
  opening: number,
): { collector_m3h: number; past_m3h: number } {
  return { collector_m3h: valveKv(valve, opening), past_m3h: valveKv(valve, 1 - opening) };
}
