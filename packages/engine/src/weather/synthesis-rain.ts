import type { Random } from '../numeric/random';
import type { ClimateTable } from './climate-table';
import { MONTH_DAYS, YEAR_DAYS } from './normals';

/** Rain of a wet day [mm]; judgement: temperate stations lie at 5 to 10, the tropics at 10 to 15 (from memory). */
const WET_DAY_MM = 8;
/** No more than this share of a month's days is wet; judgement. */
const MOST_WET = 0.6;
/** A day's rain falls within hours in a row, at most this many [h]; judgement. */
const LONGEST_SPELL_H = 8;

/**
 * Rain by the hour from what an almanac says of the month. It falls on the dullest days, as many as it takes at 8 mm
 * each but at most 60 %; what a wet day gets is exponentially distributed, and the month's sum is the table's. Within
 * its day it falls in one spell of up to eight hours at any time: what rain does to a pool hardly depends on when.
 *
 * @param clearness of each day, 1 January first [–]
 * @returns [mm] by hour, null where the table gives no rain at all
 */
export function hourlyRain(
  table: ClimateTable,
  clearness: Float64Array,
  random: Random,
): Float64Array | null {
  if (table.months.every((m) => m.rain_mm === undefined)) return null;
  const rain = new Float64Array(YEAR_DAYS * 24);
  let start = 0;
  MONTH_DAYS.forEach((length, month) => {
    const total = table.months[month].rain_mm ?? 0;
    const most = Math.floor(MOST_WET * length);
    const wet = total > 0 ? Math.min(most, Math.max(1, Math.round(total / WET_DAY_MM))) : 0;
    const dull = Array.from({ length }, (_, d) => start + d)
      .sort((a, b) => clearness[a] - clearness[b])
      .slice(0, wet);
    // 1 − u is never 0
    const amounts = dull.map(() => -Math.log(1 - random()));
    const sum = amounts.reduce((a, b) => a + b, 0);
    dull.forEach((day, k) => {
      const hours = 1 + Math.floor(LONGEST_SPELL_H * random());
      const first = Math.floor((25 - hours) * random());
      const each = sum > 0 ? (total * amounts[k]) / sum / hours : total / wet / hours;
      for (let h = first; h < first + hours; h++) rain[24 * day + h] = each;
    });
    start += length;
  });
  return rain;
}
