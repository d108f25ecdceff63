import { DomainError } from '../numeric/errors';
import type { PoolConditions } from '../pool/conditions';
import type { PoolState } from '../pool/step';
import { surfaceStep } from '../pool/surface';
import { type CollectorRun, type CollectorStanding, emptyRun, type SeasonCollector } from './collector';
import {
  type CollectorLine,
  emptyStepHeat,
  endStep,
  type LineRoom,
  lineRoom,
  PART,
  PARTS,
  PoolLine,
  type StepHeat,
} from './pool-line';
import { askPlan, checkRunPlan, type ValveState } from './run-plan';
import type { CollectorSums, PoolSums, YearResult, YearSetup, YearSteps } from './year-types';

const WARM_UP_DAYS = 60;
/** A series shorter than this has no other end of the year to warm up with [d]. */
const WHOLE_YEAR_DAYS = 360;
/** Steps after which standing water has forgotten what it was [number]. */
const FORGOTTEN = 2;
/** Steps between two reports. */
const REPORT = 240;
const AFTERNOON_FROM_H = 13;
const AFTERNOON_TO_H = 18;

/**
 * A year of one pool, with the collector and without it, in one run.
 *
 * Each step is implicit for both pools; the collector's heat is linear in the pool's temperature within it.
 * Water that stood in the panel goes to where sun and air take it and comes first when the valve opens (first
 * slug): what the panel holds is a store of its own, so that nothing is lost between standing and running.
 * Where a limit is met the collector runs for the share of the step that meets it.
 *
 * A generator, so that a caller can show progress and stop: it yields the share done about every ten days.
 *
 * @param steps what acts in each step
 * @param setup pool, plan, collector
 * @throws {DomainError} for a series of no steps, conditions that are none, a balance beyond 0…60 °C
 */
export function* runYear(steps: YearSteps, setup: YearSetup): Generator<number, YearResult> {
  const n = steps.length;
  if (!(n >= 1)) throw new DomainError('steps of the series', n, '≥ 1');
  const cut = setup.substeps ?? 1;
  if (!(Number.isInteger(cut) && cut >= 1)) throw new DomainError('substeps', cut, '≥ 1');
  checkRunPlan(setup.plan);
  const perDay = Math.round(86_400 / steps.step_s);
  const whole = n >= WHOLE_YEAR_DAYS * perDay;
  const given = setup.start_C !== undefined;
  const warm = given ? 0 : Math.min(n, (whole ? (setup.warmUp_days ?? WARM_UP_DAYS) : 10) * perDay);
  const book = newBook(steps, setup);
  const start = Math.min(45, Math.max(0, setup.start_C ?? steps.conditions[whole ? n - warm : 0].air_C));
  const pools: Pools = {
    with: { water_C: start, ice_kg: 0, spare_kg: 0 },
    without: { water_C: start, ice_kg: 0, spare_kg: 0 },
    valve: { running: false, full: false },
    stores: storesOf(setup.collector),
    stoppedAt: -Infinity,
  };
  const work = newWork();
  const total = warm + n;
  for (let k = 0; k < total; k++) {
    const counts = k >= warm;
    const i = counts ? k - warm : whole ? n - warm + k : k;
    if (k === warm) {
      book.with.start_C = pools.with.water_C;
      book.without.start_C = pools.without.water_C;
      book.with.start_kg = pools.with.spare_kg ?? 0;
      book.without.start_kg = pools.without.spare_kg ?? 0;
      // what the panel holds now is not the year's
      for (const store of pools.stores) store.start_C = store.stored_C;
      pools.stoppedAt = Math.min(pools.stoppedAt, -1);
    }
    const c = cut === 1 ? steps.conditions[i] : shorter(steps.conditions[i], cut);
    for (let s = 0; s < cut; s++) stepBoth(steps, setup, i, c, pools, work, counts ? book : null);
    if (k % REPORT === REPORT - 1) yield (k + 1) / total;
  }
  book.with.end_C = pools.with.water_C;
  book.without.end_C = pools.without.water_C;
  book.with.end_kg = pools.with.spare_kg ?? 0;
  book.without.end_kg = pools.without.spare_kg ?? 0;
  const result = finish(book, steps, pools.stores);
  if (!setup.without) return result;
  return { ...result, without: setup.without.sums, stepWithout_C: setup.without.step_C };
}

/** Runs a generator to its end. */
export function drain<T>(work: Generator<unknown, T>): T {
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
  }
}

interface Pools {
  with: PoolState;
  without: PoolState;
  readonly valve: ValveState;
  readonly stores: readonly Store[];
  /** Step in which water last ran. */
  stoppedAt: number;
}

