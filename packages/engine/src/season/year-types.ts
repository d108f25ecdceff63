import type { PoolBody, PoolConditions } from '../pool/conditions';
import type { SeasonCollector } from './collector';
import type { RunPlan } from './run-plan';

/** Everything that acts in each step, whatever stands in the sun. Month, day and hour by the clock that people live by. */
export interface YearSteps {
  readonly step_s: number;
  readonly length: number;
  /** 0 = January. */
  readonly month: Uint8Array;
  /** Counted from the first local day of the series. */
  readonly day: Uint16Array;
  readonly days: number;
  /** At the middle of the step [h], 0…24; a day may lack an hour or have one twice. */
  readonly hour: Float64Array;
  readonly conditions: readonly PoolConditions[];
  /**
   * Share of the step within the run plan's hours, −1 where the panel is drained and cannot run at all; in which
   * the filter runs anyway; of the other heater [–].
   */
  readonly runShare: Float64Array;
  readonly filterShare: Float64Array;
  readonly heaterShare: Float64Array | null;
}

/** What is studied. */
export interface YearSetup {
  readonly body: PoolBody;
  readonly heater: {
    readonly capacity_W: number;
    readonly setpoint_C: number;
    readonly efficiency: number;
  } | null;
  readonly plan: RunPlan;
  readonly collector: SeasonCollector | null;
  /** Water at the start; found by a warm-up over the last 60 days of the series when left out [°C]. */
  readonly start_C?: number;
  readonly warmUp_days?: number;
  /** Steps into which each step of the weather is cut; 1 when left out. */
  readonly substeps?: number;
  /** Look at what the collector would give in sunlit hours in which it does not run; none while it is drained. */
  readonly potential?: boolean;
  /** Keep the water of every step. */
  readonly keepSteps?: boolean;
  /** The pool without the collector from a run of the same steps, pool, heater and start: not run again. */
  readonly without?: KnownPool;
}

/** One pool's year that was run before. */
export interface KnownPool {
  readonly sums: PoolSums;
  readonly step_C: Float32Array | null;
}

/** One pool's sums by month: parts_J[month × PARTS + part]. */
export interface PoolSums {
  readonly parts_J: Float64Array;
  readonly evaporated_kg: Float64Array;
  readonly makeUp_kg: Float64Array;
  readonly overflow_kg: Float64Array;
  readonly fuel_J: Float64Array;
  /** Σ temperature × time and time by month, for means [K·s], [s]. */
  readonly warm_Ks: Float64Array;
  readonly low_C: Float64Array;
  readonly high_C: Float64Array;
  /** By day: lowest, mean, highest, and mean of the afternoon [°C]. */
  readonly dayLow_C: Float32Array;
  readonly dayMean_C: Float32Array;
  readonly dayHigh_C: Float32Array;
  readonly afternoon_C: Float32Array;
  /** Steps with ice. */
  readonly iced: Float64Array;
  residual_J: number;
  throughput_J: number;
  start_C: number;
  end_C: number;
  /** Water over the lowest level at both ends [kg], and heat that came and went with the level [J]. */
  start_kg: number;
  end_kg: number;
  level_J: number;
}

/** The collector's sums by month. */
export interface CollectorSums {
  /** Hours with water through it [h]. */
  readonly run_h: Float64Array;
  /** Into the pool [J]: all of it, of headers, of feed and return pipe, of first slugs. */
  readonly heat_J: Float64Array;
  readonly headers_J: Float64Array;
  readonly pipes_J: Float64Array;
  readonly slug_J: Float64Array;
  /** What it gave while that was a loss [J], ≤ 0. */
  readonly loss_J: Float64Array;
  readonly extraPump_J: Float64Array;
  /** Hours in which what comes back would be below 0 °C [h]: it freezes on the way, which is not computed. */
  readonly frozen_h: Float64Array;
  /** How much more a kelvin colder inlet would have brought [J/K]. */
  readonly perKelvin_JK: Float64Array;
  /** Heat that was to be had, mean of all days [W], by month × 24 + hour; and of the time it ran. */
  readonly potential_W: Float64Array;
  /** Hottest first slug [°C]. */
  hottestSlug_C: number;
  /** Change of heat in the standing panel less what came and went [J]. */
  panelResidual_J: number;
}

export interface YearResult {
  readonly with: PoolSums;
  readonly without: PoolSums;
  readonly collector: CollectorSums;
  /** Time by month [s]. */
  readonly month_s: Float64Array;
  /** By step when asked for. */
  readonly stepWith_C: Float32Array | null;
  readonly stepWithout_C: Float32Array | null;
  readonly stepRun: Float32Array | null;
  /** Heat of the collector by step [W]. */
  readonly stepHeat_W: Float32Array | null;
}
