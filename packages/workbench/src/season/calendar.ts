import { type Schedule, scheduleShare } from '@sunlap/engine/pool/schedule';
import { stepStart_ms, type WeatherSeries } from '@sunlap/engine/weather/series';
import type { RunPlan as FilePlan, Schedule as FileSchedule } from '@sunlap/project/schema/season';
import { type ClockPlace, stepClock_ms } from './wall-clock';

const DAY_MS = 86_400_000;
/** A series of at least so many days is a year, whose end meets its beginning [d]. */
const YEAR_DAYS = 365;

/**
 * Every step by the clock on the wall, summer time and all. Hours that summer time pushes over the year's end are
 * the first of its first day.
 */
export interface SeasonCalendar {
  readonly month: Uint8Array;
  /** Monday first. */
  readonly weekday: Uint8Array;
  /** Counted from the series' first local day. */
  readonly day: Uint16Array;
  readonly days: number;
  /** At the middle of the step [h]. */
  readonly hour: Float64Array;
  /** ISO date of each day. */
  readonly dates: readonly string[];
  readonly step_h: number;
}

/**
 * @param place whose clock it is; the weather's own standard time when left out or in a zone that nobody knows
 */
export function seasonCalendar(series: WeatherSeries, place?: ClockPlace): SeasonCalendar {
  const n = series.length;
  const month = new Uint8Array(n);
  const weekday = new Uint8Array(n);
  const day = new Uint16Array(n);
  const hour = new Float64Array(n);
  const half = series.step_s * 500;
  const clock_ms = stepClock_ms(series, place);
  const length = (n * series.step_s) / 86_400;
  const loops = Number.isInteger(length) && length >= YEAR_DAYS && length <= YEAR_DAYS + 1;
  // a year begins on the day on which its own standard time does
  const first = loops
    ? Math.floor((stepStart_ms(series, 0) + half + series.utcOffset_h * 3_600_000) / DAY_MS)
    : Math.floor(clock_ms[0] / DAY_MS);
  let known = Number.NaN;
  let m = 0;
  let w = 0;
  let k = 0;
  let last = 0;
  for (let i = 0; i < n; i++) {
    const local = clock_ms[i];
    const d = Math.floor(local / DAY_MS);
    if (d !== known) {
      known = d;
      // a clock put back over the first midnight stays on the first day
      k = loops ? (d - first + length) % length : Math.max(0, d - first);
      const date = new Date((first + k) * DAY_MS);
      m = date.getUTCMonth();
      w = (date.getUTCDay() + 6) % 7;
      last = Math.max(last, k);
    }
    month[i] = m;
    weekday[i] = w;
    day[i] = k;
    hour[i] = (local - d * DAY_MS) / 3_600_000;
  }
  const dates = Array.from({ length: last + 1 }, (_, d) =>
    new Date((first + d) * DAY_MS).toISOString().slice(0, 10),
  );
  return { month, weekday, day, days: last + 1, hour, dates, step_h: series.step_s / 3600 };
}

/** Share of each step in which any of the schedules is on; null when there are none. */
export function scheduleShares(
  calendar: SeasonCalendar,
  schedules: readonly FileSchedule[],
): Float64Array | null {
  if (schedules.length === 0) return null;
  const plain = schedules.map(plainSchedule);
  const { month, weekday, hour, step_h } = calendar;
  return Float64Array.from({ length: month.length }, (_, i) => {
    // a step over midnight is that of its middle's day
    const start = (hour[i] - step_h / 2 + 24) % 24;
    let most = 0;
    for (const s of plain) most = Math.max(most, scheduleShare(s, month[i], weekday[i], start, step_h));
    return most;
  });
}

function plainSchedule(s: FileSchedule): Schedule {
  return {
    months: s.months,
    from_h: s.from_h,
    to_h: s.to_h,
    ...(s.weekdays ? { weekdays: s.weekdays } : {}),
  };
}

const ALWAYS: readonly boolean[] = new Array<boolean>(12).fill(true);

/** Share of each step within the same hours every day. */
export function hoursShare(
  calendar: SeasonCalendar,
  hours: { readonly from_h: number; readonly to_h: number },
): Float64Array {
  return scheduleShares(calendar, [{ months: [...ALWAYS], from_h: hours.from_h, to_h: hours.to_h }])!;
}

/**
 * Share of each step within the hours of a run plan; −1 through months in which the panel is drained.
 *
 * @param drained by month, January first; none when absent
 */
export function planShare(
  calendar: SeasonCalendar,
  plan: FilePlan,
  drained?: readonly boolean[],
): Float64Array {
  const share = openShare(calendar, plan);
  if (drained) for (let i = 0; i < share.length; i++) if (drained[calendar.month[i]]) share[i] = -1;
  return share;
}

function openShare(calendar: SeasonCalendar, plan: FilePlan): Float64Array {
  if (plan.kind === 'controller') return hoursShare(calendar, plan);
  return (
    scheduleShares(
      calendar,
      // equal hours would be all day: a plan by hand means no hours then
      plan.months.flatMap((m, k) =>
        m.on && m.from_h !== m.to_h
          ? [{ months: ALWAYS.map((_, i) => i === k), from_h: m.from_h, to_h: m.to_h }]
          : [],
      ),
    ) ?? new Float64Array(calendar.month.length)
  );
}
