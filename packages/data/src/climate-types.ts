import type { ClimateMonth } from '@sunlap/engine/weather/climate-table';
import { type ClimateTexts, climateMonths } from './climate-rows';
import table from './climate-types.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** A climate by its kind, for a first answer before an almanac is at hand. Illustrative. */
export interface ClimateType extends Provenance {
  id: string;
  name: string;
  /** Where such a climate would be typical. */
  latitude_deg: number;
  longitude_deg: number;
  elevation_m: number;
  months: readonly ClimateMonth[];
}

export const climateTypes: readonly ClimateType[] = readTable<ClimateType & ClimateTexts>(
  table.about,
  table.table,
).map(({ high, low, sunshine, humidity, wind, ...row }) => ({
  ...row,
  months: climateMonths({ high, low, sunshine, humidity, wind }),
}));
export const findClimateType = finder(climateTypes, (row) => row.id);
