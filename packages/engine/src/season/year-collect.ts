import type { PoolConditions } from '../pool/conditions';
import type { CollectorRun, CollectorStanding, SeasonCollector } from './collector';
import { type Course, panelCourse, type Standing } from './panel-course';
import type { PoolLine } from './pool-line';
import { type Asked, askPlan } from './run-plan';
import type { Book } from './year-book';
import type { Pools, Store, Work } from './year-state';
import type { YearSetup, YearSteps } from './year-types';

/** What is left of a difference when standing water is said to have forgotten it [–]: seven time constants. */
const FORGOTTEN = 1e-3;

/** Which step of the run it is, and which part of it. */
export interface YearTime {
  /** In the series, and counted from the start of the warm-up. */
  readonly i: number;
  readonly k: number;
  /** Of the parts that the step is cut into. */
  readonly part: number;
  readonly cut: number;
  readonly indexOf: (k: number) => number;
}

/** Decides how long the collector runs in this step and leaves its heat in `work.line`; returns the share. */
export function collect(
  steps: YearSteps,
  setup: YearSetup,
  collector: SeasonCollector,
  time: YearTime,
  c: PoolConditions,
  line: PoolLine,
  pools: Pools,
  work: Work,
  book: Book | null,
): number {
  const { i } = time;
  const { run } = work;
  let known = false;
  const ask = (): CollectorRun => {
    if (!known) collector.running(i, line.water_C, run);
    known = true;
    return run;
  };
  const share = runAsPlanned(steps, setup, time, c, line, pools, work, book, ask);
  // a drained panel has nothing to give
  if (book && setup.potential && steps.runShare[i] >= 0 && (c.direct_Wm2 > 0 || c.diffuse_Wm2 > 0)) {
    if (!known) collector.running(i, line.water_C, run, true);
    const at = steps.month[i] * 24 + Math.min(23, Math.floor(steps.hour[i]));
    book.potential_J[at] += run.heat_W * c.step_s;
  }
  return share;
}

function runAsPlanned(
  steps: YearSteps,
  setup: YearSetup,
  time: YearTime,
  c: PoolConditions,
  line: PoolLine,
  pools: Pools,
  work: Work,
  book: Book | null,
  ask: () => CollectorRun,
): number {
  const { plan } = setup;
  const { valve, stores } = pools;
  const { i, cut } = time;
  const water_C = line.water_C;
  const dt = c.step_s;
  const inHours = steps.runShare[i];
  const hours = inHours > 0 ? hoursWithin(steps, time) : NONE;
  if (inHours < 0 || (hours.to <= hours.from && !plan.controller?.nightCooling) || line.ice_kg > 0) {
    valve.running = false;
    return 0;
  }
  // who shuts the valve by the clock opens it anew
  if (hours.from > 0) valve.running = false;
  const now = time.k + time.part / cut;
  const stand: Standing[] = [];
  const standing = (place: number): Standing => {
    stand[place] ??= standingNow(steps, stores[place], now, time, work.standing, book);
    return stand[place];
  };
  const asked = askPlan(
    plan,
    valve,
    hours.to - hours.from,
    water_C,
    () => standing(0),
    () => ask().rise_K,
  );
  const ran = asked.act === 'rest' ? null : runStep(asked);
  if (!ran) {
    valve.running = false;
    // those that were looked at are known now to the end of the step
    stand.forEach((s, place) => {
      const end_C = s.towards_C + (s.at_C - s.towards_C) * Math.exp(-dt / s.tau_s);
      if (book) book.panelGain_J += s.holds_JK * (end_C - s.at_C);
      keep(stores[place], end_C, now + 1 / cut, book);
    });
    return 0;
  }
  const { heat_W, slope_WK } = ask();
  const share = ran.run_s / dt;
  work.line.heat_J = share * heat_W * dt + ran.slug_J;
  work.line.slope_JK = share * slope_WK * dt;
  work.working = ran.working_s / dt;
  if (book) {
    if (ran.first_C > book.hottestSlug_C) book.hottestSlug_C = ran.first_C;
    book.slug_J[steps.month[i]] += ran.slug_J;
    book.panelGain_J += ran.taken_J - ran.slug_J;
  }
  for (const [place, store] of stores.entries()) keep(store, ran.end_C[place], now + 1 / cut, book);
  valve.running = ran.open;
  return share;

  /** Runs as asked for, and only until the limit is met; null when that is no time at all. */
  function runStep({ act, on_C, runsOn, steady }: Asked): Course | null {
    const { heat_W, slope_WK, rise_K, mean_C, capacity_WK } = ask();
    const list = stores.map((_, place) => standing(place));
    const within = act === 'cool' ? { from: 0, to: 1 } : hours;
    const course = (most_s: number): Course =>
      panelCourse(list, mean_C, water_C + rise_K, capacity_WK, {
        step_s: dt,
        from_s: within.from * dt,
        to_s: within.to * dt,
        runsOn,
        on_C,
        sign: act === 'cool' ? -1 : 1,
        steady,
        most_s,
      });
    const free = course(Infinity);
    if (!(free.run_s > 0)) return null;
    const { limit_C } = plan;
    const end = line.end_C(free.run_s * heat_W + free.slug_J, free.run_s * slope_WK);
    if (!(act === 'cool' ? end < limit_C : end > limit_C && water_C < limit_C)) return free;
    const wanted_J = line.wanted_J(limit_C);
    const atLimit_W = heat_W + slope_WK * (limit_C - water_C);
    const most_s = steady
      ? (wanted_J - free.slug_J) / atLimit_W
      : (free.run_s * wanted_J) / (free.run_s * atLimit_W + free.slug_J);
    const limited = most_s > 0 ? { ...course(Math.min(free.run_s, most_s)), open: false } : null;
    if (limited && limited.run_s > 0) return limited;
    if (act === 'heat') valve.full = true;
    return null;
  }
}

