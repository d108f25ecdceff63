import { pressureAtElevation } from '@sunlap/engine/fluids/moist-air';
import { type SunNow, sunAt, sunDays } from '@sunlap/engine/season/sun-steps';
import { absoluteAirMass } from '@sunlap/engine/sun/air-mass';
import { clearSkyIneichen } from '@sunlap/engine/sun/clear-sky';
import { extraterrestrialAtDistance_Wm2 } from '@sunlap/engine/sun/extraterrestrial';
import { splitGlobal } from '@sunlap/engine/sun/split';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { utcOf, wallClockAt } from '../heat/local-time';
import { standardOffset_h } from '../season/site-weather';
import type { ForecastDay } from './forecast';

/** A day's lowest and highest temperatures come at about these hours by the clock [h]; common practice. */
const COLDEST_H = 6;
const WARMEST_H = 15;
const TURBIDITY = 3;
const HOUR_MS = 3_600_000;
const DAY_MS = 24 * HOUR_MS;

/** Which end of a forecast's intervals is taken: 0 the middle, −1 and 1 its ends. */
export interface ForecastLean {
  readonly sky?: -1 | 0 | 1;
  readonly wind?: -1 | 0 | 1;
  readonly air_K?: number;
  readonly dew_K?: number;
}

/**
 * Hours from a forecast, by the wall clock: from the hour of `start` to the last midnight. A day on which the clock
 * is put forward or back has an hour less or more.
 *
 * @param days     forecast, the first is today
 * @param start_ms now, on a full hour [ms since 1970]
 */
export function forecastHours(
  project: Pick<Project, 'site'>,
  days: readonly ForecastDay[],
  start_ms: number,
  lean: ForecastLean = {},
): WeatherSeries {
  const { site } = project;
  const clock_ms = (t: number): number => wallClockAt(t, site.timeZone);
  const midnight = Math.floor(clock_ms(start_ms) / DAY_MS) * DAY_MS;
  const last = new Date(midnight + days.length * DAY_MS).toISOString().slice(0, 10);
  const n = Math.max(1, Math.round((utcOf(`${last}T00:00`, site.timeZone) - start_ms) / HOUR_MS));
  const column = (): Float64Array => new Float64Array(n);
  const [air, dew, wind, cloud] = [column(), column(), column(), column()];
  const [global, direct, diffuse, pressure] = [column(), column(), column(), column()];
  const p = pressureAtElevation(site.elevation_m);
  const suns = sunDays(site, start_ms, start_ms + n * HOUR_MS);
  const now: SunNow = { zenith_deg: 0, azimuth_deg: 0, hourAngle_deg: 0, distance_au: 1 };
  for (let i = 0; i < n; i++) {
    const middle_ms = start_ms + (i + 0.5) * HOUR_MS;
    const hour = (clock_ms(middle_ms) - midnight) / HOUR_MS;
    const d = Math.min(days.length - 1, Math.floor(hour / 24));
    const day = days[d];
    air[i] = airAt(days, hour) + (lean.air_K ?? 0);
    dew[i] = Math.min(air[i], day.low_C + day.dewOffset_K + (lean.dew_K ?? 0));
    wind[i] = lean.wind === -1 ? day.windLow_ms : lean.wind === 1 ? day.windHigh_ms : day.wind_ms;
    cloud[i] = day.sky.cloud;
    pressure[i] = p;
    sunAt(suns, middle_ms, now);
    if (!(now.zenith_deg < 89)) continue;
    const above = extraterrestrialAtDistance_Wm2(now.distance_au);
    const mass = absoluteAirMass(now.zenith_deg, p);
    const turbidity = site.linkeTurbidity ?? TURBIDITY;
    const clear = clearSkyIneichen(now.zenith_deg, mass, turbidity, site.elevation_m, above);
    const share = lean.sky === -1 ? day.sky.low : lean.sky === 1 ? day.sky.high : day.sky.share;
    global[i] = clear.globalHorizontal_Wm2 * share;
    const split = share > 0.97 && share <= 1.03 ? clear : splitGlobal(global[i], now.zenith_deg, above);
    direct[i] = split.directNormal_Wm2 * (split === clear ? share : 1);
    diffuse[i] = split.diffuseHorizontal_Wm2 * (split === clear ? share : 1);
  }
  return {
    name: 'Forecast',
    place: site,
    utcOffset_h: standardOffset_h(site.timeZone),
    start_ms,
    step_s: 3600,
    length: n,
    typical: false,
    sunShift_s: 0,
    solarTime: false,
    windHeight_m: 10,
    air_C: air,
    dewPoint_C: dew.map((t) => Math.max(-40, t)),
    pressure_Pa: pressure,
    wind_ms: wind,
    global_Wm2: global,
    directNormal_Wm2: direct,
    diffuse_Wm2: diffuse,
    cloud,
    longWave_Wm2: null,
    rain_kgm2: null,
    origin: {
      air_C: 'computed',
      dewPoint_C: 'guessed',
      pressure_Pa: 'computed',
      wind_ms: 'guessed',
      global_Wm2: 'computed',
      directNormal_Wm2: 'computed',
      diffuse_Wm2: 'computed',
      cloud: 'guessed',
    },
    gaps: { filled: 0, longest: 0 },
  };
}

/** Half cosines from each day's low in the morning to its high in the afternoon and down to the next low. */
function airAt(days: readonly ForecastDay[], hour: number): number {
  const d = Math.min(days.length - 1, Math.floor(hour / 24));
  const h = hour - 24 * d;
  const blend = (a: number, b: number, x: number): number => a + ((b - a) * (1 - Math.cos(Math.PI * x))) / 2;
  const night = 24 - WARMEST_H + COLDEST_H;
  if (h < COLDEST_H) {
    const before = days[Math.max(0, d - 1)];
    return blend(before.high_C, days[d].low_C, (h + 24 - WARMEST_H) / night);
  }
  if (h <= WARMEST_H) return blend(days[d].low_C, days[d].high_C, (h - COLDEST_H) / (WARMEST_H - COLDEST_H));
  const next = days[Math.min(days.length - 1, d + 1)];
  return blend(days[d].high_C, next.low_C, (h - WARMEST_H) / night);
}
