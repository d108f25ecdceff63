import type { Notice } from '../numeric/notice';
import { findRoot } from '../numeric/roots';
import { normalCdf } from '../numeric/statistics-normal';
import { ANGSTROM_FAO, clearnessFromSunshine, cloudFromClearness } from './angstrom';
import { clearnessDistribution, clearnessQuantile } from './clearness';
import { type ClimateTable, doubtfulRow } from './climate-table';
import { hourShare } from './hourly-profile';
import { MONTH_DAYS, YEAR_DAYS, YEAR_HOURS } from './normals';
import type { SolarDay } from './solar-days';

const DAY_MS = 86_400_000;

/**
 * Daily clearness of a year [–]: the score through Φ to a share of days and through the month's distribution, whose
 * steepness is solved so that Σ K_d·H₀_d is the month's irradiation.
 *
 * @param year    solar days, 1 January first
 * @param score   Gaussian, by day
 * @param notices receives what is doubtful in the table
 */
export function dailyClearness(
  table: ClimateTable,
  year: readonly SolarDay[],
  score: Float64Array,
  notices: Notice[],
): Float64Array {
  const angstrom = table.angstrom ?? ANGSTROM_FAO;
  const clearness = new Float64Array(YEAR_DAYS);
  let start = 0;
  MONTH_DAYS.forEach((length, month) => {
    const days = year.slice(start, start + length);
    const above = days.reduce((sum, day) => sum + day.extraterrestrial_Jm2, 0);
    const row = table.months[month];
    let mean: number;
    if (row.irradiation_kWhm2 !== undefined)
      mean = above > 0 ? (row.irradiation_kWhm2 * 3.6e6 * length) / above : 0;
    else {
      const possible = days.reduce((sum, day) => sum + (24 * day.sunset) / Math.PI, 0) / length;
      const share = possible > 0 ? (row.sunshine_h ?? 0) / possible : 0;
      if (share > 1.05)
        notices.push(
          doubtfulRow(
            month,
            `${row.sunshine_h} h of sunshine a day are more than the sun is up (${possible.toFixed(1)} h)`,
          ),
        );
      mean = clearnessFromSunshine(Math.min(1, share), angstrom);
    }
    if (above / length < 3e5) mean = Math.min(mean, 0.5); // hardly any sun to share out
    if (mean > 0.8) {
      notices.push(
        doubtfulRow(
          month,
          `the sun would reach ${(100 * mean).toFixed(0)} % of that above the air; 80 % is taken`,
        ),
      );
      mean = 0.8;
    }
    const u = Array.from({ length }, (_, d) => normalCdf(score[start + d]));
    const base = clearnessDistribution(mean);
    const weights = days.map((day) => (above > 0 ? day.extraterrestrial_Jm2 / above : 1 / length));
    const miss = (gamma: number): number =>
      u.reduce((sum, share, d) => sum + weights[d] * clearnessQuantile({ ...base, gamma }, share), 0) - mean;
    const gamma = miss(-400) < 0 && miss(400) > 0 ? findRoot(miss, -400, 400, 1e-9).root : base.gamma;
    for (let d = 0; d < length; d++) clearness[start + d] = clearnessQuantile({ ...base, gamma }, u[d]);
    start += length;
  });
  return clearness;
}

/** Hour angle [rad] of an instant in a solar day. */
function hourAngle(day: SolarDay, utc_ms: number): number {
  return ((utc_ms - day.noon_ms) / DAY_MS) * 2 * Math.PI;
}

/** Global light by hour [W/m²]: each day's over its hours by Collares-Pereira & Rabl. */
export function hourlyGlobal(
  year: readonly SolarDay[],
  clearness: Float64Array,
  start_ms: number,
): Float64Array {
  const global = new Float64Array(YEAR_HOURS);
  year.forEach((day, d) => {
    const total = clearness[d] * day.extraterrestrial_Jm2;
    // The turn of the sun reaches half a day to either side of noon; hours over the year's ends go round.
    const firstHour = Math.floor((day.noon_ms - DAY_MS / 2 - start_ms) / 3_600_000);
    for (let h = firstHour; h <= firstHour + 24; h++) {
      const from = hourAngle(day, start_ms + h * 3_600_000);
      const share = hourShare(day.sunset, from, from + Math.PI / 12);
      global[((h % YEAR_HOURS) + YEAR_HOURS) % YEAR_HOURS] += (total * share) / 3600;
    }
  });
  return global;
}

/** Cloud by hour [–]: from each day's clearness, along lines from noon to noon. */
export function hourlyCloud(
  table: ClimateTable,
  year: readonly SolarDay[],
  clearness: Float64Array,
  start_ms: number,
): Float64Array {
  const cloud = clearness.map((k) => cloudFromClearness(k, table.angstrom ?? ANGSTROM_FAO));
  return Float64Array.from({ length: YEAR_HOURS }, (_, h) => {
    const t = start_ms + (h + 0.5) * 3_600_000;
    const d = Math.floor(h / 24);
    const other = t < year[d].noon_ms ? d - 1 : d + 1;
    const share = Math.abs(t - year[d].noon_ms) / DAY_MS;
    return cloud[d] * (1 - share) + cloud[(other + YEAR_DAYS) % YEAR_DAYS] * share;
  });
}