const NONE = { from: 0, to: 0 };

/**
 * Hours of the plan within this part of the step, as shares of the part. A step that they fill in part they begin,
 * where they are ending, and else they end it.
 */
function hoursWithin(
  { runShare }: YearSteps,
  { i, part, cut }: YearTime,
): { readonly from: number; readonly to: number } {
  const share = runShare[i];
  const ending = (runShare[i - 1] ?? 0) > (runShare[i + 1] ?? 0);
  const from = ending ? 0 : 1 - share;
  const within = (x: number): number => Math.min(1, Math.max(0, x * cut - part));
  return { from: within(from), to: within(from + share) };
}

function keep(store: Store, stored_C: number, known: number, book: Book | null): void {
  store.stored_C = stored_C;
  store.known = known;
  if (book) store.end_C = stored_C;
}

/** A store as this part of the step begins, after all the time for which nobody looked at it. */
function standingNow(
  steps: YearSteps,
  store: Store,
  now: number,
  { i, indexOf }: YearTime,
  out: CollectorStanding,
  book: Book | null,
): Standing {
  // backwards, until what was before no longer counts
  let left = 1;
  let t = 0;
  let last_C = Number.NaN;
  let at = now;
  while (at > store.known && at > 0 && left > FORGOTTEN) {
    const k = Math.ceil(at) - 1;
    const from = Math.max(k, store.known);
    store.standing(indexOf(k), out);
    const stays = Math.exp((-(at - from) * steps.step_s) / out.tau_s);
    t += left * (1 - stays) * out.standing_C;
    left *= stays;
    last_C = out.standing_C;
    at = from;
  }
  store.standing(i, out);
  const first_C = at <= store.known ? store.stored_C : last_C;
  const at_C = t + left * (Number.isNaN(first_C) ? out.standing_C : first_C);
  if (book && !Number.isNaN(store.stored_C)) book.panelGain_J += store.holds_JK * (at_C - store.stored_C);
  if (book && Number.isNaN(store.start_C)) store.start_C = at_C;
  keep(store, at_C, now, book);
  return { holds_JK: store.holds_JK, at_C, towards_C: out.standing_C, tau_s: out.tau_s };
}
