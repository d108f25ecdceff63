import { beaufortScale } from '@sunlap/data/beaufort';
import { findSky } from '@sunlap/data/skies';
import { dewPointFromHumidity } from '@sunlap/engine/fluids/moist-air';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { TestDay } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import { type MomentOptions, type ResolvedMoment, resolveMoment } from '../heat/moment';
import type { Interval } from '../results';

/** A handheld instrument for the sun, as a share of its reading; judgement. */
const IRRADIANCE_LIMIT = 0.07;
/** Air as read in some shade [K]; dew point from an almanac or a cheap hygrometer [K]; judgement. */
const AIR_LIMIT_K = 1;
const DEW_LIMIT_K = 3;
/** A handheld anemometer beside the tubes, for a gusty hour, as a share; judgement. */
const WIND_LIMIT = 0.15;
/** Warmest air that is believed [°C]. */
const HOTTEST_AIR_C = 55;
/** More sun than this on the level is not believed [W/m²]. */
const MOST_SUN_WM2 = 1400;
const MOST_WIND_MS = 35;

/** The hour of a test day, with what is not known of it. */
export interface DayConditions {
  readonly options: MomentOptions;
  readonly now: ResolvedMoment;
  /** Intervals of what was said or read, where they are not those of an assumption. */
  readonly wind_ms: Interval | null;
  readonly air_C: Interval | null;
  readonly dewPoint_C: Interval | null;
  readonly cloud: Interval | null;
  readonly notices: readonly Notice[];
}

/**
 * Sky, air and wind of a test day as a person judged or measured them.
 *
 * @param water_C measured inlet temperature; undefined when there is none
 * @param path    of the day in the project file
 */
export function dayConditions(
  project: Project,
  day: TestDay,
  water_C: number | undefined,
  path: string,
): DayConditions {
  const w = day.weather ?? {};
  const notices: Notice[] = [];
  const refuse = (field: string, message: string, remedy: string): void => {
    notices.push({
      code: 'weather-impossible',
      severity: 'unsure',
      path: `${path}/weather/${field}`,
      message,
      remedy,
    });
  };
  let air_C = w.air_C;
  if (air_C !== undefined && !(air_C > -50 && air_C < HOTTEST_AIR_C)) {
    refuse(
      'air_C',
      `${air_C} °C is no air for a test day; it is not used.`,
      'See whether it was read in °F, or in the sun.',
    );
    air_C = undefined;
  }
  let sun_Wm2 = w.irradiance_Wm2;
  if (sun_Wm2 !== undefined && sun_Wm2 > MOST_SUN_WM2) {
    refuse(
      'irradiance_Wm2',
      `${sun_Wm2} W/m² is more than the sun gives; the sky in words is used.`,
      'See whether the meter shows lux or Btu.',
    );
    sun_Wm2 = undefined;
  }
  const wind = windOf(w, refuse);
  const dew = dewOf(w, air_C);
  const options: MomentOptions = {
    at: day.at,
    ...(water_C === undefined ? {} : { water_C }),
    ...(air_C === undefined ? {} : { air_C }),
    ...(dew === undefined ? {} : { dewPoint_C: dew }),
    ...(wind === null ? {} : { wind_ms: wind.value }),
    ...(sun_Wm2 !== undefined ? { sky: sun_Wm2 } : w.sky === undefined ? {} : { sky: w.sky }),
  };
  let now = resolveMoment(project, options);
  if (wind?.beside) now = { ...now, exposure: { ratio: 1, low: 1 - WIND_LIMIT, high: 1 + WIND_LIMIT } };
  if (sun_Wm2 !== undefined) now = { ...now, skyLow: 1 - IRRADIANCE_LIMIT, skyHigh: 1 + IRRADIANCE_LIMIT };
  const row = typeof options.sky === 'number' ? undefined : findSky(now.moment.sky);
  const around = (value: number | undefined, half: number): Interval | null =>
    value === undefined ? null : { low: value - half, high: value + half };
  return {
    options,
    now,
    wind_ms: wind === null || wind.beside ? null : wind.interval,
    air_C: around(air_C, AIR_LIMIT_K),
    dewPoint_C: around(dew, DEW_LIMIT_K),
    cloud: row ? { low: row.cloudLow, high: row.cloudHigh } : null,
    notices,
  };
}

interface WindSaid {
  value: number;
  interval: Interval;
  /** Measured beside the tubes, so that exposure no longer matters. */
  beside: boolean;
}

function windOf(
  w: NonNullable<TestDay['weather']>,
  refuse: (field: string, message: string, remedy: string) => void,
): WindSaid | null {
  if (w.wind_ms !== undefined && w.wind_ms <= MOST_WIND_MS) {
    const v = w.wind_ms;
    return {
      value: v,
      interval: { low: v * (1 - WIND_LIMIT), high: v * (1 + WIND_LIMIT) },
      beside: w.windAt === 'collector',
    };
  }
  if (w.wind_ms !== undefined)
    refuse(
      'wind_ms',
      `${w.wind_ms} m/s is a hurricane; it is not used.`,
      'See whether it was read in mph or km/h.',
    );
  if (w.beaufort === undefined) return null;
  const row = beaufortScale.find((b) => b.force === w.beaufort) ?? beaufortScale[beaufortScale.length - 1];
  return {
    value: (row.low_ms + row.high_ms) / 2,
    interval: { low: row.low_ms, high: row.high_ms },
    beside: false,
  };
}

function dewOf(w: NonNullable<TestDay['weather']>, air_C: number | undefined): number | undefined {
  if (w.dewPoint_C !== undefined && w.dewPoint_C > -60 && w.dewPoint_C < 40) return w.dewPoint_C;
  if (w.humidity === undefined || air_C === undefined) return undefined;
  return dewPointFromHumidity(air_C, Math.max(0.02, w.humidity));
}
