import { findClimateType } from '@sunlap/data/climate-types';
import { findPlace, nearestPlaces } from '@sunlap/data/places';
import type { Notice } from '@sunlap/engine/numeric/notice';
import type { ClimateMonth, ClimateTable } from '@sunlap/engine/weather/climate-table';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import { synthesiseYear } from '@sunlap/engine/weather/synthesis';
import type { Project } from '@sunlap/project/schema/project';
import { utcOf } from '../heat/local-time';
import { placeNotices } from '../weather/place-notices';

/** The weather of a season and where it comes from. */
export interface SeasonWeather {
  readonly series: WeatherSeries;
  readonly notices: readonly Notice[];
}

/** A place farther away than this says little about the yard [km]; judgement. */
const FAR_KM = 250;

/** Standard time of a zone less universal time [h]: the smaller of January's and July's, by today's rules. */
export function standardOffset_h(timeZone: string): number {
  const of = (month: string): number =>
    (Date.UTC(2029, Number(month) - 1, 15, 12) - utcOf(`2029-${month}-15T12:00`, timeZone)) / 3_600_000;
  return Math.min(of('01'), of('07'));
}

const made = new Map<string, SeasonWeather>();
const MOST_MADE = 6;

/**
 * Weather of the project's season: the hours given, else a year made from its climate, at the site's own
 * latitude. Without a climate the nearest well-known place stands in, and a notice says so.
 *
 * @param given hours read from a file, for a climate of kind `file` or instead of any
 */
export function seasonWeather(
  project: Pick<Project, 'site' | 'season'>,
  given?: WeatherSeries | null,
): SeasonWeather {
  const { site, season } = project;
  if (given) return { series: given, notices: placeNotices(given, site, standardOffset_h(site.timeZone)) };
  const key = JSON.stringify([
    season?.climate ?? null,
    season?.seed ?? 1,
    site.latitude_deg,
    site.longitude_deg,
    site.elevation_m,
    site.timeZone,
  ]);
  const known = made.get(key);
  if (known) return known;
  const fresh = makeWeather(project);
  made.set(key, fresh);
  if (made.size > MOST_MADE) made.delete(made.keys().next().value!);
  return fresh;
}

function makeWeather(project: Pick<Project, 'site' | 'season'>): SeasonWeather {
  const { site, season } = project;
  const notices: Notice[] = [];
  const table = climateOf(project, notices);
  const seed = season?.seed ?? 1;
  try {
    const year = synthesiseYear(table, { seed });
    return { series: year.series, notices: [...notices, ...year.notices] };
  } catch (error) {
    notices.push({
      code: 'climate-unusable',
      severity: 'unsure',
      path: '/season/climate',
      message: `The climate table cannot be used: ${error instanceof Error ? error.message : String(error)}. The nearest known place stands in.`,
      remedy: 'Mend the row that it names.',
    });
    const year = synthesiseYear(nearest(site, notices), { seed });
    return { series: year.series, notices: [...notices, ...year.notices] };
  }
}

function climateOf(project: Pick<Project, 'site' | 'season'>, notices: Notice[]): ClimateTable {
  const { site, season } = project;
  const climate = season?.climate;
  const at = (name: string, months: readonly ClimateMonth[]): ClimateTable => ({
    name,
    place: site,
    utcOffset_h: standardOffset_h(site.timeZone),
    months,
  });
  const unknown = (what: string): ClimateTable => {
    notices.push({
      code: 'climate-unknown',
      severity: 'unsure',
      path: '/season/climate',
      message: `${what}; the nearest known place stands in.`,
      remedy: 'Choose a place or a type of climate, or import the weather again.',
    });
    return nearest(site, notices);
  };
  if (!climate) {
    notices.push({
      code: 'climate-assumed',
      severity: 'unsure',
      path: '/season/climate',
      message: 'No climate is chosen; the nearest known place stands in.',
      remedy: 'Choose a place, type in an almanac’s twelve rows, or import a weather file.',
    });
    return nearest(site, notices);
  }
  switch (climate.kind) {
    case 'place': {
      const place = findPlace(climate.id);
      return place ? at(place.name, place.months) : unknown(`No place is known as “${climate.id}”`);
    }
    case 'type': {
      const type = findClimateType(climate.id);
      if (!type) return unknown(`No type of climate is known as “${climate.id}”`);
      // a type of the other half of the earth has its summer half a year away
      const turned = type.latitude_deg * site.latitude_deg < 0;
      const months = turned ? [...type.months.slice(6), ...type.months.slice(0, 6)] : type.months;
      return at(type.name, months);
    }
    case 'table':
      return at(climate.name ?? 'Climate table', climate.months.map(plainMonth));
    case 'file':
      return unknown(`The weather file “${climate.name}” is not at hand`);
  }
}

type FileMonth = Extract<
  NonNullable<NonNullable<Project['season']>['climate']>,
  { kind: 'table' }
>['months'][number];

function plainMonth(m: FileMonth): ClimateMonth {
  return {
    high_C: m.high_C,
    low_C: m.low_C,
    ...(m.sunshine_h !== undefined ? { sunshine_h: m.sunshine_h } : {}),
    ...(m.irradiation_kWhm2 !== undefined ? { irradiation_kWhm2: m.irradiation_kWhm2 } : {}),
    ...(m.humidity !== undefined ? { humidity: m.humidity } : {}),
    ...(m.dewPoint_C !== undefined ? { dewPoint_C: m.dewPoint_C } : {}),
    ...(m.wind_ms !== undefined ? { wind_ms: m.wind_ms } : {}),
    ...(m.rain_mm !== undefined ? { rain_mm: m.rain_mm } : {}),
  };
}

function nearest(site: Project['site'], notices: Notice[]): ClimateTable {
  const [{ place, distance_km }] = nearestPlaces(site.latitude_deg, site.longitude_deg, 1);
  notices.push({
    code: 'climate-nearest',
    severity: distance_km > FAR_KM ? 'unsure' : 'info',
    path: '/season/climate',
    message: `Climate of ${place.name}, ${Math.round(distance_km)} km away; its figures are rounded and from memory.`,
  });
  return {
    name: place.name,
    place: site,
    utcOffset_h: standardOffset_h(site.timeZone),
    months: place.months,
  };
}
