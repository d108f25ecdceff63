import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import { createRandom } from '../numeric/random';
import { assembleWeather, type RawColumn } from './assemble';
import { type ClimateTable, checkClimateTable } from './climate-table';
import { NOMINAL_YEAR, YEAR_DAYS, YEAR_HOURS } from './normals';
import type { WeatherSeries } from './series';
import { solarDays } from './solar-days';
import { hourlyAir } from './synthesis-air';
import { hourlyDew } from './synthesis-dew';
import { dailyClearness, hourlyCloud, hourlyGlobal } from './synthesis-light';
import { hourlyRain } from './synthesis-rain';
import { persistentScores } from './synthesis-scores';
import { hourlyWind } from './synthesis-wind';

const DAY_MS = 86_400_000;

export interface SynthesisOptions {
  readonly seed: number;
  /** Lag-1 autocorrelation of the Gaussian score of daily clearness [–], −1…1 excluded. */
  readonly lag1: number;
}

/** Lag-1 of about 0.3: Graham, Hollands & Huget 1988 found 0.29 (from memory). */
export const DEFAULT_SYNTHESIS: SynthesisOptions = { seed: 1, lag1: 0.3 };

export interface SynthesisedYear {
  readonly series: WeatherSeries;
  /** Daily clearness index, 1 January first [–]. */
  readonly clearness: Float64Array;
  /** Gaussian score behind it: its lag-1 is what was asked for. */
  readonly score: Float64Array;
  readonly notices: Notice[];
}

/**
 * A year of hours from twelve rows of an almanac.
 *
 * 1. Daily clearness: z_d = φ·z_(d−1) + √(1−φ²)·ε, through Φ to a share of days and through the month's
 *    distribution (Bendt et al.) to K_d; its steepness is solved so that Σ K_d·H₀_d is the month's irradiation.
 * 2. Hours of light by Collares-Pereira & Rabl, direct and diffuse by Erbs.
 * 3. Temperature: lowest at sunrise, highest two hours after solar noon, half cosines between (de Wit et al. 1978,
 *    from memory); the day's range goes with its clearness; monthly mean highs and lows as the table has them.
 * 4. Dew point: the table's, drier on clear days, never over the air's temperature; guessed at the mean low where
 *    the almanac is silent. Cloud from the day's clearness.
 * 5. Wind: the table's mean (2 m/s guessed), a daily factor and a rhythm that peaks at three in the afternoon.
 *
 * 6. Rain, where the table has it, on the dullest days (see `hourlyRain`).
 *
 * How strongly range, dew point and wind follow are judgements, marked at their lines.
 *
 * @param table   twelve rows and their place
 * @param options seed and persistence
 * @throws {DomainError} for a table that is none
 */
export function synthesiseYear(
  table: ClimateTable,
  options: Partial<SynthesisOptions> = {},
): SynthesisedYear {
  checkClimateTable(table);
  const { seed, lag1 } = { ...DEFAULT_SYNTHESIS, ...options };
  if (!(lag1 > -1 && lag1 < 1)) throw new DomainError('lag-1 autocorrelation', lag1, '(−1, 1)');
  const notices: Notice[] = [];
  const start_ms = Date.UTC(NOMINAL_YEAR, 0, 1) - table.utcOffset_h * 3_600_000;
  // The solar day of each calendar day: the noon that falls into it.
  const days = solarDays(table.place, start_ms - DAY_MS, start_ms + (YEAR_DAYS + 1) * DAY_MS);
  const first = days.findIndex((day) => day.noon_ms >= start_ms);
  const year = days.slice(first, first + YEAR_DAYS);
  const score = persistentScores(createRandom(seed), lag1);
  const clearness = dailyClearness(table, year, score, notices);
  const global = hourlyGlobal(year, clearness, start_ms);
  const air = hourlyAir(table, year, clearness, start_ms);
  const guessed: RawColumn[] = [];
  const dew = hourlyDew(table, clearness, air, guessed, notices);
  const wind = hourlyWind(table, year, start_ms, createRandom(seed + 0.5), lag1, guessed);
  const cloud = hourlyCloud(table, year, clearness, start_ms);
  const rain = hourlyRain(table, clearness, createRandom(seed + 0.25));
  const made = assembleWeather({
    name: table.name,
    place: table.place,
    utcOffset_h: table.utcOffset_h,
    start_ms,
    step_s: 3600,
    length: YEAR_HOURS,
    typical: true,
    sunShift_s: 0,
    windHeight_m: 10,
    columns: {
      air_C: air,
      dewPoint_C: dew,
      wind_ms: wind,
      global_Wm2: global,
      cloud,
      ...(rain ? { rain_kgm2: rain } : {}),
    },
    guessed,
  });
  if (!made.ok) throw new DomainError('climate table', made.reason, 'twelve full rows');
  const computed = { ...made.series.origin };
  for (const name of ['air_C', 'dewPoint_C', 'wind_ms', 'global_Wm2', 'cloud'] as const)
    if (computed[name] === 'measured') computed[name] = 'computed';
  return {
    series: { ...made.series, origin: computed },
    clearness,
    score,
    notices: [...notices, ...made.notices],
  };
}
