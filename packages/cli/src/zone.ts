import { nearestPlaces } from '@sunlap/data/places';
import { standardOffset_h } from '@sunlap/workbench/season/site-weather';

/** A known place farther away than this may lie in another zone [km]; judgement. */
const NEAR_KM = 250;
/** A zone's standard time is farther than this from the sun's only by a mistake of the place [h]; judgement. */
const FAR_FROM_SUN_H = 3;

/** A time zone, and in words where it comes from. */
export interface GuessedZone {
  timeZone: string;
  because: string;
}

/**
 * Time zone of a point: that of a well-known place near by, else the whole hours that belong to its longitude,
 * without summer time. Borders are not known, so it is a guess that the person should look at.
 *
 * @example zoneOf(-34, 151).timeZone // 'Australia/Sydney'
 * @example zoneOf(0, -150).timeZone // 'Etc/GMT+10': ten hours west; the sign of these names is turned round
 */
export function zoneOf(latitude_deg: number, longitude_deg: number): GuessedZone {
  const [{ place, distance_km }] = nearestPlaces(latitude_deg, longitude_deg, 1);
  const sun_h = longitude_deg / 15;
  if (
    distance_km <= NEAR_KM &&
    Math.abs(standardOffset_h(place.timeZone) - sun_h) <= FAR_FROM_SUN_H &&
    place.latitude_deg * latitude_deg >= 0
  )
    return {
      timeZone: place.timeZone,
      because: `that of ${place.name}, ${Math.round(distance_km)} km away`,
    };
  const hours = Math.max(-12, Math.min(12, Math.round(sun_h)));
  const sign = hours > 0 ? '-' : '+';
  return {
    timeZone: hours === 0 ? 'Etc/GMT' : `Etc/GMT${sign}${Math.abs(hours)}`,
    because: `${Math.abs(hours)} h ${hours < 0 ? 'behind' : 'ahead of'} universal time by the longitude, without summer time`,
  };
}
