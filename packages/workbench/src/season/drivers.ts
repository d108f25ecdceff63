import type { SkyEmittanceModel } from '@sunlap/engine/collector/long-wave';
import { waterDensity } from '@sunlap/engine/fluids/water';
import { STEFAN_BOLTZMANN, ZERO_CELSIUS_K } from '@sunlap/engine/numeric/constants';
import type { PoolConditions } from '@sunlap/engine/pool/conditions';
import { windAtHeight } from '@sunlap/engine/pool/wind';
import type { PanelWeather } from '@sunlap/engine/season/panel-year';
import type { SunSteps } from '@sunlap/engine/season/sun-steps';
import type { YearSteps } from '@sunlap/engine/season/year-types';
import { type ShadeTable, skyShare, sunlitGainWithout, sunlitShare } from '@sunlap/engine/sun/shade-table';
import {
  airVapour_Pa,
  monthOfSteps,
  skyLongWave_Wm2,
  type WeatherSeries,
} from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import type { RunPlan as FilePlan } from '@sunlap/project/schema/season';
import { ROOM_C } from '../assembly/heat-assumed';
import { collectorExposure } from '../heat/moment';
import type { ShadeTables } from '../yard/scene';
import { coverOf, FILTER_HOURS, poolExposure, STIRRED_M2 } from './assumed';
import { hoursShare, planShare, type SeasonCalendar, scheduleShares } from './calendar';
import type { SeasonWeather } from './site-weather';

/** Heat of one swimmer [W]: moderate swimming, sensible part (from memory). */
const SWIMMER_W = 200;
const RAD = Math.PI / 180;

/** What a rival or a variant changes of the yard's weather. */
export interface DriverChange {
  readonly poolExposure?: number;
  readonly collectorExposure?: number;
  readonly skyEmittance?: SkyEmittanceModel;
  /** Place of an obstacle in the scene that is taken away. */
  readonly felled?: number;
}

/** Shares of direct light and of the sky, by step. */
export interface ShadeSteps {
  readonly pool: Float64Array;
  readonly poolSky: Float64Array;
  readonly parts: readonly Float64Array[];
  readonly partsSky: readonly Float64Array[];
}

/** Reads the shade tables once for every step. */
export function shadeSteps(
  tables: ShadeTables,
  sun: SunSteps,
  calendar: SeasonCalendar,
  felled?: number,
): ShadeSteps {
  const n = sun.zenith_deg.length;
  const light = (table: ShadeTable | null): Float64Array => {
    const out = new Float64Array(n).fill(1);
    if (!table) return out;
    for (let i = 0; i < n; i++) {
      if (!(sun.sunlit[i] > 0)) continue;
      const [m, az, el] = [calendar.month[i], sun.azimuth_deg[i], 90 - sun.zenith_deg[i]];
      let share = sunlitShare(table, m, az, el);
      if (felled !== undefined) share += sunlitGainWithout(table, m, felled, az, el);
      out[i] = Math.min(1, Math.max(0, share));
    }
    return out;
  };
  const sky = (table: ShadeTable | null): Float64Array => {
    const month = Array.from({ length: 12 }, (_, m) => {
      if (!table) return 1;
      const gain = felled === undefined ? 0 : table.skyGainWithout[table.monthState[m]][felled];
      return Math.min(1, Math.max(0, skyShare(table, m) + gain));
    });
    return Float64Array.from({ length: n }, (_, i) => month[calendar.month[i]]);
  };
  return {
    pool: light(tables.pool),
    poolSky: sky(tables.pool),
    parts: tables.parts.map(light),
    partsSky: tables.parts.map(sky),
  };
}

/** Mean of the air over the series [°C]. */
export function meanAir_C(series: WeatherSeries): number {
  let sum = 0;
  for (let i = 0; i < series.length; i++) sum += series.air_C[i];
  return sum / series.length;
}

/** Water that is filled in [°C]: as given, else the year's mean air, as in pipes under ground. */
export function mainsOf(season: Project['season'], meanAir: number): number {
  return Math.min(35, Math.max(2, season?.mains_C ?? meanAir));
}

/** Everything that acts in each step, whatever stands in the sun. */
export interface Drivers {
  readonly steps: YearSteps;
  /** At the tubes' place, before their exposure [m/s], and of the sky [°C]. */
  readonly wind10_ms: Float64Array;
  readonly sky_C: Float64Array;
  readonly ground_C: number;
}

/**
 * Weather, sun, shade and habits as the pool feels them.
 *
 * Light on the water is what the weather says falls on the level: global less diffuse × sunlit share, diffuse ×
 * share of the sky seen. Wind is carried to 10 m, then by each exposure to the pool (2 m over it) and the tubes.
 */
