import { PART, PARTS, type PartName } from '@sunlap/engine/season/pool-line';
import type { PoolSums } from '@sunlap/engine/season/year-types';
import type { Project } from '@sunlap/project/schema/project';
import type { Answer } from '../results';
import type { Study } from './study';
import { MEAN_WORTH_W, type WorthHours, worthHours } from './worth-hours';

const KWH = 3.6e6;

export interface WaterRange {
  mean: number;
  low: number;
  high: number;
}

/** Heat into the pool by cause, losses negative [kWh]. */
export type PoolHeat_kWh = Record<PartName, number>;

export interface Both<T> {
  with: T;
  without: T;
}

/** A month, or the year. */
export interface SeasonSpan {
  days: number;
  /** Null where the weather has no such month. */
  pool_C: Both<WaterRange | null>;
  heat: Both<PoolHeat_kWh>;
  /** Collector into the pool, its pipes and first slugs included. */
  heat_kWh: number;
  /** Of it, from headers, from feed and return pipes, and from water that had stood in the panel. */
  headers_kWh: number;
  pipes_kWh: number;
  firstSlug_kWh: number;
  /** Given while that was a loss, ≤ 0. */
  lost_kWh: number;
  runHours: number;
  extraPump_kWh: number;
  swimDays: Both<number>;
  fuel_kWh: Both<number>;
  evaporated_m3: Both<number>;
  makeUp_m3: Both<number>;
  /** Shares of what warms the pool: its own sun, the collector, another heater, anything else. */
  shares: { sun: number; collector: number; heater: number; other: number };
}

export interface SeasonMonth extends SeasonSpan {
  /** 1 = January. */
  month: number;
}

export interface SeasonYear extends SeasonSpan {
  /** First and last day on which the afternoon's water reaches the wish. */
  swimFrom: Both<string | null>;
  swimTo: Both<string | null>;
  iceHours: Both<number>;
  hottestSlug_C: number | null;
}

/** Daily bands of the water [°C]. */
export interface SeasonDays {
  date: string[];
  with: { low: number[]; mean: number[]; high: number[] };
  without: { low: number[]; mean: number[]; high: number[] };
}

/** What one change would do, alone and on top of the collector. */
export interface SeasonChange {
  id: string;
  name: string;
  kind: 'cover' | 'bigger' | 'tubes' | 'longer' | 'felled';
  /** The project has it already: figures are what it brings now. */
  present: boolean;
  swimDaysAdded: Both<number>;
  /** Mean of the water over the swimming months [K]. */
  warmer_K: Both<number>;
  collectorHeatAdded_kWh: number;
  fuelSaved_kWh: Both<number>;
  /** Swimming days by month with this change, and without it. */
  swimDays: Both<number[]>;
  swimDaysBefore: Both<number[]>;
}

/** Sun that one thing in the yard keeps off, by month [kWh]. */
export interface ObstacleLoss {
  id: string;
  name: string;
  pool_kWh: number[];
  collector_kWh: number[];
  year_kWh: { pool: number; collector: number };
}

export interface SeasonSuction {
  colder_K: number;
  /** What so much colder water would bring in a year. */
  heat_kWh: number;
  suctions: {
    id: string;
    name: string;
    depth_m: number;
    /** Pumped out through a leak while nobody is there, and what it takes to warm the fill again. */
    leak_m3: number;
    leakFall_m: number;
    reheat_kWh: number;
    endless: boolean;
  }[];
  saying: string;
}

export interface SeasonMoney {
  currency: string;
  replaces: string;
  /** Worth of a kilowatt-hour in the pool, year's mean; null when nothing bought is replaced. */
  heat_perkWh: number | null;
  electricity_perkWh: number;
  savedPerYear: number | null;
  extraPumpPerYear: number;
  netPerYear: number | null;
  spent: number | null;
  years: number;
  payback_years: number | null;
  netValue: number | null;
  cover: {
    spent: number;
    savedPerYear: number | null;
    netValue: number | null;
    swimDaysAdded: number;
  } | null;
  /** A cover is in use already; what is weighed is then the panel on top of it. */
  covered: boolean;
  betterBuy: 'collector' | 'cover' | 'nothing' | 'unknown';
  saying: string;
  inputs: string[];
}

