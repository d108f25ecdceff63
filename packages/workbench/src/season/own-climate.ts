import { findClimateType } from '@sunlap/data/climate-types';
import { findPlace, nearestPlaces } from '@sunlap/data/places';
import { dewPointFromHumidity, humidityFromDewPoint } from '@sunlap/engine/fluids/moist-air';
import { ANGSTROM_FAO, clearnessFromSunshine } from '@sunlap/engine/weather/angstrom';
import type { ClimateMonth } from '@sunlap/engine/weather/climate-table';
import { MONTH_DAYS } from '@sunlap/engine/weather/normals';
import { solarDays } from '@sunlap/engine/weather/solar-days';
import type { Project } from '@sunlap/project/schema/project';
import type { Climate } from '@sunlap/project/schema/season';

export type TableClimate = Extract<Climate, { kind: 'table' }>;
export type ClimateRow = TableClimate['months'][number];
export type ClimateColumn = keyof ClimateRow;
type Whose = Pick<Project, 'site' | 'season'>;

/** What of the shelf stands behind a project's climate. */
export interface ShelfClimate {
  readonly kind: 'place' | 'type';
  readonly id: string;
  readonly name: string;
  readonly months: readonly ClimateMonth[];
}

/** Limits of each column, as the synthesis takes them. */
export const CLIMATE_LIMITS: Record<ClimateColumn, readonly [low: number, high: number]> = {
  high_C: [-50, 55],
  low_C: [-55, 55],
  sunshine_h: [0, 24],
  irradiation_kWhm2: [0, 12],
  humidity: [0.02, 1],
  dewPoint_C: [-50, 40],
  wind_ms: [0, 20],
  rain_mm: [0, 2000],
};

/** Wind where no almanac says any [m/s at 10 m]; the synthesis takes the same. */
const GUESSED_WIND_MS = 2;

/** A row of the shelf, a type of the other half of the earth turned by half a year. */
export function shelfClimate(kind: 'place' | 'type', id: string, latitude_deg: number): ShelfClimate | null {
  if (kind === 'place') {
    const place = findPlace(id);
    return place ? { kind, id, name: place.name, months: place.months } : null;
  }
  const type = findClimateType(id);
  if (!type) return null;
  const turned = type.latitude_deg * latitude_deg < 0;
  const months = turned ? [...type.months.slice(6), ...type.months.slice(0, 6)] : type.months;
  return { kind, id, name: type.name, months };
}

/** What the project's climate is, or began as; the nearest place where nothing better is known. */
export function shelfOf({ site, season }: Whose): ShelfClimate {
  const climate = season?.climate;
  const from = climate?.kind === 'table' ? climate.from : climate?.kind === 'file' ? undefined : climate;
  const known = from === undefined ? null : shelfClimate(from.kind, from.id, site.latitude_deg);
  if (known) return known;
  const [{ place }] = nearestPlaces(site.latitude_deg, site.longitude_deg, 1);
  return { kind: 'place', id: place.id, name: place.name, months: place.months };
}

/** The twelve rows in force: the person's own, else the shelf's. */
export function climateRows(project: Whose): readonly ClimateRow[] {
  const climate = project.season?.climate;
  return climate?.kind === 'table' ? climate.months : shelfOf(project).months.map((m) => ({ ...m }));
}

/** True when a row says something else than the shelf. */
export function isOwnRow(row: ClimateRow, shelf: ClimateMonth): boolean {
  const keys = new Set([...Object.keys(row), ...Object.keys(shelf)]) as Set<keyof ClimateMonth>;
  for (const key of keys) if (row[key] !== shelf[key]) return true;
  return false;
}

/** The same project with another row; what was a row of the shelf becomes the person's own table. */
function withRow<P extends Whose>(project: P, month: number, change: (row: ClimateRow) => ClimateRow): P {
  const shelf = shelfOf(project);
  const now = project.season?.climate;
  const table: TableClimate =
    now?.kind === 'table'
      ? now
      : {
          kind: 'table',
          name: `${shelf.name}, own figures`,
          months: [...climateRows(project)],
          from: { kind: shelf.kind, id: shelf.id },
        };
  const months = table.months.map((row, m) => (m === month ? change(row) : row));
  return { ...project, season: { ...project.season, climate: { ...table, months } } };
}

