import { DomainError } from '../numeric/errors';

/** One limit held against one value. */
export interface LimitCheck {
  readonly exceeded: boolean;
  readonly value: number;
  readonly limit: number;
  /** room left, in the unit of the value; negative when exceeded */
  readonly margin: number;
  readonly source: string;
}

const POOL_STANDARD = 'ANSI/PHTA pool standards; ISPSC';

const FOOT_M = 0.3048;

/** Greatest velocity in suction pipe, 6 ft/s [m/s] (ANSI pool standards, ISPSC). */
export const SUCTION_VELOCITY_MS = 6 * FOOT_M;
/** Greatest velocity in pipe under pressure, 8 ft/s [m/s] (ANSI pool standards, ISPSC). */
export const PRESSURE_VELOCITY_MS = 8 * FOOT_M;

function atMost(quantity: string, value: number, limit: number, source: string): LimitCheck {
  if (!Number.isFinite(value)) throw new DomainError(quantity, value, 'finite');
  return { exceeded: value > limit, value, limit, margin: limit - value, source };
}

/**
 * Velocity in a suction pipe against 1.83 m/s (6 ft/s).
 *
 * @param velocity either sign [m/s], finite
 * @throws {DomainError} outside that range
 * @example checkSuctionVelocity(2).exceeded // true
 */
export function checkSuctionVelocity(velocity: number): LimitCheck {
  return atMost('suction velocity', Math.abs(velocity), SUCTION_VELOCITY_MS, POOL_STANDARD);
}

/**
 * Velocity in a pipe behind the pump against 2.44 m/s (8 ft/s).
 *
 * @param velocity either sign [m/s], finite
 * @throws {DomainError} outside that range
 * @example checkPressureVelocity(2).exceeded // false
 */
export function checkPressureVelocity(velocity: number): LimitCheck {
  return atMost('velocity', Math.abs(velocity), PRESSURE_VELOCITY_MS, POOL_STANDARD);
}

/**
 * Flow through an in-line device against the least it needs (the person's figure; heaters lock out below it).
 *
 * @param flow  [m³/s], finite
 * @param least [m³/s], ≥ 0
 * @throws {DomainError} outside those ranges
 * @example checkDeviceFlow(0.001, 0.0012).exceeded // true
 */
export function checkDeviceFlow(flow: number, least: number): LimitCheck {
  if (!Number.isFinite(flow)) throw new DomainError('flow', flow, 'finite');
  if (!(least >= 0 && least < Infinity)) throw new DomainError('least flow', least, '[0, ∞) m³/s');
  const value = Math.abs(flow);
  return {
    exceeded: value < least,
    value,
    limit: least,
    margin: value - least,
    source: "the person's figure",
  };
}

/**
 * Hours to pump the pool's volume once against the person's target. Only asked when a target was set; lowest
 * rank. A still pump turns nothing over: value Infinity.
 *
 * @param volume pool [m³], > 0
 * @param flow   [m³/s], ≥ 0
 * @param target [h], > 0
 * @throws {DomainError} outside those ranges
 * @example checkTurnover(50, 0.001, 12).value // 13.9
 */
export function checkTurnover(volume: number, flow: number, target: number): LimitCheck {
  if (!(target > 0 && target < Infinity)) throw new DomainError('turnover target', target, '(0, ∞) h');
  const value = turnoverHours(volume, flow);
  return {
    exceeded: value > target,
    value,
    limit: target,
    margin: target - value,
    source: 'common practice 8–12 h',
  };
}

/**
 * Hours to pump a volume once.
 *
 * @param volume [m³], > 0
 * @param flow   [m³/s], ≥ 0; 0 gives Infinity
 * @returns [h]
 * @throws {DomainError} outside those ranges
 * @example turnoverHours(50, 0.001) // 13.9
 */
export function turnoverHours(volume: number, flow: number): number {
  if (!(volume > 0 && volume < Infinity)) throw new DomainError('volume', volume, '(0, ∞) m³');
  if (!(flow >= 0 && flow < Infinity)) throw new DomainError('flow', flow, '[0, ∞) m³/s');
  return volume / flow / 3600;
}