export interface SeasonFirst {
  /** Months asked for, 1 = January. */
  months: number[];
  /** Swimming days by month of the year: as it is without panel; and with one thing done. */
  nothing: number[];
  cover: number[] | null;
  felled: { id: string; name: string; swimDays: number[] } | null;
  collector: number[];
  collectorAndCover: number[] | null;
  /** Months in which the wish is not reached by anything of these. */
  unreachable: number[];
  saying: string;
}

export interface SeasonValues {
  place: string;
  wish_C: number;
  months: SeasonMonth[];
  year: SeasonYear;
  days: SeasonDays;
  balance: {
    /** Largest of both pools: |change of heat held − sum of all causes| over the sum of their sizes. */
    residual: number;
    throughput_kWh: number;
    /** The same for what the standing panel holds. */
    panelResidual: number;
  };
  /** Hours by the wall clock in which running pays, by month; null before it was looked at. */
  worth: WorthHours[] | null;
  changes: SeasonChange[];
  obstacles: ObstacleLoss[];
  suction: SeasonSuction | null;
  first: SeasonFirst | null;
  money: SeasonMoney | null;
}

export type SeasonAnswer = Answer<SeasonValues>;

/** Mean of the water over the months asked for [°C]. */
export function meanOver(sums: PoolSums, month_s: Float64Array, months: readonly boolean[]): number {
  let warm = 0;
  let time = 0;
  for (let m = 0; m < 12; m++) {
    if (!months[m]) continue;
    warm += sums.warm_Ks[m];
    time += month_s[m];
  }
  return time > 0 ? warm / time : Number.NaN;
}

/** Months in which swimming is wanted: those of the file, else all. */
export function swimMonthsOf(project: Project): readonly boolean[] {
  return project.season?.swimMonths ?? new Array<boolean>(12).fill(true);
}

/** Days whose afternoon water is at or over the wish, by month. */
export function swimDaysOf(project: Project, study: Study, sums: PoolSums): number[] {
  const months = swimMonthsOf(project);
  const out = new Array<number>(12).fill(0);
  study.calendar.dates.forEach((date, d) => {
    const m = Number(date.slice(5, 7)) - 1;
    if (months[m] && sums.afternoon_C[d] >= project.pool.wish_C) out[m]++;
  });
  return out;
}

/** Reads a year that was run. */
export function seasonValues(project: Project, study: Study): SeasonValues {
  const { year, calendar } = study;
  const swim = {
    with: swimDaysOf(project, study, year.with),
    without: swimDaysOf(project, study, year.without),
  };
  const all = Array.from({ length: 12 }, (_, m) => m);
  const span = (list: readonly number[]): SeasonSpan => spanOf(study, list, swim);
  const dates = (sums: PoolSums): string[] =>
    calendar.dates.filter(
      (date, d) =>
        swimMonthsOf(project)[Number(date.slice(5, 7)) - 1] && sums.afternoon_C[d] >= project.pool.wish_C,
    );
  const [on, off] = [dates(year.with), dates(year.without)];
  const residual = (s: PoolSums): number =>
    s.throughput_J > 0 ? Math.abs(s.residual_J) / s.throughput_J : 0;
  const list = (values: Float32Array): number[] => Array.from(values, (v) => Math.round(v * 100) / 100);
  const daily = (s: PoolSums) => ({
    low: list(s.dayLow_C),
    mean: list(s.dayMean_C),
    high: list(s.dayHigh_C),
  });
  const total = (values: Float64Array): number => values.reduce((a, b) => a + b, 0);
  const { hottestSlug_C, panelResidual_J } = year.collector;
  return {
    place: study.weather.series.name,
    wish_C: project.pool.wish_C,
    months: all.map((m) => ({ month: m + 1, ...span([m]) })),
    year: {
      ...span(all),
      swimFrom: { with: on[0] ?? null, without: off[0] ?? null },
      swimTo: { with: on[on.length - 1] ?? null, without: off[off.length - 1] ?? null },
      iceHours: {
        with: total(year.with.iced) * calendar.step_h,
        without: total(year.without.iced) * calendar.step_h,
      },
      hottestSlug_C: Number.isFinite(hottestSlug_C) ? hottestSlug_C : null,
    },
    days: { date: [...calendar.dates], with: daily(year.with), without: daily(year.without) },
    balance: {
      residual: Math.max(residual(year.with), residual(year.without)),
      throughput_kWh: year.with.throughput_J / KWH,
      panelResidual: year.with.throughput_J > 0 ? Math.abs(panelResidual_J) / year.with.throughput_J : 0,
    },
    worth: null,
    changes: [],
    obstacles: [],
    suction: null,
    first: null,
    money: null,
  };
}

