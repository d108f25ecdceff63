import type { ClimateMonth, ClimateTable } from '@sunlap/engine/weather/climate-table';
import { type ClimateTexts, climateMonths } from './climate-rows';
import table from './places.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** A well-known place with rounded monthly normals, written from memory. Illustrative. */
export interface KnownPlace extends Provenance {
  id: string;
  name: string;
  continent: 'AF' | 'AS' | 'EU' | 'NA' | 'OC' | 'SA';
  latitude_deg: number;
  longitude_deg: number;
  elevation_m: number;
  /** IANA name. */
  timeZone: string;
  /** Standard time minus universal time [h]. */
  offset_h: number;
  months: readonly ClimateMonth[];
}

export const places: readonly KnownPlace[] = readTable<KnownPlace & ClimateTexts>(
  table.about,
  table.table,
).map(({ high, low, sunshine, humidity, wind, ...row }) => ({
  ...row,
  months: climateMonths({ high, low, sunshine, humidity, wind }),
}));
export const findPlace = finder(places, (row) => row.id);

/** Lower case without accents, so that “sao” finds São Paulo. */
function plain(text: string): string {
  return text.normalize('NFD').replace(/\p{M}/gu, '').toLowerCase();
}

/**
 * Places whose name holds every typed word's beginning, those whose name starts with the text first.
 *
 * @example searchPlaces('sao p') // [São Paulo]
 */
export function searchPlaces(text: string, limit = 8): readonly KnownPlace[] {
  const words = plain(text)
    .split(/[\s,]+/)
    .filter((word) => word !== '');
  if (words.length === 0) return [];
  const rank = (place: KnownPlace): number => {
    const name = plain(place.name);
    const parts = name.split(/[\s,.-]+/);
    if (!words.every((word) => parts.some((part) => part.startsWith(word)))) return Number.POSITIVE_INFINITY;
    return name.startsWith(words.join(' ')) ? 0 : parts[0].startsWith(words[0]) ? 1 : 2;
  };
  return places
    .map((place) => ({ place, rank: rank(place) }))
    .filter((one) => one.rank < Number.POSITIVE_INFINITY)
    .sort((a, b) => a.rank - b.rank || a.place.name.localeCompare(b.place.name))
    .slice(0, limit)
    .map((one) => one.place);
}

/** A place and how far it is along the great circle [km]. */
export interface NearPlace {
  place: KnownPlace;
  distance_km: number;
}

/**
 * Places nearest to a point, nearest first.
 *
 * @example nearestPlaces(32.2, -110.9, 1)[0].place.id // phoenix
 */
export function nearestPlaces(latitude_deg: number, longitude_deg: number, limit = 3): readonly NearPlace[] {
  const rad = Math.PI / 180;
  return places
    .map((place) => {
      const dLat = (place.latitude_deg - latitude_deg) * rad;
      const dLon = (place.longitude_deg - longitude_deg) * rad;
      const a =
        Math.sin(dLat / 2) ** 2 +
        Math.cos(latitude_deg * rad) * Math.cos(place.latitude_deg * rad) * Math.sin(dLon / 2) ** 2;
      return { place, distance_km: 2 * 6371 * Math.asin(Math.min(1, Math.sqrt(a))) };
    })
    .sort((a, b) => a.distance_km - b.distance_km)
    .slice(0, limit);
}

/** The engine's climate table of a known place. */
export function climateTableOf(place: KnownPlace): ClimateTable {
  const { name, latitude_deg, longitude_deg, elevation_m, offset_h, months } = place;
  return { name, place: { latitude_deg, longitude_deg, elevation_m }, utcOffset_h: offset_h, months };
}
