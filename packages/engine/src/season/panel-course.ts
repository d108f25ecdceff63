/** Water that stands in panel or pipes: what it is, where it tends to, how fast. */
export interface Standing {
  /** Of water and walls [J/K]. */
  readonly holds_JK: number;
  /** At the start of the step, and where sun and air take it [°C]. */
  readonly at_C: number;
  readonly towards_C: number;
  readonly tau_s: number;
}

/** How the valve is to be worked within one step. */
export interface CourseAsked {
  readonly step_s: number;
  /** Hours of the plan within the step [s]; they begin with the step for water that runs on. */
  readonly from_s: number;
  readonly to_s: number;
  /** Water has run up to the step and runs on. */
  readonly runsOn: boolean;
  /** Standing water that opens the valve [°C]; null: opened by hand as the hours begin. */
  readonly on_C: number | null;
  /** 1 to heat, −1 to cool. */
  readonly sign: 1 | -1;
  /** Running water is warm enough to go on; else the valve shuts as soon as what stood has passed. */
  readonly steady: boolean;
  /** Time for which it may run at most [s]. */
  readonly most_s: number;
}

/** What became of the step. */
export interface Course {
  readonly run_s: number;
  /** The same with the rests between one flush and the next [s]. */
  readonly working_s: number;
  /** Of the water that stood, into the pool over what running water brings [J]. */
  readonly slug_J: number;
  /** Taken up while standing, less what the slug loses on its way out [J]. */
  readonly taken_J: number;
  /** Water of the panel when the valve opened [°C]; NaN when it did not. */
  readonly first_C: number;
  /** By place in the list, at the end of the step [°C]. */
  readonly end_C: number[];
  /** Still running as the step ends. */
  readonly open: boolean;
}

/**
 * One step of a panel and the valve before it: standing water warms with its time constant, and what stood is
 * flushed at each start, so that nothing is lost between standing and running.
 *
 *   standing  T = S + (T_0 − S)·e^(−t/τ),   the valve opens at  t = τ·ln[(S − T_0)/(S − T_on)]
 *   flush     takes f = C/ṁc and brings  C·(T − T_m)·φ  over what running water brings,  φ = (1 − e^(−f/τ))·τ/f
 *
 * A controller in weak sun finds standing water warm, opens, finds the running water hardly warmer once what stood
 * has passed, and shuts: it goes round in f + τ·ln[(S − T_out)/(S − T_on)] and runs for f of that, its sensor being at
 * the outlet.
 * Where the first store decides, the others go with it. What is left of a flush at the step's end stays in store.
 *
 * @param stores  the panel first, then its pipes
 * @param mean_C  of the water in the panel while it runs [°C]
 * @param outlet_C of the water that leaves it then [°C]
 * @param capacity_WK ṁc of the panel [W/K]
 * @param asked   hours, thresholds, limits
 */
export function panelCourse(
  stores: readonly Standing[],
  mean_C: number,
  outlet_C: number,
  capacity_WK: number,
  asked: CourseAsked,
): Course {
  const { step_s, from_s, to_s, on_C, sign, most_s } = asked;
  const at = stores.map((s) => s.at_C);
  const lead = stores[0];
  let taken_J = 0;
  let slug_J = 0;
  const rest = (time_s: number): void => {
    if (!(time_s > 0)) return;
    stores.forEach(({ holds_JK, towards_C, tau_s }, k) => {
      const next = towards_C + (at[k] - towards_C) * Math.exp(-time_s / tau_s);
      taken_J += holds_JK * (next - at[k]);
      at[k] = next;
    });
  };
  const flush = (time_s: number): void =>
    stores.forEach(({ holds_JK, tau_s }, k) => {
      const length_s = holds_JK / capacity_WK;
      const passed = time_s >= flush_s ? 1 : time_s / flush_s;
      const out = passed * holds_JK * (at[k] - mean_C);
      const x = length_s / tau_s;
      const kept = x > 1e-6 ? -Math.expm1(-x) / x : 1;
      slug_J += out * kept;
      taken_J -= out * (1 - kept);
      at[k] = passed === 1 ? mean_C : at[k] - passed * (at[k] - mean_C);
    });
  const flush_s = lead.holds_JK / capacity_WK;
  const done = (run_s: number, first_C: number, open: boolean, working_s = run_s): Course => ({
    run_s,
    working_s,
    slug_J,
    taken_J,
    first_C,
    end_C: at,
    open,
  });

  if (asked.runsOn) {
    const run_s = Math.min(to_s, most_s);
    // what runs follows the sun from step to step
    stores.forEach(({ holds_JK }, k) => {
      slug_J += holds_JK * (at[k] - mean_C);
      at[k] = mean_C;
    });
    rest(step_s - run_s);
    return done(run_s, Number.NaN, run_s >= step_s);
  }
  rest(from_s);
  const wait_s = on_C === null ? 0 : untilOn_s(lead, at[0], on_C, sign);
  const left_s = to_s - from_s - wait_s;
  if (!(left_s > 0 && most_s > 0 && capacity_WK > 0)) {
    rest(step_s - from_s);
    return done(0, Number.NaN, false);
  }
  rest(wait_s);
  const first_C = at[0];
  const again_s = on_C === null ? 0 : untilOn_s(lead, outlet_C, on_C, sign);
  if (asked.steady || !(again_s > 0 && flush_s > 0)) {
    const run_s = Math.min(left_s, most_s);
    flush(run_s);
    rest(step_s - from_s - wait_s - run_s);
    return done(run_s, first_C, run_s >= left_s && to_s >= step_s);
  }
  const round_s = flush_s + again_s;
  const rounds = Math.min(Math.floor(left_s / round_s), Math.floor(most_s / flush_s));
  if (rounds >= 1) {
    flush(flush_s);
    rest(again_s);
  }
  if (rounds >= 2) {
    // all but the first are alike
    const before = { slug_J, taken_J };
    flush(flush_s);
    rest(again_s);
    slug_J += (rounds - 2) * (slug_J - before.slug_J);
    taken_J += (rounds - 2) * (taken_J - before.taken_J);
  }
  // in fading sun what stood opens the valve once, and never again
  const over_s = rounds > 0 ? left_s - rounds * round_s : left_s;
  const last_s = Math.max(0, Math.min(over_s, flush_s, most_s - rounds * flush_s));
  flush(last_s);
  rest(over_s - last_s + step_s - to_s);
  const run_s = rounds * flush_s + last_s;
  return done(run_s, first_C, false, rounds > 0 ? run_s + rounds * again_s : run_s);
}

/** Time until standing water opens the valve [s]; Infinity when it never does. */
function untilOn_s(store: Standing, from_C: number, on_C: number, sign: 1 | -1): number {
  const { towards_C, tau_s } = store;
  if (sign * (from_C - on_C) >= 0) return 0;
  if (!(sign * (towards_C - on_C) > 0)) return Infinity;
  return tau_s * Math.log((towards_C - from_C) / (towards_C - on_C));
}
