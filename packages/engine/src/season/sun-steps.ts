import { pressureAtElevation } from '../fluids/moist-air';
import { extraterrestrialAtDistance_Wm2 } from '../sun/extraterrestrial';
import type { Place } from '../sun/place';
import { refraction_deg, sunPlace } from '../sun/position';
import { lightInterval_ms, stepStart_ms, type WeatherSeries } from '../weather/series';

const DAY_MS = 86_400_000;
const RAD = Math.PI / 180;
/** Parallax of the sun [deg]. */
const PARALLAX_DEG = 8.794 / 3600;

/** The sun of every step of a series: at the middle of the stretch its light stands for, or of the sunlit part. */
export interface SunSteps {
  /** With refraction [deg]; 90 or more when the sun is down. */
  readonly zenith_deg: Float64Array;
  readonly azimuth_deg: Float64Array;
  /** Share of the step with the sun up [–]. */
  readonly sunlit: Float64Array;
  /** Facing the sun above the air [W/m²]. */
  readonly extraterrestrial_Wm2: Float64Array;
}

/** Slowly changing parts of the sun's place, known once a day and straight between. */
export interface SunDays {
  readonly place: Place;
  readonly pressure_Pa: number;
  readonly start_ms: number;
  readonly declination_deg: Float64Array;
  /** Hour angle less that of the mean clock at the meridian of Greenwich [deg]. */
  readonly offset_deg: Float64Array;
  readonly distance_au: Float64Array;
}

/**
 * The ephemeris once a day: declination, equation of time and distance go along straight lines from day to day
 * (declination bends by 0.007° a day² at most, so a line is within 0.001°).
 *
 * @param place    latitude, longitude [deg], elevation [m]
 * @param start_ms universal time
 * @param end_ms   universal time
 */
export function sunDays(place: Place, start_ms: number, end_ms: number): SunDays {
  const first = Math.floor(start_ms / DAY_MS) - 1;
  const count = Math.max(3, Math.ceil(end_ms / DAY_MS) - first + 2);
  const declination = new Float64Array(count);
  const offset = new Float64Array(count);
  const distance = new Float64Array(count);
  for (let d = 0; d < count; d++) {
    const t = (first + d) * DAY_MS;
    const sun = sunPlace(t, place);
    declination[d] = sun.declination_deg;
    distance[d] = sun.distance_au;
    // midnight of Greenwich: the mean sun stands at −180° there
    const away = sun.hourAngle_deg - place.longitude_deg + 180;
    offset[d] = away - 360 * Math.round(away / 360);
  }
  return {
    place,
    pressure_Pa: pressureAtElevation(place.elevation_m),
    start_ms: first * DAY_MS,
    declination_deg: declination,
    offset_deg: offset,
    distance_au: distance,
  };
}

/** Where the sun is; filled by {@link sunAt}. */
export interface SunNow {
  zenith_deg: number;
  azimuth_deg: number;
  hourAngle_deg: number;
  distance_au: number;
}

/**
 * Place of the sun at an instant within the days known: within 0.003° of the full ephemeris.
 *
 * @param days   from {@link sunDays}
 * @param utc_ms inside their stretch
 * @param out    receives the place
 */
export function sunAt(days: SunDays, utc_ms: number, out: SunNow): void {
  const x = (utc_ms - days.start_ms) / DAY_MS;
  const d = Math.min(days.declination_deg.length - 2, Math.max(0, Math.floor(x)));
  const f = x - d;
  const line = (a: Float64Array): number => a[d] + (a[d + 1] - a[d]) * f;
  const dec = line(days.declination_deg) * RAD;
  const turn = line(days.offset_deg) + 360 * (x - Math.floor(x)) - 180 + days.place.longitude_deg;
  const ha = (turn - 360 * Math.round(turn / 360)) * RAD;
  const phi = days.place.latitude_deg * RAD;
  const east = -Math.cos(dec) * Math.sin(ha);
  const north = Math.sin(dec) * Math.cos(phi) - Math.cos(dec) * Math.cos(ha) * Math.sin(phi);
  const up = Math.sin(dec) * Math.sin(phi) + Math.cos(dec) * Math.cos(ha) * Math.cos(phi);
  const level = Math.hypot(east, north);
  const distance = line(days.distance_au);
  const zenith = Math.atan2(level, up) / RAD + (PARALLAX_DEG / distance) * level;
  out.zenith_deg = zenith - refraction_deg(90 - zenith, days.pressure_Pa, 10);
  out.azimuth_deg = level < 1e-12 ? 180 : (Math.atan2(east, north) / RAD + 360) % 360;
  out.hourAngle_deg = ha / RAD;
  out.distance_au = distance;
}

