import { DomainError } from '../numeric/errors';

/** When water runs through the collector; the hours themselves come with the year, as a share of each step. */
export interface RunPlan {
  /** Null: by hand, whenever the hours say so. */
  readonly controller: Controller | null;
  /** Nothing more is wanted above this water temperature [°C]; Infinity when nobody stops it. */
  readonly limit_C: number;
  /** Below the limit by which the water must fall before heating starts again [K]. */
  readonly hysteresis_K: number;
}

/** Compares water standing in the panel, then the outlet, with the pool. */
export interface Controller {
  readonly on_K: number;
  readonly off_K: number;
  /** Runs at night to cool water that is over the limit. */
  readonly nightCooling: boolean;
}

/** @throws {DomainError} for differences that could not switch */
export function checkRunPlan(plan: RunPlan): void {
  if (!(plan.hysteresis_K >= 0)) throw new DomainError('hysteresis of the limit', plan.hysteresis_K, '≥ 0 K');
  if (Number.isNaN(plan.limit_C)) throw new DomainError('limit of the water', plan.limit_C, 'a temperature');
  const c = plan.controller;
  if (c && !(c.on_K > 0)) throw new DomainError('difference to switch on', c.on_K, '> 0 K');
  if (c && !(c.off_K >= 0)) throw new DomainError('difference to switch off', c.off_K, '≥ 0 K');
}

/** What the valve is asked to do in a step, and for which share of the plan's time. */
export interface Asked {
  readonly act: 'rest' | 'heat' | 'cool';
  /** Under 1 where a controller would switch on and off all the time [–]. */
  readonly duty: number;
}

const REST: Asked = { act: 'rest', duty: 0 };
const HEAT: Asked = { act: 'heat', duty: 1 };
const COOL: Asked = { act: 'cool', duty: 1 };

/** Memory of the valve from step to step. */
export interface ValveState {
  running: boolean;
  /** The limit was met and the water has not fallen by the hysteresis since. */
  full: boolean;
}

/**
 * What the plan asks for in a step.
 *
 * A controller in weak sun finds standing water warm, switches on, finds the running water hardly warmer, and
 * switches off, many times an hour: it then runs for the share rise/off of the step, whatever the step's length.
 *
 * @param plan     by hand or by controller
 * @param valve    as it stands; the limit's memory is brought up to date
 * @param share    of the step within the plan's hours [–]
 * @param water_C  of the pool
 * @param standing temperature that water standing in the panel goes to, asked for only when it decides [°C]
 * @param rise     of the water through the panel, asked for only when it decides [K]
 */
export function askPlan(
  plan: RunPlan,
  valve: ValveState,
  share: number,
  water_C: number,
  standing: () => number,
  rise: () => number,
): Asked {
  const c = plan.controller;
  if (water_C >= plan.limit_C) valve.full = true;
  else if (water_C < plan.limit_C - plan.hysteresis_K) valve.full = false;
  if (c?.nightCooling && water_C > plan.limit_C) {
    const gap = water_C - standing();
    if (gap >= c.on_K || (valve.running && gap > 0 && -rise() >= c.off_K)) return COOL;
  }
  if (share <= 0 || valve.full) return REST;
  if (!c) return HEAT;
  const enough = c.off_K > 0 ? rise() / c.off_K : rise() >= 0 ? 1 : 0;
  if (enough >= 1 && valve.running) return HEAT;
  if (!(enough > 0 && standing() - water_C >= c.on_K)) return REST;
  return enough >= 1 ? HEAT : { act: 'heat', duty: enough };
}
