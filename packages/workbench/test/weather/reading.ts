import { monthlySummary } from '@sunlap/engine/weather/monthly';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import { expect } from 'vitest';
import type { CsvMapping } from '../../src/weather/plain-csv';
import { type ReadWeatherOptions, readWeather } from '../../src/weather/read-weather';
import type { ReadProblem, WeatherReading } from '../../src/weather/reading';
import { epwRow, hours, YEAR } from './files';

export type Good = Extract<WeatherReading, { ok: true }>;

export function good(file: string | Uint8Array, options?: ReadWeatherOptions): Good {
  const read = readWeather(file, options);
  if (!read.ok) throw new Error(read.problems.map((p) => p.message).join('\n'));
  return read;
}

export function bad(file: string | Uint8Array, options?: ReadWeatherOptions): ReadProblem {
  const read = readWeather(file, options);
  if (read.ok) throw new Error('was read');
  expect(read.problems.length).toBeLessThanOrEqual(20);
  return read.problems[0];
}

export const codes = (read: Good) => read.notices.map((n) => n.code);

/** Values of the file are rounded: a tenth of a kelvin, a watt. */
export function expectSameYear(series: WeatherSeries): void {
  expect(series.length).toBe(8760);
  const want = monthlySummary(YEAR);
  monthlySummary(series).forEach((got, m) => {
    expect(Math.abs(got.air_C - want[m].air_C)).toBeLessThan(0.1);
    expect(Math.abs(got.dewPoint_C - want[m].dewPoint_C)).toBeLessThan(0.15);
    expect(Math.abs(got.irradiation_kWhm2day - want[m].irradiation_kWhm2day)).toBeLessThan(0.02);
    expect(Math.abs(got.wind_ms - want[m].wind_ms)).toBeLessThan(0.05);
  });
}

export const typical = hours(0, (month) => 1990 + ((month * 5) % 12));
export const rows = typical.map((h) => epwRow(h));
export const mapping: CsvMapping = {
  name: 'logger',
  place: { latitude_deg: 40, longitude_deg: -75, elevation_m: 50 },
  utcOffset_h: -5,
  headerLines: 1,
  time: { stamp: 'when' },
  dateOrder: 'ymd',
  marks: 'start',
  columns: {
    air_C: { column: 'air', unit: '°F' },
    humidity: { column: 'RH', unit: '%' },
    wind_ms: { column: 'wind', unit: 'mph' },
    global_Wm2: { column: 'sun', unit: 'W/m²' },
  },
};
export const two = (n: number) => String(n).padStart(2, '0');
export const csv = (list = hours(), delimiter = ',', comma = false) =>
  [
    ['when', 'air', 'RH', 'wind', 'sun'].join(delimiter),
    ...list.map((h) =>
      [
        `${h.year}-${two(h.month)}-${two(h.day)} ${two(h.hour)}:00`,
        ...[h.air * 1.8 + 32, h.humidity, h.wind / 0.44704, h.global].map((v) =>
          comma ? v.toFixed(3).replace('.', ',') : v.toFixed(3),
        ),
      ].join(delimiter),
    ),
  ].join('\n');