/**
 * Sun of every step. Where it rises or sets within a step, the middle of the sunlit part counts.
 *
 * @param series weather; a source in solar time is shifted by the equation of time of the day
 */
export function sunSteps(series: WeatherSeries): SunSteps {
  const n = series.length;
  const half = (series.step_s * 1000) / 2;
  const days = sunDays(series.place, stepStart_ms(series, 0) - DAY_MS, stepStart_ms(series, n) + DAY_MS);
  const out: SunSteps = {
    zenith_deg: new Float64Array(n),
    azimuth_deg: new Float64Array(n),
    sunlit: new Float64Array(n),
    extraterrestrial_Wm2: new Float64Array(n),
  };
  const now: SunNow = { zenith_deg: 0, azimuth_deg: 0, hourAngle_deg: 0, distance_au: 1 };
  const up = (t: number): boolean => {
    sunAt(days, t, now);
    return now.zenith_deg < 90;
  };
  // elevation changes by at most 15° an hour: far from the horizon nothing is cut
  const reach = (half * 15) / 3_600_000 + 1;
  for (let i = 0; i < n; i++) {
    const [start, end] = lightInterval_ms(series, i, series.solarTime ? equationOfTime(days, series, i) : 0);
    let middle = (start + end) / 2;
    let sunlit = up(middle) ? 1 : 0;
    if (Math.abs(90 - now.zenith_deg) <= reach) {
      const [from, to] = sunlitStretch(start, end, middle, now.hourAngle_deg, up);
      sunlit = (to - from) / (end - start);
      if (sunlit > 0) middle = (from + to) / 2;
      sunAt(days, middle, now);
    }
    out.zenith_deg[i] = now.zenith_deg;
    out.azimuth_deg[i] = now.azimuth_deg;
    out.sunlit[i] = sunlit;
    out.extraterrestrial_Wm2[i] = extraterrestrialAtDistance_Wm2(now.distance_au);
  }
  return out;
}

function sunlitStretch(
  start: number,
  end: number,
  middle: number,
  hourAngle_deg: number,
  up: (t: number) => boolean,
): readonly [number, number] {
  const startUp = up(start);
  const endUp = up(end);
  if (startUp && endUp) return [start, end];
  if (startUp !== endUp) {
    const edge = crossing(start, end, up);
    return startUp ? [start, edge] : [edge, end];
  }
  // a day shorter than the step, near the polar night
  const noon = middle - (hourAngle_deg / 360) * DAY_MS;
  if (noon > start && noon < end && up(noon)) return [crossing(start, noon, up), crossing(noon, end, up)];
  return [start, start];
}

/** Bisection to half a second. */
function crossing(a_ms: number, b_ms: number, up: (t: number) => boolean): number {
  let a = a_ms;
  let b = b_ms;
  const startUp = up(a);
  while (b - a > 500) {
    const m = (a + b) / 2;
    if (up(m) === startUp) a = m;
    else b = m;
  }
  return (a + b) / 2;
}

function equationOfTime(days: SunDays, series: WeatherSeries, i: number): number {
  const d = Math.floor((stepStart_ms(series, i) - days.start_ms) / DAY_MS);
  return days.offset_deg[Math.min(days.offset_deg.length - 1, Math.max(0, d))] * 4;
}
