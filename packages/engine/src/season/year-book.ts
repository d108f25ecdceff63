import type { PoolState } from '../pool/step';
import { PART, PARTS, type StepHeat } from './pool-line';
import type { Store, Work } from './year-state';
import type { CollectorSums, PoolSums, YearResult, YearSetup, YearSteps } from './year-types';

const AFTERNOON_FROM_H = 13;
const AFTERNOON_TO_H = 18;

/** What a year is booked in. */
export interface Book extends Omit<CollectorSums, 'potential_W' | 'panelResidual_J'> {
  readonly with: PoolSums;
  readonly without: PoolSums;
  readonly month_s: Float64Array;
  readonly potential_J: Float64Array;
  readonly stepWith: Float32Array | null;
  readonly stepWithout: Float32Array | null;
  readonly stepRun: Float32Array | null;
  readonly stepHeat: Float32Array | null;
  panelGain_J: number;
}

/** An empty book for a series. */
export function newBook(steps: YearSteps, setup: YearSetup): Book {
  const list = (): Float64Array => new Float64Array(12);
  const byStep = (): Float32Array | null => (setup.keepSteps ? new Float32Array(steps.length) : null);
  const month_s = list();
  for (let i = 0; i < steps.length; i++) month_s[steps.month[i]] += steps.step_s;
  return {
    with: newSums(steps),
    without: newSums(steps),
    month_s,
    run_h: list(),
    heat_J: list(),
    headers_J: list(),
    pipes_J: list(),
    slug_J: list(),
    loss_J: list(),
    extraPump_J: list(),
    frozen_h: list(),
    perKelvin_JK: list(),
    potential_J: new Float64Array(12 * 24),
    hottestSlug_C: -Infinity,
    stepWith: byStep(),
    stepWithout: byStep(),
    stepRun: byStep(),
    stepHeat: byStep(),
    panelGain_J: 0,
  };
}

function newSums(steps: YearSteps): PoolSums {
  return {
    parts_J: new Float64Array(12 * PARTS),
    evaporated_kg: new Float64Array(12),
    makeUp_kg: new Float64Array(12),
    overflow_kg: new Float64Array(12),
    fuel_J: new Float64Array(12),
    warm_Ks: new Float64Array(12),
    low_C: new Float64Array(12).fill(Infinity),
    high_C: new Float64Array(12).fill(-Infinity),
    dayLow_C: new Float32Array(steps.days).fill(Infinity),
    dayMean_C: new Float32Array(steps.days),
    dayHigh_C: new Float32Array(steps.days).fill(-Infinity),
    afternoon_C: new Float32Array(steps.days),
    iced: new Float64Array(12),
    residual_J: 0,
    throughput_J: 0,
    start_C: 0,
    end_C: 0,
    start_kg: 0,
    end_kg: 0,
    level_J: 0,
  };
}

/** Books one step of a pool. */
export function bookPool(
  sums: PoolSums,
  steps: YearSteps,
  i: number,
  dt: number,
  before: PoolState,
  after: PoolState,
  heat: StepHeat,
): void {
  const m = steps.month[i];
  const d = steps.day[i];
  let size = 0;
  for (let p = 0; p < PARTS; p++) {
    sums.parts_J[m * PARTS + p] += heat.parts_J[p];
    size += Math.abs(heat.parts_J[p]);
  }
  sums.evaporated_kg[m] += heat.evaporated_kg;
  sums.makeUp_kg[m] += heat.makeUp_kg;
  sums.overflow_kg[m] += heat.overflow_kg;
  sums.level_J += heat.level_J;
  sums.fuel_J[m] += heat.fuel_J;
  sums.residual_J += heat.residual_J;
  sums.throughput_J += size;
  const mean = (before.water_C + after.water_C) / 2;
  sums.warm_Ks[m] += mean * dt;
  const t = after.water_C;
  if (t < sums.low_C[m]) sums.low_C[m] = t;
  if (t > sums.high_C[m]) sums.high_C[m] = t;
  if (t < sums.dayLow_C[d]) sums.dayLow_C[d] = t;
  if (t > sums.dayHigh_C[d]) sums.dayHigh_C[d] = t;
  sums.dayMean_C[d] += mean * dt;
  if (steps.hour[i] >= AFTERNOON_FROM_H && steps.hour[i] < AFTERNOON_TO_H) sums.afternoon_C[d] += mean * dt;
  if (after.ice_kg > 0) sums.iced[m] += dt / steps.step_s;
}

/** Books what the collector gave in a step. */
export function bookCollector(
  book: Book,
  steps: YearSteps,
  setup: YearSetup,
  i: number,
  dt: number,
  share: number,
  change_K: number,
  { run, heat, working }: Pick<Work, 'run' | 'heat' | 'working'>,
): void {
  const m = steps.month[i];
  const given = heat.parts_J[PART.collector];
  book.run_h[m] += (share * dt) / 3600;
  book.heat_J[m] += given;
  if (run.mean_C + run.rise_K / 2 < 0) book.frozen_h[m] += (share * dt) / 3600;
  if (given < 0) book.loss_J[m] += given;
  book.headers_J[m] += working * dt * (run.headers_W + run.headersSlope_WK * change_K);
  book.pipes_J[m] += working * dt * (run.pipes_W + run.pipesSlope_WK * change_K);
  book.perKelvin_JK[m] -= working * dt * run.slope_WK;
  const { powerThrough_W, powerPast_W } = setup.collector!;
  const both = Math.min(share, steps.filterShare[i]);
  book.extraPump_J[m] += dt * (share * powerThrough_W - both * powerPast_W);
}

/** The year's result: daily means, and whether what stood in the panel closes. */
export function closeBook(book: Book, steps: YearSteps, stores: readonly Store[]): YearResult {
  const hours = new Float64Array(12 * 24);
  const day = new Float64Array(steps.days);
  const afternoon = new Float64Array(steps.days);
  for (let i = 0; i < steps.length; i++) {
    hours[steps.month[i] * 24 + Math.min(23, Math.floor(steps.hour[i]))] += steps.step_s;
    day[steps.day[i]] += steps.step_s;
    if (steps.hour[i] >= AFTERNOON_FROM_H && steps.hour[i] < AFTERNOON_TO_H)
      afternoon[steps.day[i]] += steps.step_s;
  }
  for (const sums of [book.with, book.without])
    for (let d = 0; d < steps.days; d++) {
      sums.dayMean_C[d] /= day[d];
      sums.afternoon_C[d] = afternoon[d] > 0 ? sums.afternoon_C[d] / afternoon[d] : Number.NaN;
    }
  const { with: withIt, without, month_s, stepWith, stepWithout, stepRun, stepHeat } = book;
  let stored = 0;
  for (const { holds_JK, start_C, end_C } of stores)
    if (!Number.isNaN(end_C - start_C)) stored += holds_JK * (end_C - start_C);
  return {
    with: withIt,
    without,
    month_s,
    stepWith_C: stepWith,
    stepWithout_C: stepWithout,
    stepRun,
    stepHeat_W: stepHeat,
    collector: {
      run_h: book.run_h,
      heat_J: book.heat_J,
      headers_J: book.headers_J,
      pipes_J: book.pipes_J,
      slug_J: book.slug_J,
      loss_J: book.loss_J,
      extraPump_J: book.extraPump_J,
      frozen_h: book.frozen_h,
      perKelvin_JK: book.perKelvin_JK,
      potential_W: book.potential_J.map((j, k) => (hours[k] > 0 ? j / hours[k] : 0)),
      hottestSlug_C: book.hottestSlug_C,
      panelResidual_J: stored - book.panelGain_J,
    },
  };
}
