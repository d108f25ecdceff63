import type { Project } from '@sunlap/project/schema/project';
import { inOrder } from './season-chart';
import type { Study } from './study';
import { type Both, type SeasonDays, swimMonthsOf, type WaterRange } from './values';

/** Days on end of one month. */
export interface PartSums {
  /** ISO dates of the first and last day. */
  from: string;
  to: string;
  days: number;
  pool_C: Both<WaterRange>;
  /** Collector into the pool. */
  heat_kWh: number;
  runHours: number;
  extraPump_kWh: number;
  swimDays: Both<number>;
}

export interface PartMonth extends PartSums {
  /** 1 = January. */
  month: number;
  /** Are these all the days that the year has of this month? */
  whole: boolean;
}

/** A part of the year: its sums, those of each month in it, and its days, in order from the first. */
export interface PartOfYear extends PartSums {
  months: PartMonth[];
  daily: SeasonDays;
}

/**
 * Sums of some days of a year that was run with its steps kept; over New Year where `to` comes before `from`.
 *
 * @param from day of the year as `04-01`, or a date whose year does not count; the year's first when left out
 * @returns null where the year has no such day, or its steps were not kept
 */
export function partOfYear(project: Project, study: Study, from?: string, to?: string): PartOfYear | null {
  const { calendar, year } = study;
  const { stepHeat_W, stepRun } = year;
  const kept = inOrder(calendar.dates, from, to);
  if (kept.length === 0 || !stepHeat_W || !stepRun) return null;
  const heat_kWh = new Float64Array(calendar.days);
  const run_h = new Float64Array(calendar.days);
  for (let i = 0; i < calendar.day.length; i++) {
    heat_kWh[calendar.day[i]] += (stepHeat_W[i] * calendar.step_h) / 1000;
    run_h[calendar.day[i]] += stepRun[i] * calendar.step_h;
  }
  const swim = swimMonthsOf(project);
  const monthOf = (d: number): number => Number(calendar.dates[d].slice(5, 7)) - 1;
  const pump_kWh = (d: number): number => {
    const { extraPump_J, run_h: all_h } = year.collector;
    const m = monthOf(d);
    return all_h[m] > 0 ? (run_h[d] * extraPump_J[m]) / all_h[m] / 3.6e6 : 0;
  };
  const sumsOf = (days: readonly number[]): PartSums => {
    const total = (of: (d: number) => number): number => days.reduce((sum, d) => sum + of(d), 0);
    const both = <T>(of: (pool: typeof year.with) => T): Both<T> => ({
      with: of(year.with),
      without: of(year.without),
    });
    return {
      from: calendar.dates[days[0]],
      to: calendar.dates[days[days.length - 1]],
      days: days.length,
      pool_C: both((pool) => ({
        mean: total((d) => pool.dayMean_C[d]) / days.length,
        low: Math.min(...days.map((d) => pool.dayLow_C[d])),
        high: Math.max(...days.map((d) => pool.dayHigh_C[d])),
      })),
      heat_kWh: total((d) => heat_kWh[d]),
      runHours: total((d) => run_h[d]),
      extraPump_kWh: total(pump_kWh),
      swimDays: both((pool) =>
        total((d) => (swim[monthOf(d)] && pool.afternoon_C[d] >= project.pool.wish_C ? 1 : 0)),
      ),
    };
  };
  const inMonth = new Array<number>(12).fill(0);
  for (let d = 0; d < calendar.days; d++) inMonth[monthOf(d)]++;
  const hundredths = (values: Float32Array): number[] => kept.map((d) => Math.round(values[d] * 100) / 100);
  const daily = (pool: typeof year.with) => ({
    low: hundredths(pool.dayLow_C),
    mean: hundredths(pool.dayMean_C),
    high: hundredths(pool.dayHigh_C),
  });
  return {
    ...sumsOf(kept),
    months: runsOf(kept, monthOf).map((days) => ({
      month: monthOf(days[0]) + 1,
      whole: days.length === inMonth[monthOf(days[0])],
      ...sumsOf(days),
    })),
    daily: {
      date: kept.map((d) => calendar.dates[d]),
      with: daily(year.with),
      without: daily(year.without),
    },
  };
}

/** Days on end of the same month. */
function runsOf(days: readonly number[], monthOf: (d: number) => number): number[][] {
  const runs: number[][] = [];
  for (const d of days) {
    const last = runs.at(-1);
    const before = last?.at(-1);
    if (last && before === d - 1 && monthOf(before) === monthOf(d)) last.push(d);
    else runs.push([d]);
  }
  return runs;
}
