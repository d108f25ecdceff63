import { SOLAR_CONSTANT_WM2 } from '../sun/extraterrestrial';
import type { Place } from '../sun/place';
import { sunPlace } from '../sun/position';

const RAD = Math.PI / 180;
const DAY_MS = 86_400_000;

/** One turn of the sun about its noon: enough for an hourly sun without asking the ephemeris each hour. */
export interface SolarDay {
  readonly noon_ms: number;
  readonly sinSin: number;
  readonly cosCos: number;
  /** Hour angle of sunset [rad], 0 in the polar night, π in the polar day. */
  readonly sunset: number;
  readonly extraterrestrialNormal_Wm2: number;
  /** Sunlight above the air on the level over the turn [J/m²]. */
  readonly extraterrestrial_Jm2: number;
  /** Sun ahead of the mean clock [min]. */
  readonly equationOfTime_min: number;
}

/** Days of the place that was asked for last: one file is looked at several times. */
const met = { latitude_deg: Number.NaN, longitude_deg: Number.NaN, elevation_m: Number.NaN };
const known = new Map<number, SolarDay>();
const MOST_KNOWN = 4000;

/**
 * Solar days of a stretch of time: true declination, distance and noon of each day from the ephemeris once a day,
 * the hours by the hour angle. Within 0.2° of the exact sun at midnight and 0.05° around noon.
 *
 * @param place    latitude, longitude [°]
 * @param start_ms universal time
 * @param end_ms   universal time
 * @returns the days whose turns cover the stretch
 */
export function solarDays(place: Place, start_ms: number, end_ms: number): SolarDay[] {
  const { latitude_deg, longitude_deg, elevation_m } = place;
  const same =
    met.latitude_deg === latitude_deg &&
    met.longitude_deg === longitude_deg &&
    met.elevation_m === elevation_m;
  if (!same || known.size > MOST_KNOWN) known.clear();
  Object.assign(met, { latitude_deg, longitude_deg, elevation_m });
  const days: SolarDay[] = [];
  // Mean noon of the local meridian at or before the start.
  const meanNoon = DAY_MS / 2 - (longitude_deg / 360) * DAY_MS;
  const first = Math.floor((start_ms - meanNoon + DAY_MS / 2) / DAY_MS);
  for (let k = first; meanNoon + k * DAY_MS - DAY_MS / 2 < end_ms; k++) {
    const day = known.get(k) ?? solarDay(place, meanNoon + k * DAY_MS);
    known.set(k, day);
    days.push(day);
  }
  return days;
}

/** @param mean_ms mean noon of the local meridian, universal time */
function solarDay(place: Place, mean_ms: number): SolarDay {
  const sun = sunPlace(mean_ms, place);
  const sinSin = Math.sin(place.latitude_deg * RAD) * Math.sin(sun.declination_deg * RAD);
  const cosCos = Math.max(1e-12, Math.cos(place.latitude_deg * RAD) * Math.cos(sun.declination_deg * RAD));
  const sunset = Math.acos(Math.min(1, Math.max(-1, -sinSin / cosCos)));
  const normal = SOLAR_CONSTANT_WM2 / sun.distance_au ** 2;
  return {
    noon_ms: mean_ms - (sun.hourAngle_deg / 360) * DAY_MS,
    sinSin,
    cosCos,
    sunset,
    extraterrestrialNormal_Wm2: normal,
    extraterrestrial_Jm2: Math.max(
      0,
      (86_400 / Math.PI) * normal * (cosCos * Math.sin(sunset) + sunset * sinSin),
    ),
    equationOfTime_min: (sun.hourAngle_deg / 360) * 1440,
  };
}

/** Cosine of the sun's true zenith angle at an instant near a solar day's noon [–], negative at night. */
export function cosZenithAt(day: SolarDay, utc_ms: number): number {
  return day.sinSin + day.cosCos * Math.cos(((utc_ms - day.noon_ms) / DAY_MS) * 2 * Math.PI);
}

/** Index of the solar day an instant belongs to: the nearest noon. */
export function solarDayOf(days: readonly SolarDay[], utc_ms: number): number {
  const guess = Math.round((utc_ms - days[0].noon_ms) / DAY_MS);
  return Math.min(days.length - 1, Math.max(0, guess));
}

/**
 * Cosine of the zenith angle that stands for an interval: at the middle of its sunlit part; 0 at night.
 *
 * @returns cosine and the share of the interval with the sun up [–]
 */
export function intervalCosZenith(
  days: readonly SolarDay[],
  start_ms: number,
  end_ms: number,
): { cosZenith: number; sunlit: number } {
  const day = days[solarDayOf(days, (start_ms + end_ms) / 2)];
  const half = (day.sunset / (2 * Math.PI)) * DAY_MS;
  const from = Math.max(start_ms, day.noon_ms - half);
  const to = Math.min(end_ms, day.noon_ms + half);
  if (!(to > from)) return { cosZenith: 0, sunlit: 0 };
  return {
    cosZenith: Math.max(0, cosZenithAt(day, (from + to) / 2)),
    sunlit: (to - from) / (end_ms - start_ms),
  };
}
