import type { PoolConditions } from '../pool/conditions';
import type { CollectorRun, CollectorStanding, SeasonCollector } from './collector';
import type { PoolLine } from './pool-line';
import { askPlan } from './run-plan';
import type { Book } from './year-book';
import type { Pools, Store, Work } from './year-state';
import type { YearSetup, YearSteps } from './year-types';

/** Steps after which standing water has forgotten what it was [number]. */
const FORGOTTEN = 2;

/** Decides how long the collector runs in this step and leaves its heat in `work.line`; returns the share. */
export function collect(
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
