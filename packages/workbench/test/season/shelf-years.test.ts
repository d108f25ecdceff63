import { climateTypes } from '@sunlap/data/climate-types';
import { climateTableOf, places } from '@sunlap/data/places';
import { clearnessFromSunshine } from '@sunlap/engine/weather/angstrom';
import type { ClimateTable } from '@sunlap/engine/weather/climate-table';
import { monthlySummary } from '@sunlap/engine/weather/monthly';
import { MONTH_DAYS, MONTH_OF_DAY } from '@sunlap/engine/weather/normals';
import { solarDays } from '@sunlap/engine/weather/solar-days';
import { synthesiseYear } from '@sunlap/engine/weather/synthesis';
import { describe, expect, it } from 'vitest';

const DAY_MS = 86_400_000;

const types: ClimateTable[] = climateTypes.map(({ name, latitude_deg, months }) => ({
  name,
  place: { latitude_deg, longitude_deg: 0, elevation_m: 50 },
  utcOffset_h: 0,
  months,
}));
// every climate type, and every fourth place: all continents, both halves of the earth, tropics and far north
const shelf: ClimateTable[] = [...types, ...places.filter((_, i) => i % 4 === 1).map(climateTableOf)];

/** Irradiation that a row asks for [kWh/m²·day], and what falls above the air there. */
function wanted(table: ClimateTable, start_ms: number): { light: number[]; above: number[] } {
  const above = new Array<number>(12).fill(0);
  const possible = new Array<number>(12).fill(0);
  for (const day of solarDays(table.place, start_ms, start_ms + 365 * DAY_MS)) {
    const at = Math.floor((day.noon_ms - start_ms) / DAY_MS);
    if (!(at >= 0 && at < 365)) continue;
    const m = MONTH_OF_DAY[at];
    above[m] += day.extraterrestrial_Jm2 / 3.6e6 / MONTH_DAYS[m];
    possible[m] += (24 * day.sunset) / Math.PI / MONTH_DAYS[m];
  }
  const light = table.months.map((row, m) => {
    if (row.irradiation_kWhm2 !== undefined) return row.irradiation_kWhm2;
    const share = possible[m] > 0 ? Math.min(1, (row.sunshine_h ?? 0) / possible[m]) : 0;
    return above[m] * clearnessFromSunshine(share, table.angstrom);
  });
  return { light, above };
}

describe('a made year of every shelf', () => {
  // The aim: monthly means within 0.2 K and 2 % of the table. A day of under 0.3 kWh/m² above the air (polar night and
  // its edges) has no light to share out: 0.02 kWh/m² there.
  it.each(shelf.map((table) => [table.name, table] as const))('%s keeps its table', (_, table) => {
    const { series, notices } = synthesiseYear(table, { seed: 5 });
    const doubtful = new Set(
      notices.filter((n) => n.code === 'climate-row-doubtful').map((n) => Number(n.path.split('/').pop())),
    );
    const { light, above } = wanted(table, series.start_ms);
    monthlySummary(series).forEach((got, m) => {
      const row = table.months[m];
      expect(Math.abs(got.high_C - row.high_C), `high of month ${m + 1}`).toBeLessThan(0.2);
      expect(Math.abs(got.low_C - row.low_C), `low of month ${m + 1}`).toBeLessThan(0.2);
      if (row.humidity !== undefined && row.dewPoint_C === undefined)
        expect(Math.abs(got.humidity / row.humidity - 1), `humidity of month ${m + 1}`).toBeLessThan(0.02);
      if (row.wind_ms !== undefined) expect(Math.abs(got.wind_ms / row.wind_ms - 1)).toBeLessThan(0.02);
      if (doubtful.has(m)) return;
      const off = Math.abs(got.irradiation_kWhm2day - light[m]);
      expect(off, `light of month ${m + 1}`).toBeLessThan(above[m] < 0.3 ? 0.02 : 0.02 * light[m]);
    });
    // at most two of a shelf's own rows may ask for more sun than there is
    expect(doubtful.size).toBeLessThan(3);
  });
});
