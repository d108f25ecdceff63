import { signal } from '@preact/signals';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import { type ForecastDay, readForecast } from '@sunlap/workbench/ahead/forecast';
import { a } from '../../text/ahead';

export type SkyWord = keyof typeof a.skies;
export type WindWord = keyof typeof a.winds;

/** One day of the forecast as it stands on the sheet. */
export interface Row {
  high_C: number;
  low_C: number;
  sky: SkyWord;
  wind: WindWord;
}

export interface Forecast {
  rows: Row[];
  /** Null: as the project has it. */
  cover: boolean | null;
}

const KEY = 'sunlap-ahead';
const usual: Forecast = {
  rows: [
    { high_C: 28, low_C: 17, sky: 'sunny', wind: 'light' },
    { high_C: 29, low_C: 18, sky: 'sunny', wind: 'calm' },
    { high_C: 27, low_C: 18, sky: 'partly', wind: 'light' },
    { high_C: 26, low_C: 16, sky: 'mostly sunny', wind: 'gentle' },
  ],
  cover: null,
};

function kept(): Forecast {
  try {
    const found = JSON.parse(localStorage.getItem(KEY) ?? 'null') as Forecast | null;
    return found !== null && daysOf(found.rows) !== null ? found : usual;
  } catch {
    return usual;
  }
}

export const forecast = signal<Forecast>(usual);
forecast.value = kept();

export function setForecast(next: Forecast): void {
  forecast.value = next;
  try {
    localStorage.setItem(KEY, JSON.stringify(next));
  } catch {
    // nothing is kept there; it still holds until the tab is closed
  }
}

/** The use-case's days; null when a row cannot be read. */
export function daysOf(rows: readonly Row[]): ForecastDay[] | null {
  const text = rows.map((r) => `${r.high_C}C/${r.low_C}C ${r.sky} ${r.wind}`).join('; ');
  const read = readForecast(text, 'metric');
  return read.ok ? read.days : null;
}

const WINDS: [WindWord, number][] = [
  ['calm', 1],
  ['light', 2],
  ['gentle', 3],
  ['breezy', 5],
  ['windy', 8],
  ['strong', 11],
];
const SKIES: [SkyWord, number][] = [];

/** A line of words as rows, or what is wrong with it. */
export function rowsOf(
  text: string,
  system: UnitSystem,
): { ok: true; rows: Row[] } | { ok: false; message: string } {
  const read = readForecast(text, system);
  if (!read.ok) return { ok: false, message: read.problems[0].message };
  if (SKIES.length === 0)
    for (const sky of Object.keys(a.skies) as SkyWord[]) {
      const one = readForecast(`20C/10C ${sky} calm`, 'metric');
      if (one.ok) SKIES.push([sky, one.days[0].sky.share]);
    }
  const nearest = <T>(list: readonly [T, number][], value: number): T =>
    list.reduce((best, one) => (Math.abs(one[1] - value) < Math.abs(best[1] - value) ? one : best))[0];
  return {
    ok: true,
    rows: read.days.map((d) => ({
      high_C: d.high_C,
      low_C: d.low_C,
      sky: /rain/.test(d.sky.words) ? 'rain' : nearest(SKIES, d.sky.share),
      wind: nearest(WINDS, d.wind_ms),
    })),
  };
}