/** Water that stands while the valve is shut: in the panel first, then in the pipes to and from it. */
interface Store {
  readonly holds_JK: number;
  readonly standing: (step: number, out: CollectorStanding) => void;
  /** Mean temperature of what it held when the water stopped, at the start of the year, and at its end [°C]. */
  stored_C: number;
  start_C: number;
  end_C: number;
}

function storesOf(collector: SeasonCollector | null): Store[] {
  if (!collector) return [];
  const parts = collector.pipes ? [collector, collector.pipes] : [collector];
  return parts.map((part) => ({
    holds_JK: part.holds_JK,
    standing: (step, out) => part.standing(step, out),
    stored_C: Number.NaN,
    start_C: Number.NaN,
    end_C: Number.NaN,
  }));
}

interface Work {
  readonly heat: StepHeat;
  readonly run: CollectorRun;
  readonly standing: CollectorStanding;
  readonly line: CollectorLine;
  readonly room: LineRoom;
}

function newWork(): Work {
  return {
    heat: emptyStepHeat(),
    run: emptyRun(),
    standing: { standing_C: 0, tau_s: 1 },
    line: { heat_J: 0, slope_JK: 0 },
    room: lineRoom(),
  };
}

function shorter(c: PoolConditions, cut: number): PoolConditions {
  return {
    ...c,
    step_s: c.step_s / cut,
    rain_kgm2: c.rain_kgm2 / cut,
    splash_kg: c.splash_kg / cut,
    backwash_kg: c.backwash_kg / cut,
  };
}

/** One step of both pools. */
function stepBoth(
  steps: YearSteps,
  setup: YearSetup,
  i: number,
  c: PoolConditions,
  pools: Pools,
  work: Work,
  book: Book | null,
): void {
  const { body, heater } = setup;
  const on = heater && steps.heaterShare ? steps.heaterShare[i] : 0;
  const stepHeater = heater && on > 0 ? { ...heater, enabled: on } : null;
  const surface = surfaceStep(body, c, 0);
  // the pool with the collector is booked before the other's line is drawn
  const lineOf = (state: PoolState): PoolLine =>
    new PoolLine(body, c, state, state.ice_kg > 0 ? surfaceStep(body, c, state.ice_kg) : surface, work.room);
  const line = lineOf(pools.with);
  const share = setup.collector ? collect(steps, setup, setup.collector, i, c, line, pools, work, book) : 0;
  const end = endStep(line, share > 0 ? work.line : null, stepHeater, work.heat);
  if (book) {
    bookPool(book.with, steps, i, c.step_s, pools.with, end, work.heat);
    if (share > 0) bookCollector(book, steps, setup, i, c.step_s, share, end.water_C - line.water_C, work);
    if (book.stepWith) book.stepWith[i] = end.water_C;
    if (book.stepRun) book.stepRun[i] += (share * c.step_s) / steps.step_s;
    if (book.stepHeat) book.stepHeat[i] += work.heat.parts_J[PART.collector] / steps.step_s;
  }
  pools.with = end;
  if (setup.without) return;
  if (!setup.collector) {
    if (book) bookPool(book.without, steps, i, c.step_s, pools.without, end, work.heat);
    if (book?.stepWithout) book.stepWithout[i] = end.water_C;
    pools.without = end;
    return;
  }
  const other = endStep(lineOf(pools.without), null, stepHeater, work.heat);
  if (book) bookPool(book.without, steps, i, c.step_s, pools.without, other, work.heat);
  if (book?.stepWithout) book.stepWithout[i] = other.water_C;
  pools.without = other;
}

