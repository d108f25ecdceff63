import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import type { Place } from '../sun/place';
import { ANGSTROM_FAO, type Angstrom } from './angstrom';

/** One month as an almanac prints it. Sunshine or irradiation; humidity, dew point or neither. */
export interface ClimateMonth {
  /** Mean of the daily highest and lowest temperatures [°C]. */
  readonly high_C: number;
  readonly low_C: number;
  /** Bright sunshine [h/day]. */
  readonly sunshine_h?: number;
  /** Global irradiation on the level [kWh/m² per day]; preferred when both are given. */
  readonly irradiation_kWhm2?: number;
  /** Mean relative humidity [–], 0…1. */
  readonly humidity?: number;
  /** Preferred when both are given. */
  readonly dewPoint_C?: number;
  /** Mean wind at 10 m [m/s]. */
  readonly wind_ms?: number;
  /** Rain of the whole month [mm]. */
  readonly rain_mm?: number;
}

/** Twelve rows, January first, and where they hold. */
export interface ClimateTable {
  readonly name: string;
  readonly place: Place;
  readonly utcOffset_h: number;
  readonly months: readonly ClimateMonth[];
  readonly angstrom?: Angstrom;
}

/** @throws {DomainError} naming the month and quantity that is none */
export function checkClimateTable(table: ClimateTable): void {
  if (table.months.length !== 12)
    throw new DomainError('rows of the climate table', table.months.length, '12');
  const { a, b } = table.angstrom ?? ANGSTROM_FAO;
  if (!(a > 0 && b > 0 && a + b <= 0.9)) throw new DomainError('Ångström a + b', a + b, '(0, 0.9]');
  within('latitude', table.place.latitude_deg, -90, 90, '°');
  within('longitude', table.place.longitude_deg, -180, 180, '°');
  within('elevation', table.place.elevation_m, -450, 6000, 'm');
  within('offset from universal time', table.utcOffset_h, -12, 14, 'h');
  table.months.forEach((m, i) => {
    const month = `month ${i + 1}, `;
    within(`${month}mean high`, m.high_C, -50, 55, '°C');
    within(`${month}mean low`, m.low_C, -55, m.high_C, '°C');
    if (m.sunshine_h === undefined && m.irradiation_kWhm2 === undefined)
      throw new DomainError(`${month}sun`, 'none', 'sunshine or irradiation');
    optional(`${month}sunshine`, m.sunshine_h, 0, 24, 'h/day');
    optional(`${month}irradiation`, m.irradiation_kWhm2, 0, 12, 'kWh/m² per day');
    optional(`${month}humidity`, m.humidity, 0.02, 1, '');
    optional(`${month}dew point`, m.dewPoint_C, -50, m.high_C, '°C');
    optional(`${month}wind`, m.wind_ms, 0, 20, 'm/s');
    optional(`${month}rain`, m.rain_mm, 0, 2000, 'mm');
  });
}

function within(quantity: string, value: number, low: number, high: number, unit: string): void {
  if (!(value >= low && value <= high))
    throw new DomainError(quantity, value, `[${low}, ${high}] ${unit}`.trim());
}

function optional(
  quantity: string,
  value: number | undefined,
  low: number,
  high: number,
  unit: string,
): void {
  if (value !== undefined) within(quantity, value, low, high, unit);
}

/** Notice of a row that cannot quite be. */
export function doubtfulRow(month: number, what: string): Notice {
  return {
    code: 'climate-row-doubtful',
    severity: 'unsure',
    path: `/weather/months/${month}`,
    message: `Month ${month + 1}: ${what}`,
  };
}
