import { stepStart_ms, type WeatherSeries } from '@sunlap/engine/weather/series';
import type { Site } from '@sunlap/project/schema/site';
import { clockStretches, knowsTimeZone } from '../heat/local-time';

/** Where a clock hangs. */
export type ClockPlace = Pick<Site, 'timeZone' | 'longitude_deg'>;

/**
 * A typical year is laid on 2001; its clock is that of 2029, which has the same weekdays and today's rules of
 * summer time as far as the running system knows them.
 */
const AS_TODAY_MS = Date.UTC(2029, 0, 1) - Date.UTC(2001, 0, 1);

/**
 * The clock on the wall at the middle of every step, as if it were universal time [ms].
 *
 * Weather and sun of another place come with its own noon: whole hours between the two longitudes are taken off,
 * so that the sun stands over the wall clock as it does at home.
 *
 * @param place left out or in a zone that nobody knows: the weather's own standard time
 */
export function stepClock_ms(series: WeatherSeries, place?: ClockPlace): Float64Array {
  const n = series.length;
  const half = series.step_s * 500;
  const out = new Float64Array(n);
  if (!place || !knowsTimeZone(place.timeZone)) {
    const own = series.utcOffset_h * 3_600_000 + half;
    for (let i = 0; i < n; i++) out[i] = stepStart_ms(series, i) + own;
    return out;
  }
  const today = series.typical ? AS_TODAY_MS : 0;
  const away = away_h(series.place.longitude_deg - place.longitude_deg) * 3_600_000;
  const middle = (i: number): number => stepStart_ms(series, i) + half;
  const stretches = clockStretches(place.timeZone, middle(0) + away + today, middle(n - 1) + away + today);
  let k = 0;
  for (let i = 0; i < n; i++) {
    const home = middle(i) + away;
    while (k + 1 < stretches.length && stretches[k + 1].from_ms <= home + today) k++;
    out[i] = home + stretches[k].offset_ms;
  }
  return out;
}

/** Whole hours by which the sun is earlier at the weather's place than at home. */
function away_h(east_deg: number): number {
  const turned = ((((east_deg + 180) % 360) + 360) % 360) - 180;
  return Math.round(turned / 15);
}