/** Decides how long the collector runs in this step and leaves its heat in `work.line`; returns the share. */
function collect(
  steps: YearSteps,
  setup: YearSetup,
  collector: SeasonCollector,
  i: number,
  c: PoolConditions,
  line: PoolLine,
  pools: Pools,
  work: Work,
  book: Book | null,
): number {
  const { plan } = setup;
  const { valve, stores } = pools;
  const { run, standing } = work;
  const water_C = line.water_C;
  let known = false;
  const ask = (): CollectorRun => {
    if (!known) collector.running(i, water_C, run);
    known = true;
    return run;
  };
  const inHours = steps.runShare[i];
  // a drained panel has nothing to give
  if (book && setup.potential && inHours >= 0 && (c.direct_Wm2 > 0 || c.diffuse_Wm2 > 0)) {
    const at = steps.month[i] * 24 + Math.min(23, Math.floor(steps.hour[i]));
    book.potential_J[at] += ask().heat_W * c.step_s;
  }
  if (inHours < 0 || (inHours === 0 && !plan.controller?.nightCooling)) {
    valve.running = false;
    return 0;
  }
  const { act, duty } =
    line.ice_kg > 0
      ? { act: 'rest' as const, duty: 0 }
      : askPlan(
          plan,
          valve,
          inHours,
          water_C,
          () => {
            collector.standing(i, standing);
            return standing.standing_C;
          },
          () => ask().rise_K,
        );
  if (act === 'rest') {
    valve.running = false;
    return 0;
  }
  const { heat_W, slope_WK, mean_C } = ask();
  const dt = c.step_s;
  // what panel and pipes hold has followed sun and air since it stopped
  const fresh = stores.map((store) =>
    valve.running ? store.stored_C : storedNow(steps, store, i, dt, pools.stoppedAt, standing),
  );
  let slug_J = 0;
  stores.forEach(({ holds_JK }, k) => {
    if (!Number.isNaN(fresh[k])) slug_J += holds_JK * (fresh[k] - mean_C);
  });
  let share = act === 'cool' ? 1 : inHours * duty;
  let end = line.end_C(share * heat_W * dt + slug_J, share * slope_WK * dt);
  const over = act === 'cool' ? end < plan.limit_C : end > plan.limit_C && water_C < plan.limit_C;
  if (over) {
    const atLimit = (heat_W + slope_WK * (plan.limit_C - water_C)) * dt;
    share = Math.min(share, Math.max(0, (line.wanted_J(plan.limit_C) - slug_J) / atLimit));
    if (!(share > 0)) {
      valve.running = false;
      if (act === 'heat') valve.full = true;
      return 0;
    }
    end = plan.limit_C;
  }
  work.line.heat_J = share * heat_W * dt + slug_J;
  work.line.slope_JK = share * slope_WK * dt;
  if (book && !valve.running && fresh[0] > book.hottestSlug_C) [book.hottestSlug_C] = fresh;
  if (book) book.slug_J[steps.month[i]] += slug_J;
  stores.forEach((store, k) => {
    if (book && !Number.isNaN(fresh[k])) {
      const before = Number.isNaN(store.stored_C) ? fresh[k] : store.stored_C;
      // taken up while standing, less what has gone to the pool, is the change of what it holds
      book.panelGain_J += store.holds_JK * (fresh[k] - before - (fresh[k] - mean_C));
      if (Number.isNaN(store.start_C)) store.start_C = before;
    }
    store.stored_C = mean_C;
    if (book) store.end_C = mean_C;
  });
  pools.stoppedAt = i;
  valve.running = share >= inHours || act === 'cool';
  return share;
}

/** Temperature of the water that stood in a store until this step began. */
function storedNow(
  steps: YearSteps,
  store: Store,
  i: number,
  dt: number,
  stoppedAt: number,
  standing: CollectorStanding,
): number {
  const since = i - stoppedAt;
  // a valve that closed within this very step
  if (since === 0 && dt < steps.step_s) return store.stored_C;
  const known = since > 0 && since <= FORGOTTEN && !Number.isNaN(store.stored_C);
  let t = known ? store.stored_C : Number.NaN;
  // it ran through step `stoppedAt`; since then it has stood
  for (let b = known ? since - 1 : FORGOTTEN; b >= 1; b--) {
    const at = i - b;
    if (at < 0) continue;
    store.standing(at, standing);
    const left = Math.exp(-steps.step_s / standing.tau_s);
    t = Number.isNaN(t) ? standing.standing_C : standing.standing_C + (t - standing.standing_C) * left;
  }
  return t;
}

interface Book extends Omit<CollectorSums, 'potential_W' | 'panelResidual_J'> {
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

function newBook(steps: YearSteps, setup: YearSetup): Book {
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

function bookPool(
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

function bookCollector(
  book: Book,
  steps: YearSteps,
  setup: YearSetup,
  i: number,
  dt: number,
  share: number,
  change_K: number,
  work: Work,
): void {
  const m = steps.month[i];
  const { run, heat } = work;
  const given = heat.parts_J[PART.collector];
  book.run_h[m] += (share * dt) / 3600;
  book.heat_J[m] += given;
  if (given < 0) book.loss_J[m] += given;
  book.headers_J[m] += share * dt * (run.headers_W + run.headersSlope_WK * change_K);
  book.pipes_J[m] += share * dt * (run.pipes_W + run.pipesSlope_WK * change_K);
  book.perKelvin_JK[m] -= share * dt * run.slope_WK;
  const { powerThrough_W, powerPast_W } = setup.collector!;
  const both = Math.min(share, steps.filterShare[i]);
  book.extraPump_J[m] += dt * (share * powerThrough_W - both * powerPast_W);
}

function finish(book: Book, steps: YearSteps, stores: readonly Store[]): YearResult {
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
      perKelvin_JK: book.perKelvin_JK,
      potential_W: book.potential_J.map((j, k) => (hours[k] > 0 ? j / hours[k] : 0)),
      hottestSlug_C: book.hottestSlug_C,
      panelResidual_J: stored - book.panelGain_J,
    },
  };
}
