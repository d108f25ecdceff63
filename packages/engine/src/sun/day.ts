import type { Place, RefractingAir } from './place';
import { type SunPlace, sunPlace } from './position';

const MS_PER_DAY = 86_400_000;
const MS_PER_DEGREE = MS_PER_DAY / 360;

/** One turn of the sun at a place, from solar midnight to solar midnight. */
export interface SunDay {
  readonly noon_ms: number;
  /** Apparent elevation passes zero upward; null when it does not in this turn. */
  readonly sunrise_ms: number | null;
  readonly sunset_ms: number | null;
  readonly alwaysUp: boolean;
  readonly alwaysDown: boolean;
  /** Time with the sun up [ms]. */
  readonly length_ms: number;
}

/**
 * Instant at which the sun crosses the meridian nearest to a given instant. At the poles it is the moment
 * when the hour angle of the given longitude is zero.
 *
 * @param near_ms  instant [ms since 1970]; the noon within half a day of it is returned
 * @param place    latitude, longitude [deg], elevation [m]
 */
export function solarNoon_ms(near_ms: number, place: Place): number {
  let t = near_ms;
  for (let i = 0; i < 4; i += 1) t -= sunPlace(t, place).hourAngle_deg * MS_PER_DEGREE;
  return t;
}

/**
 * Sunrise, noon and sunset as this program counts them: apparent elevation of the sun's centre above zero.
 * (Almanacs say the upper rim, some three minutes earlier.)
 *
 * @param near_ms  any instant within half a day of the noon that is meant [ms since 1970]
 * @param place    latitude, longitude [deg], elevation [m]
 * @param air      air that refracts; standard when not given
 */
export function sunDay(near_ms: number, place: Place, air?: RefractingAir): SunDay {
  const noon = solarNoon_ms(near_ms, place);
  const before = noon - MS_PER_DAY / 2;
  const after = noon + MS_PER_DAY / 2;
  const isUp = (t: number) => sunPlace(t, place, air).zenith_deg < 90;
  const noonUp = isUp(noon);
  const beforeUp = isUp(before);
  const afterUp = isUp(after);
  // Apart from a pole the sun only climbs before noon and only sinks after it; at a pole it does one all day.
  const rise = beforeUp === noonUp ? null : crossing(before, noon, isUp);
  const fall = noonUp === afterUp ? null : crossing(noon, after, isUp);
  const changes = [rise, fall].filter((t) => t !== null);
  let length = 0;
  let from = before;
  let up = beforeUp;
  for (const t of [...changes, after]) {
    if (up) length += t - from;
    from = t;
    up = !up;
  }
  const sunrise = (!beforeUp ? rise : null) ?? (!noonUp ? fall : null);
  const sunset = (noonUp ? fall : null) ?? (beforeUp ? rise : null);
  return {
    noon_ms: noon,
    sunrise_ms: sunrise,
    sunset_ms: sunset,
    alwaysUp: changes.length === 0 && noonUp,
    alwaysDown: changes.length === 0 && !noonUp,
    length_ms: length,
  };
}

/** The sun that stands for an interval over which light was averaged. */
export interface IntervalSun {
  readonly sun: SunPlace;
  /** Instant of that position [ms since 1970]. */
  readonly at_ms: number;
  /** Share of the interval with the sun up [–], 0…1. */
  readonly sunlitShare: number;
}

/**
 * Sun at the middle of an interval, or of its sunlit part when the sun rises or sets within it.
 * With the sun down throughout, the position is that of the middle and the sunlit share is 0.
 *
 * @param start_ms  [ms since 1970]
 * @param end_ms    [ms since 1970], > start, at most half a day later
 * @param place     latitude, longitude [deg], elevation [m]
 * @param air       air that refracts; standard when not given
 */
export function intervalSun(
  start_ms: number,
  end_ms: number,
  place: Place,
  air?: RefractingAir,
): IntervalSun {
  const isUp = (t: number) => sunPlace(t, place, air).zenith_deg < 90;
  const middle = (start_ms + end_ms) / 2;
  const there = sunPlace(middle, place, air);
  // elevation changes by at most 15° an hour, refraction by under 1°: far from the horizon nothing is cut
  const reach = ((end_ms - start_ms) / 2) * (15 / 3_600_000) + 1;
  if (Math.abs(90 - there.zenith_deg) > reach)
    return { sun: there, at_ms: middle, sunlitShare: there.zenith_deg < 90 ? 1 : 0 };
  const startUp = isUp(start_ms);
  const endUp = isUp(end_ms);
  let from = start_ms;
  let to = end_ms;
  if (startUp !== endUp) {
    const edge = crossing(start_ms, end_ms, isUp);
    if (startUp) to = edge;
    else from = edge;
  } else if (!startUp) {
    // a day shorter than the interval, near the polar night
    const noon = solarNoon_ms(middle, place);
    if (noon > start_ms && noon < end_ms && isUp(noon)) {
      from = crossing(start_ms, noon, isUp);
      to = crossing(noon, end_ms, isUp);
    } else return { sun: there, at_ms: middle, sunlitShare: 0 };
  }
  const at = (from + to) / 2;
  return { sun: sunPlace(at, place, air), at_ms: at, sunlitShare: (to - from) / (end_ms - start_ms) };
}

/**
 * {@link intervalSun} that remembers its answers: a season asks for the same hours again and again.
 *
 * @param place  latitude, longitude [deg], elevation [m]
 * @param air    air that refracts, one for the whole memory; standard when not given
 */
export function rememberIntervalSun(
  place: Place,
  air?: RefractingAir,
): (start_ms: number, end_ms: number) => IntervalSun {
  const known = new Map<number, IntervalSun & { readonly end_ms: number }>();
  return (start_ms, end_ms) => {
    const hit = known.get(start_ms);
    if (hit && hit.end_ms === end_ms) return hit;
    const fresh = { ...intervalSun(start_ms, end_ms, place, air), end_ms };
    known.set(start_ms, fresh);
    return fresh;
  };
}

/** Bisection to 100 ms: light near the horizon does not deserve more. */
function crossing(a_ms: number, b_ms: number, isUp: (t: number) => boolean): number {
  let a = a_ms;
  let b = b_ms;
  const startUp = isUp(a);
  while (b - a > 100) {
    const m = (a + b) / 2;
    if (isUp(m) === startUp) a = m;
    else b = m;
  }
  return (a + b) / 2;
}
