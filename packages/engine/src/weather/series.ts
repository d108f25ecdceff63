import { clearSkyEmittance, cloudySkyEmittance, type SkyEmittanceModel } from '../collector/long-wave';
import { saturationPressure } from '../fluids/moist-air';
import { STEFAN_BOLTZMANN, ZERO_CELSIUS_K } from '../numeric/constants';
import type { Place } from '../sun/place';

/** How a column came about. */
export type Origin = 'measured' | 'computed' | 'guessed';

/**
 * Weather in equal steps without gaps. Step `i` covers [start + i·step, start + (i + 1)·step) of universal time;
 * irradiance and wind are means over it, temperatures those of its middle.
 */
export interface WeatherSeries {
  readonly name: string;
  readonly place: Place;
  /** Local standard time minus universal time [h]; no summer time. */
  readonly utcOffset_h: number;
  readonly start_ms: number;
  readonly step_s: number;
  readonly length: number;
  /** Months of different years laid on the common year 2001. */
  readonly typical: boolean;
  /** The instant the irradiance stands for, minus the middle of the step [s]; 0 for true hourly means. */
  readonly sunShift_s: number;
  /** The clock of the source ran by the sun: `sunShift_s` then comes on top of the equation of time. */
  readonly solarTime: boolean;
  readonly windHeight_m: number;
  readonly air_C: Float64Array;
  readonly dewPoint_C: Float64Array;
  readonly pressure_Pa: Float64Array;
  readonly wind_ms: Float64Array;
  readonly global_Wm2: Float64Array;
  readonly directNormal_Wm2: Float64Array;
  readonly diffuse_Wm2: Float64Array;
  /** Share of the sky covered [–]. */
  readonly cloud: Float64Array;
  /** Long wave from the sky on the level, where the source has it. */
  readonly longWave_Wm2: Float64Array | null;
  /** Rain in the step [kg/m²], where the source has it. */
  readonly rain_kgm2: Float64Array | null;
  readonly origin: Readonly<Record<SeriesColumn, Origin>>;
  readonly gaps: GapCount;
}

export type SeriesColumn =
  | 'air_C'
  | 'dewPoint_C'
  | 'pressure_Pa'
  | 'wind_ms'
  | 'global_Wm2'
  | 'directNormal_Wm2'
  | 'diffuse_Wm2'
  | 'cloud';

/** What was missing and has been filled. */
export interface GapCount {
  /** Values filled, over all columns. */
  readonly filled: number;
  /** Longest stretch filled [steps]. */
  readonly longest: number;
}

/** Start of a step [ms since 1970, universal time]. */
export function stepStart_ms(series: WeatherSeries, index: number): number {
  return series.start_ms + index * series.step_s * 1000;
}

/**
 * Stretch of universal time over which a step's irradiance was averaged [ms]: what `intervalSun` wants.
 * A source that samples at instants, or whose stamps are shifted, has its stretch shifted by as much. Sources in
 * solar time are shifted by the equation of time as well, given by the caller's day.
 *
 * @param equationOfTime_min of the day, only used for a source in solar time [min]
 */
export function lightInterval_ms(
  series: WeatherSeries,
  index: number,
  equationOfTime_min = 0,
): readonly [start_ms: number, end_ms: number] {
  const shift = series.sunShift_s * 1000 - (series.solarTime ? equationOfTime_min * 60_000 : 0);
  const start = stepStart_ms(series, index) + shift;
  return [start, start + series.step_s * 1000];
}

/** Local standard calendar of an instant; months and weekdays from 0, Monday first. */
export interface LocalMoment {
  readonly year: number;
  readonly month: number;
  readonly day: number;
  readonly weekday: number;
  /** [h], 0…24 */
  readonly hour: number;
  /** 1…366 */
  readonly dayOfYear: number;
}

export function localMoment(utc_ms: number, utcOffset_h: number): LocalMoment {
  const local = new Date(utc_ms + utcOffset_h * 3_600_000);
  const year = local.getUTCFullYear();
  const midnight = Date.UTC(year, local.getUTCMonth(), local.getUTCDate());
  return {
    year,
    month: local.getUTCMonth(),
    day: local.getUTCDate(),
    weekday: (local.getUTCDay() + 6) % 7,
    hour: (local.getTime() - midnight) / 3_600_000,
    dayOfYear: Math.round((midnight - Date.UTC(year, 0, 1)) / 86_400_000) + 1,
  };
}

/** Month of each step by local standard time, 0 = January: the season asks for it again and again. */
export function monthOfSteps(series: WeatherSeries): Uint8Array {
  const months = new Uint8Array(series.length);
  for (let i = 0; i < series.length; i++)
    months[i] = localMoment(stepStart_ms(series, i) + series.step_s * 500, series.utcOffset_h).month;
  return months;
}

/** Vapour pressure of the air of a step [Pa]. */
export function airVapour_Pa(series: WeatherSeries, index: number): number {
  return saturationPressure(series.dewPoint_C[index]);
}

/**
 * Long wave from the whole open sky on the level [W/m²]: measured where the source has it, else from dew point
 * and cloud.
 *
 * @param model clear-sky emittance; a measured column ignores it
 */
export function skyLongWave_Wm2(series: WeatherSeries, index: number, model?: SkyEmittanceModel): number {
  if (series.longWave_Wm2) return series.longWave_Wm2[index];
  const dew = series.dewPoint_C[index];
  const clear = clearSkyEmittance(Math.max(-60, dew), airVapour_Pa(series, index), model);
  const sky = cloudySkyEmittance(clear, series.cloud[index]);
  return sky * STEFAN_BOLTZMANN * (series.air_C[index] + ZERO_CELSIUS_K) ** 4;
}