/** Columns of which a row has one at a time: the one that is typed is the one that counts. */
const OTHER: Partial<Record<ClimateColumn, ClimateColumn>> = {
  sunshine_h: 'irradiation_kWhm2',
  irradiation_kWhm2: 'sunshine_h',
  humidity: 'dewPoint_C',
  dewPoint_C: 'humidity',
};

/**
 * Sets one value of the table, or empties it. Sunshine takes the place of irradiation and the other way round,
 * humidity that of the dew point; a month without any sun cannot be worked with, so that one stays.
 *
 * @param value null empties the cell
 */
export function withClimateValue<P extends Whose>(
  project: P,
  month: number,
  column: ClimateColumn,
  value: number | null,
): P {
  return withRow(project, month, (row) => {
    if (value !== null) {
      const other = OTHER[column];
      const { [other ?? column]: _, ...rest } = row;
      return { ...rest, [column]: value } as ClimateRow;
    }
    if (
      column === 'high_C' ||
      column === 'low_C' ||
      column === 'sunshine_h' ||
      column === 'irradiation_kWhm2'
    )
      return row;
    const { [column]: _, ...rest } = row;
    return rest as ClimateRow;
  });
}

/** Sets one row back to what the shelf says. */
export function withShelfRow<P extends Whose>(project: P, month: number): P {
  return withRow(project, month, () => ({ ...shelfOf(project).months[month] }));
}

/** Drops the person's table for the shelf's. */
export function withShelf<P extends Whose>(project: P): P {
  const { kind, id } = shelfOf(project);
  return { ...project, season: { ...project.season, climate: { kind, id } } };
}

/**
 * What stands in for a cell that is empty: worked out from its other form, or what the synthesis guesses.
 * Null where the row has the value, or nothing can be said.
 */
export function climateGuess(
  project: Whose,
  month: number,
  column: ClimateColumn,
  row: ClimateRow,
): number | null {
  if (row[column] !== undefined) return null;
  const mean = (row.high_C + row.low_C) / 2;
  switch (column) {
    case 'wind_ms':
      return GUESSED_WIND_MS;
    case 'dewPoint_C':
      return row.humidity === undefined ? row.low_C : dewPointFromHumidity(mean, row.humidity);
    case 'humidity':
      return humidityFromDewPoint(mean, Math.min(mean, row.dewPoint_C ?? row.low_C));
    case 'irradiation_kWhm2': {
      const sun = monthSun(project.site, month);
      if (row.sunshine_h === undefined) return null;
      const share = sun.day_h > 0 ? Math.min(1, row.sunshine_h / sun.day_h) : 0;
      return clearnessFromSunshine(share) * sun.above_kWhm2;
    }
    case 'sunshine_h': {
      const sun = monthSun(project.site, month);
      if (row.irradiation_kWhm2 === undefined || !(sun.above_kWhm2 > 0)) return null;
      const clearness = row.irradiation_kWhm2 / sun.above_kWhm2;
      return Math.min(1, Math.max(0, (clearness - ANGSTROM_FAO.a) / ANGSTROM_FAO.b)) * sun.day_h;
    }
    default:
      return null;
  }
}

const suns = new Map<string, readonly { day_h: number; above_kWhm2: number }[]>();

/** Length of the day and sunlight above the air, means of the month. */
function monthSun(site: Project['site'], month: number): { day_h: number; above_kWhm2: number } {
  const key = `${site.latitude_deg} ${site.longitude_deg} ${site.elevation_m}`;
  let known = suns.get(key);
  if (known === undefined) {
    const start = Date.UTC(2001, 0, 1);
    const days = solarDays(site, start, start + 365 * 86_400_000);
    let d = 0;
    known = MONTH_DAYS.map((length) => {
      const list = days.slice(d, d + length);
      d += length;
      const of = (pick: (day: (typeof days)[number]) => number): number =>
        list.reduce((sum, day) => sum + pick(day), 0) / list.length;
      return {
        day_h: of((day) => (24 / Math.PI) * day.sunset),
        above_kWhm2: of((day) => day.extraterrestrial_Jm2) / 3.6e6,
      };
    });
    if (suns.size > 8) suns.clear();
    suns.set(key, known);
  }
  return known[month];
}
