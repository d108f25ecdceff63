import { DomainError } from '../numeric/errors';
import type { PoolConditions } from '../pool/conditions';
import type { PoolState } from '../pool/step';
import { surfaceStep } from '../pool/surface';
import { endStep, PART, PoolLine } from './pool-line';
import { checkRunPlan } from './run-plan';
import { type Book, bookCollector, bookPool, closeBook, newBook } from './year-book';
import { collect, type YearTime } from './year-collect';
import { newWork, type Pools, storesOf, type Work } from './year-state';
import type { YearResult, YearSetup, YearSteps } from './year-types';

const WARM_UP_DAYS = 60;
/** A series shorter than this has no other end of the year to warm up with [d]. */
const WHOLE_YEAR_DAYS = 360;
/** Steps between two reports. */
const REPORT = 240;

/**
 * A year of one pool, with the collector and without it, in one run.
 *
 * Each step is implicit for both pools; the collector's heat is linear in the pool's temperature within it.
 * Water that stood in the panel goes to where sun and air take it and comes first when the valve opens (first
 * slug): what the panel holds is a store of its own, so that nothing is lost between standing and running. The
 * valve opens at the instant within a step at which hours, or standing water, open it.
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
  };
  const work = newWork();
  const total = warm + n;
  const indexOf = (k: number): number => (k >= warm ? k - warm : whole ? n - warm + k : k);
  for (let k = 0; k < total; k++) {
    const counts = k >= warm;
    const i = indexOf(k);
    if (k === warm) {
      book.with.start_C = pools.with.water_C;
      book.without.start_C = pools.without.water_C;
      book.with.start_kg = pools.with.spare_kg ?? 0;
      book.without.start_kg = pools.without.spare_kg ?? 0;
      // what the panel holds now is not the year's
      for (const store of pools.stores) store.start_C = store.stored_C;
    }
    const c = cut === 1 ? steps.conditions[i] : shorter(steps.conditions[i], cut);
    for (let part = 0; part < cut; part++)
      stepBoth(steps, setup, { i, k, part, cut, indexOf }, c, pools, work, counts ? book : null);
    if (k % REPORT === REPORT - 1) yield (k + 1) / total;
  }
  book.with.end_C = pools.with.water_C;
  book.without.end_C = pools.without.water_C;
  book.with.end_kg = pools.with.spare_kg ?? 0;
  book.without.end_kg = pools.without.spare_kg ?? 0;
  const result = closeBook(book, steps, pools.stores);
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
  now: YearTime,
  c: PoolConditions,
  pools: Pools,
  work: Work,
  book: Book | null,
): void {
  const { i } = now;
  const { body, heater } = setup;
  const on = heater && steps.heaterShare ? steps.heaterShare[i] : 0;
  const stepHeater = heater && on > 0 ? { ...heater, enabled: on } : null;
  const surface = surfaceStep(body, c, 0);
  // the pool with the collector is booked before the other's line is drawn
  const lineOf = (state: PoolState): PoolLine =>
    new PoolLine(body, c, state, state.ice_kg > 0 ? surfaceStep(body, c, state.ice_kg) : surface, work.room);
  const line = lineOf(pools.with);
  const share = setup.collector ? collect(steps, setup, setup.collector, now, c, line, pools, work, book) : 0;
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
