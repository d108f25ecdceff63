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

/** What the valve is asked to do in a step. */
export interface Asked {
  readonly act: 'rest' | 'heat' | 'cool';
  /** Water that has run goes on running. */
  readonly runsOn: boolean;
  /** Standing water that opens the valve [°C]; null when it is opened by hand. */
  readonly on_C: number | null;
  /** Running water is warm enough (cold enough, to cool) for the valve to stay open. */
  readonly steady: boolean;
}

const REST: Asked = { act: 'rest', runsOn: false, on_C: null, steady: false };

/** Memory of the valve from step to step. */
export interface ValveState {
  running: boolean;
  /** The limit was met and the water has not fallen by the hysteresis since. */
  full: boolean;
}

/** Water standing in the panel: what it is as the step begins, and where it tends to [°C]. */
export interface StandingWater {
  readonly at_C: number;
  readonly towards_C: number;
}

/**
 * What the plan asks for in a step.
 *
 * A controller opens when standing water is `on_K` warmer than the pool (colder, to cool) at any time of the step,
 * be it only what is left of a hotter hour, and leaves the valve open while the running water gains `off_K`.
 *
 * @param plan     by hand or by controller
 * @param valve    as it stands; the limit's memory is brought up to date
 * @param share    of the step within the plan's hours [–]
 * @param water_C  of the pool
 * @param standing water in the panel, asked for only when it decides
 * @param rise     of the water through the panel, asked for only when it decides [K]
 */
export function askPlan(
  plan: RunPlan,
  valve: ValveState,
  share: number,
  water_C: number,
  standing: () => StandingWater,
  rise: () => number,
): Asked {
  const c = plan.controller;
  if (water_C >= plan.limit_C) valve.full = true;
  else if (water_C < plan.limit_C - plan.hysteresis_K) valve.full = false;
  if (c?.nightCooling && water_C > plan.limit_C) {
    const cool = askController(c, valve, 'cool', water_C, standing, rise);
    if (cool.act === 'cool') return cool;
  }
  if (share <= 0 || valve.full) return REST;
  if (!c) return { act: 'heat', runsOn: valve.running, on_C: null, steady: true };
  return askController(c, valve, 'heat', water_C, standing, rise);
}

function askController(
  { on_K, off_K }: Controller,
  valve: ValveState,
  act: 'heat' | 'cool',
  water_C: number,
  standing: () => StandingWater,
  rise: () => number,
): Asked {
  const sign = act === 'heat' ? 1 : -1;
  if (valve.running && sign * rise() >= off_K) return { act, runsOn: true, on_C: null, steady: true };
  const on_C = water_C + sign * on_K;
  const { at_C, towards_C } = standing();
  if (!(sign * (at_C - on_C) >= 0 || sign * (towards_C - on_C) > 0)) return REST;
  return { act, runsOn: false, on_C, steady: sign * rise() >= off_K };
}
