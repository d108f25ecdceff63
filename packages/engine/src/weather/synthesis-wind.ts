import type { Random } from '../numeric/random';
import type { RawColumn } from './assemble';
import type { ClimateTable } from './climate-table';
import { MONTH_DAYS, MONTH_OF_DAY, YEAR_HOURS } from './normals';
import type { SolarDay } from './solar-days';
import { persistentScores } from './synthesis-scores';

/** Wind by hour [m/s]: the table's mean (2 guessed), a daily factor and a rhythm that peaks at three. */
export function hourlyWind(
  table: ClimateTable,
  year: readonly SolarDay[],
  start_ms: number,
  random: Random,
  lag1: number,
  guessed: RawColumn[],
): Float64Array {
  if (table.months.some((m) => m.wind_ms === undefined)) guessed.push('wind_ms');
  const scores = persistentScores(random, lag1);
  const wind = new Float64Array(YEAR_HOURS);
  const sums = new Array<number>(12).fill(0);
  for (let h = 0; h < YEAR_HOURS; h++) {
    const d = Math.floor(h / 24);
    const solarHour = 12 + (start_ms + (h + 0.5) * 3_600_000 - year[d].noon_ms) / 3_600_000;
    // Judgement: 35 % rhythm over the day, 35 % from day to day.
    const rhythm = 1 + 0.35 * Math.cos(((solarHour - 15) / 12) * Math.PI);
    wind[h] = rhythm * Math.exp(0.35 * scores[d]);
    sums[MONTH_OF_DAY[d]] += wind[h];
  }
  for (let h = 0; h < YEAR_HOURS; h++) {
    const m = MONTH_OF_DAY[Math.floor(h / 24)];
    wind[h] *= ((table.months[m].wind_ms ?? 2) * MONTH_DAYS[m] * 24) / sums[m];
  }
  return wind;
}
