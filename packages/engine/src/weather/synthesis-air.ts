import type { ClimateTable } from './climate-table';
import { daily, MONTH_DAYS, MONTH_OF_DAY, meanByMonth, nodesFor, YEAR_DAYS, YEAR_HOURS } from './normals';
import type { SolarDay } from './solar-days';

const DAY_MS = 86_400_000;

/** Air by hour [°C]: the day's range goes with its clearness; monthly mean highs and lows are the table's. */
export function hourlyAir(
  table: ClimateTable,
  year: readonly SolarDay[],
  clearness: Float64Array,
  start_ms: number,
): Float64Array {
  const wantHigh = table.months.map((m) => m.high_C);
  const wantLow = table.months.map((m) => m.low_C);
  // Middles along lines that keep the monthly means; ranges along lines too, times a factor of each month. What is
  // left over is shifted month by month, so that a table that jumps cannot set the lines swinging.
  const middle = daily(nodesFor(wantHigh.map((h, m) => (h + wantLow[m]) / 2)));
  const range = daily(wantHigh.map((h, m) => h - wantLow[m]));
  const shift = new Array<number>(12).fill(0);
  const factor = new Array<number>(12).fill(1);
  const byMonth = meanByMonth(clearness);
  let air: Float64Array = new Float64Array(YEAR_HOURS);
  for (let round = 0; round < 20; round++) {
    const high = new Float64Array(YEAR_DAYS);
    const low = new Float64Array(YEAR_DAYS);
    for (let d = 0; d < YEAR_DAYS; d++) {
      const m = MONTH_OF_DAY[d];
      // Judgement: the day's range goes with its clearness, within 0.4 and 1.6 of the month's (Hargreaves' rule
      // has it with the square).
      const half = (range[d] * factor[m] * Math.min(1.6, Math.max(0.4, clearness[d] / byMonth[m]))) / 2;
      high[d] = middle[d] + shift[m] + half;
      low[d] = middle[d] + shift[m] - half;
    }
    air = halfCosines(year, high, low, start_ms);
    const gotHigh = new Array<number>(12).fill(0);
    const gotLow = new Array<number>(12).fill(0);
    for (let d = 0; d < YEAR_DAYS; d++) {
      const day = air.subarray(24 * d, 24 * d + 24);
      gotHigh[MONTH_OF_DAY[d]] += Math.max(...day) / MONTH_DAYS[MONTH_OF_DAY[d]];
      gotLow[MONTH_OF_DAY[d]] += Math.min(...day) / MONTH_DAYS[MONTH_OF_DAY[d]];
    }
    let worst = 0;
    for (let m = 0; m < 12; m++) {
      const offHigh = wantHigh[m] - gotHigh[m];
      const offLow = wantLow[m] - gotLow[m];
      worst = Math.max(worst, Math.abs(offHigh), Math.abs(offLow));
      shift[m] += (offHigh + offLow) / 2;
      factor[m] *= Math.min(
        2,
        Math.max(0.5, (wantHigh[m] - wantLow[m] + 1e-9) / (gotHigh[m] - gotLow[m] + 1e-9)),
      );
    }
    if (worst < 0.05) break;
  }
  return air;
}

/** Lowest at sunrise, highest two hours after solar noon, half cosines between. */
function halfCosines(
  year: readonly SolarDay[],
  high: Float64Array,
  low: Float64Array,
  start_ms: number,
): Float64Array {
  const air = new Float64Array(YEAR_HOURS);
  const turn = (d: number): { rise: number; peak: number; low: number; high: number } => {
    const at = (d + YEAR_DAYS) % YEAR_DAYS;
    const round = (d - at) * DAY_MS;
    const day = year[at];
    // In polar day and night the low is kept between ten and four hours before noon.
    const half = Math.min(10, Math.max(4, (day.sunset * 12) / Math.PI)) * 3_600_000;
    return {
      rise: day.noon_ms + round - half,
      peak: day.noon_ms + round + 7_200_000,
      low: low[at],
      high: high[at],
    };
  };
  for (let h = 0; h < YEAR_HOURS; h++) {
    const t = start_ms + (h + 0.5) * 3_600_000;
    const d = Math.floor(h / 24);
    let here = turn(d);
    if (t < here.rise && t < turn(d - 1).peak) here = turn(d - 1);
    let from: [number, number];
    let to: [number, number];
    if (t < here.rise) {
      const before = turn(d - 1);
      from = [before.peak, before.high];
      to = [here.rise, here.low];
    } else if (t < here.peak) {
      from = [here.rise, here.low];
      to = [here.peak, here.high];
    } else {
      const next = turn(d + 1);
      from = [here.peak, here.high];
      to = [next.rise, next.low];
    }
    const share = Math.min(1, Math.max(0, (t - from[0]) / (to[0] - from[0])));
    air[h] = from[1] + ((to[1] - from[1]) * (1 - Math.cos(Math.PI * share))) / 2;
  }
  return air;
}
