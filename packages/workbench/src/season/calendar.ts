import { type Schedule, scheduleShare } from '@sunlap/engine/pool/schedule';
import { stepStart_ms, type WeatherSeries } from '@sunlap/engine/weather/series';
import type { RunPlan as FilePlan, Schedule as FileSchedule } from '@sunlap/project/schema/season';

const DAY_MS = 86_400_000;

/** Local standard time of every step. */
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

export function seasonCalendar(series: WeatherSeries): SeasonCalendar {
  const n = series.length;
  const month = new Uint8Array(n);
  const weekday = new Uint8Array(n);
  const day = new Uint16Array(n);
  const hour = new Float64Array(n);
  const dates: string[] = [];
  const shift = series.utcOffset_h * 3_600_000 + series.step_s * 500;
  const first = Math.floor((stepStart_ms(series, 0) + shift) / DAY_MS);
  let known = -1;
  let m = 0;
  let w = 0;
  for (let i = 0; i < n; i++) {
    const local = stepStart_ms(series, i) + shift;
    const d = Math.floor(local / DAY_MS);
    if (d !== known) {
      known = d;
      const date = new Date(d * DAY_MS);
      m = date.getUTCMonth();
      w = (date.getUTCDay() + 6) % 7;
      dates[d - first] = date.toISOString().slice(0, 10);
    }
    month[i] = m;
    weekday[i] = w;
    day[i] = d - first;
    hour[i] = (local - d * DAY_MS) / 3_600_000;
  }
  return { month, weekday, day, days: known - first + 1, hour, dates, step_h: series.step_s / 3600 };
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
    const start = Math.min(24, Math.max(0, hour[i] - step_h / 2));
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
