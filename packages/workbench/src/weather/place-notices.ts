import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Place } from '@sunlap/engine/sun/place';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import { say } from './reading';

/** A file from farther away than this says little about the yard [km]; judgement. */
const FAR_KM = 250;
const MILES_PER_KM = 0.621371;
const EARTH_KM = 6371;
/** Latitudes of so little are in no hemisphere: summer and winter hardly differ there [°]; judgement. */
const NO_SEASONS_DEG = 5;

/**
 * Great-circle distance on a sphere of 6371 km (haversine).
 *
 * @returns [km]
 * @example distance_km({ latitude_deg: 0, longitude_deg: 0 }, { latitude_deg: 0, longitude_deg: 90 }) // 10007.5
 */
export function distance_km(
  a: Pick<Place, 'latitude_deg' | 'longitude_deg'>,
  b: Pick<Place, 'latitude_deg' | 'longitude_deg'>,
): number {
  const rad = Math.PI / 180;
  const dLat = (b.latitude_deg - a.latitude_deg) * rad;
  const dLon = (b.longitude_deg - a.longitude_deg) * rad;
  const h =
    Math.sin(dLat / 2) ** 2 +
    Math.cos(a.latitude_deg * rad) * Math.cos(b.latitude_deg * rad) * Math.sin(dLon / 2) ** 2;
  return 2 * EARTH_KM * Math.asin(Math.min(1, Math.sqrt(h)));
}

/**
 * What is odd about hours from a file as the weather of a yard: another half of the earth, far away, another clock.
 *
 * @param offset_h the yard's standard time less universal time [h]
 */
export function placeNotices(
  series: Pick<WeatherSeries, 'name' | 'place' | 'utcOffset_h'>,
  site: Place,
  offset_h: number,
): Notice[] {
  const out: Notice[] = [];
  const { place } = series;
  const km = distance_km(place, site);
  const far = `${thousands(km)} km (${thousands(km * MILES_PER_KM)} mi) from the yard`;
  const mend =
    'Take a file of a place near the yard, or mend the yard’s latitude and longitude if those are wrong.';
  const seasons = (p: Place): boolean => Math.abs(p.latitude_deg) > NO_SEASONS_DEG;
  if (place.latitude_deg * site.latitude_deg < 0 && seasons(place) && seasons(site))
    out.push(
      say(
        'weather-other-hemisphere',
        'unsure',
        `The weather of “${series.name}” is of the other half of the earth, ${far}: its summer is the yard’s winter.`,
        mend,
      ),
    );
  else if (km > FAR_KM)
    out.push(say('weather-far', 'unsure', `The weather of “${series.name}” is of a place ${far}.`, mend));
  const ahead_h = offset_h - series.utcOffset_h;
  if (Math.abs(ahead_h) > 0.01)
    out.push(
      say(
        'weather-other-zone',
        km > FAR_KM ? 'unsure' : 'info',
        `The yard’s clock is ${Math.abs(ahead_h)} h ${ahead_h > 0 ? 'ahead of' : 'behind'} the clock of the weather file; its hours are told by the yard’s.`,
        'If both places share one clock, mend the yard’s time zone.',
      ),
    );
  return out;
}

const thousands = (n: number): string => String(Math.round(n)).replace(/\B(?=(\d{3})+$)/g, ',');