/** Hours worth running, of a study that looked at them. */
export function worthOf(study: Study): WorthHours[] {
  const extra = Math.max(0, study.flows.powerThrough_W - study.flows.powerPast_W);
  return worthHours(study.year.collector.potential_W, Math.max(MEAN_WORTH_W, 3 * extra));
}

function spanOf(study: Study, months: readonly number[], swim: Both<number[]>): SeasonSpan {
  const { year } = study;
  const c = year.collector;
  const sum = (values: ArrayLike<number>): number => months.reduce((s, m) => s + values[m], 0);
  const both = <T>(of: (s: PoolSums) => T): Both<T> => ({ with: of(year.with), without: of(year.without) });
  const time = sum(year.month_s);
  const heat = both((s) => heatOf(s, months));
  return {
    days: time / 86_400,
    pool_C: both((s) =>
      time > 0
        ? {
            mean: sum(s.warm_Ks) / time,
            low: Math.min(...months.map((m) => s.low_C[m])),
            high: Math.max(...months.map((m) => s.high_C[m])),
          }
        : null,
    ),
    heat,
    heat_kWh: sum(c.heat_J) / KWH,
    headers_kWh: sum(c.headers_J) / KWH,
    pipes_kWh: sum(c.pipes_J) / KWH,
    firstSlug_kWh: sum(c.slug_J) / KWH,
    lost_kWh: sum(c.loss_J) / KWH,
    runHours: sum(c.run_h),
    extraPump_kWh: sum(c.extraPump_J) / KWH,
    swimDays: { with: sum(swim.with), without: sum(swim.without) },
    fuel_kWh: both((s) => sum(s.fuel_J) / KWH),
    evaporated_m3: both((s) => sum(s.evaporated_kg) / 1000),
    makeUp_m3: both((s) => sum(s.makeUp_kg) / 1000),
    shares: sharesOf(heat.with),
  };
}

function heatOf(s: PoolSums, months: readonly number[]): PoolHeat_kWh {
  const out = {} as PoolHeat_kWh;
  for (const [name, place] of Object.entries(PART) as [PartName, number][])
    out[name] = months.reduce((sum, m) => sum + s.parts_J[m * PARTS + place], 0) / KWH;
  return out;
}

function sharesOf(heat: PoolHeat_kWh): SeasonSpan['shares'] {
  const gain = (x: number): number => Math.max(0, x);
  const gains = (Object.values(heat) as number[]).reduce((s, x) => s + gain(x), 0);
  const share = (x: number): number => (gains > 0 ? gain(x) / gains : 0);
  const [sun, collector, heater] = [share(heat.sun), share(heat.collector), share(heat.heater)];
  return { sun, collector, heater, other: gains > 0 ? Math.max(0, 1 - sun - collector - heater) : 0 };
}