export function seasonDrivers(
  project: Project,
  weather: SeasonWeather,
  calendar: SeasonCalendar,
  sun: SunSteps,
  shade: ShadeSteps,
  plan: FilePlan,
  area_m2: number,
  change: DriverChange = {},
): Drivers {
  const { series } = weather;
  const { season, site, pool } = project;
  const n = series.length;
  const { step_s } = series;
  const days = step_s / 86_400;
  const mean = meanAir_C(series);
  const ground_C = site.ground_C ?? mean;
  const mains_C = mainsOf(season, mean);
  const cover = coverOf(season);
  const covered = cover ? scheduleShares(calendar, season!.cover!.on) : null;
  const swimming =
    season?.swimmers && season.swimmers.count > 0 ? scheduleShares(calendar, season.swimmers.on) : null;
  const overPool = (change.poolExposure ?? poolExposure(project).ratio) * (1 - (pool.screen?.windLoss ?? 0));
  const { backwash_m3 } = project.loop.filter ?? {};
  const backwash =
    season?.backwashEvery_days && backwash_m3 ? (backwash_m3 * days) / season.backwashEvery_days : 0;
  const density = waterDensity(mains_C);
  const toTen = windAtHeight(1, series.windHeight_m, 10);
  const wind = new Float64Array(n);
  const sky_C = new Float64Array(n);
  const conditions: PoolConditions[] = new Array(n);
  for (let i = 0; i < n; i++) {
    const air_C = series.air_C[i];
    const wind10 = Math.max(0, series.wind_ms[i]) * toTen;
    wind[i] = wind10;
    const longWave = skyLongWave_Wm2(series, i, change.skyEmittance);
    sky_C[i] = Math.min(90, (longWave / STEFAN_BOLTZMANN) ** 0.25 - ZERO_CELSIUS_K);
    const up = sun.sunlit[i] > 0;
    const diffuse = Math.min(series.global_Wm2[i], series.diffuse_Wm2[i]);
    const swimmers = (swimming?.[i] ?? 0) * (season?.swimmers?.count ?? 0);
    conditions[i] = {
      step_s,
      air_C,
      airVapour_Pa: airVapour_Pa(series, i),
      pressure_Pa: series.pressure_Pa[i],
      wind_ms: Math.min(60, wind10 * overPool),
      windHeight_m: 2,
      direct_Wm2: up ? (series.global_Wm2[i] - diffuse) * shade.pool[i] : 0,
      diffuse_Wm2: diffuse * shade.poolSky[i],
      cosZenith: Math.max(0, Math.cos(sun.zenith_deg[i] * RAD)),
      skyLongWave_Wm2: longWave,
      skyShare: shade.poolSky[i],
      ground_C,
      mains_C,
      rain_kgm2: Math.max(0, series.rain_kgm2?.[i] ?? 0),
      rain_C: Math.min(60, Math.max(0, air_C)),
      splash_kg: (season?.splash_m3PerDay ?? 0) * density * days,
      backwash_kg: backwash * density,
      swimmers,
      swimmerHeat_W: SWIMMER_W,
      activity: 1 + Math.min(1, (swimmers * STIRRED_M2) / area_m2),
      cover: covered ? cover : null,
      // who swims has taken the cover off
      coverShare: covered ? covered[i] * (1 - Math.min(1, swimming?.[i] ?? 0)) : 0,
    };
  }
  const heater = season?.heater;
  return {
    steps: {
      step_s,
      length: n,
      month: calendar.month,
      day: calendar.day,
      days: calendar.days,
      hour: calendar.hour,
      conditions,
      runShare: planShare(calendar, plan, season?.drained),
      filterShare: hoursShare(calendar, season?.filterHours ?? FILTER_HOURS),
      heaterShare: heater ? (scheduleShares(calendar, heater.on) ?? new Float64Array(n).fill(1)) : null,
    },
    wind10_ms: wind,
    sky_C,
    ground_C,
  };
}

/** Shares of each part, and past the last their mean by weights: for pipe that lies in none of them. */
export function andTheirMean(shares: readonly Float64Array[], weights: ArrayLike<number>): Float64Array[] {
  const whole = shares.reduce((sum, _, part) => sum + (weights[part] ?? 0), 0);
  const mean = new Float64Array(shares[0]?.length ?? 0);
  shares.forEach((list, part) => {
    const w = whole > 0 ? (weights[part] ?? 0) / whole : 1 / shares.length;
    for (let i = 0; i < mean.length; i++) mean[i] += w * list[i];
  });
  return [...shares, mean];
}

/**
 * The same weather as the panel feels it.
 *
 * @param weights of the collector's parts in the mean that pipe outside them gets
 */
export function panelDrivers(
  project: Project,
  { series }: SeasonWeather,
  sun: SunSteps,
  shade: ShadeSteps,
  drivers: Drivers,
  weights: ArrayLike<number>,
  change: DriverChange = {},
): PanelWeather {
  const exposure = change.collectorExposure ?? collectorExposure(project).ratio;
  return {
    zenith_deg: sun.zenith_deg,
    azimuth_deg: sun.azimuth_deg,
    extraterrestrial_Wm2: sun.extraterrestrial_Wm2,
    directNormal_Wm2: series.directNormal_Wm2,
    diffuse_Wm2: series.diffuse_Wm2,
    air_C: series.air_C,
    sky_C: drivers.sky_C,
    pressure_Pa: series.pressure_Pa,
    wind_ms: drivers.wind10_ms.map((v) => Math.min(60, v * exposure)),
    ground_C: drivers.ground_C,
    room_C: ROOM_C,
    sunlit: andTheirMean(shade.parts, weights),
    skyShare: andTheirMean(shade.partsSky, weights),
  };
}

/** Mean of the air by month [°C]; that of the year where the series has no such month. */
export function meanAirByMonth(series: WeatherSeries): number[] {
  const months = monthOfSteps(series);
  const sum = new Float64Array(12);
  const count = new Float64Array(12);
  for (let i = 0; i < series.length; i++) {
    sum[months[i]] += series.air_C[i];
    count[months[i]]++;
  }
  const all = meanAir_C(series);
  return Array.from(sum, (s, m) => (count[m] > 0 ? s / count[m] : all));
}
