import { dewPointFromHumidity, humidityFromDewPoint } from '../fluids/moist-air';
import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import { createRandom, type Random } from '../numeric/random';
import { drawNormal } from '../numeric/random-draws';
import { findRoot } from '../numeric/roots';
import { normalCdf } from '../numeric/statistics-normal';
import { ANGSTROM_FAO, clearnessFromSunshine, cloudFromClearness } from './angstrom';
import { assembleWeather, type RawColumn } from './assemble';
import { clearnessDistribution, clearnessQuantile } from './clearness';
import { type ClimateTable, checkClimateTable } from './climate-table';
import { hourShare } from './hourly-profile';
import { daily, MONTH_DAYS, MONTH_OF_DAY, NOMINAL_YEAR, nodesFor, YEAR_DAYS } from './normals';
import type { WeatherSeries } from './series';
import { type SolarDay, solarDays } from './solar-days';
import { hourlyRain } from './synthesis-rain';

const DAY_MS = 86_400_000;
const HOURS = YEAR_DAYS * 24;

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
    length: HOURS,
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

function persistentScores(random: Random, lag1: number): Float64Array {
  const scores = new Float64Array(YEAR_DAYS);
  const fresh = Math.sqrt(1 - lag1 * lag1);
  let z = drawNormal(random);
  for (let d = 0; d < YEAR_DAYS; d++) {
    scores[d] = z;
    z = lag1 * z + fresh * drawNormal(random);
  }
  return scores;
}

function dailyClearness(
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
          say(
            month,
            `${row.sunshine_h} h of sunshine a day are more than the sun is up (${possible.toFixed(1)} h)`,
          ),
        );
      mean = clearnessFromSunshine(Math.min(1, share), angstrom);
    }
    if (above / length < 3e5) mean = Math.min(mean, 0.5); // hardly any sun to share out
    if (mean > 0.8) {
      notices.push(
        say(month, `the sun would reach ${(100 * mean).toFixed(0)} % of that above the air; 80 % is taken`),
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

function say(month: number, what: string): Notice {
  return {
    code: 'climate-row-doubtful',
    severity: 'unsure',
    path: `/weather/months/${month}`,
    message: `Month ${month + 1}: ${what}`,
  };
}

/** Hour angle [rad] of an instant in a solar day. */
function hourAngle(day: SolarDay, utc_ms: number): number {
  return ((utc_ms - day.noon_ms) / DAY_MS) * 2 * Math.PI;
}

function hourlyGlobal(year: readonly SolarDay[], clearness: Float64Array, start_ms: number): Float64Array {
  const global = new Float64Array(HOURS);
  year.forEach((day, d) => {
    const total = clearness[d] * day.extraterrestrial_Jm2;
    // The turn of the sun reaches half a day to either side of noon; hours over the year's ends go round.
    const firstHour = Math.floor((day.noon_ms - DAY_MS / 2 - start_ms) / 3_600_000);
    for (let h = firstHour; h <= firstHour + 24; h++) {
      const from = hourAngle(day, start_ms + h * 3_600_000);
      const share = hourShare(day.sunset, from, from + Math.PI / 12);
      global[((h % HOURS) + HOURS) % HOURS] += (total * share) / 3600;
    }
  });
  return global;
}

function hourlyAir(
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
  let air: Float64Array = new Float64Array(HOURS);
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

function meanByMonth(values: Float64Array): number[] {
  const sums = new Array<number>(12).fill(0);
  values.forEach((v, d) => {
    sums[MONTH_OF_DAY[d]] += v / MONTH_DAYS[MONTH_OF_DAY[d]];
  });
  return sums;
}

/** Lowest at sunrise, highest two hours after solar noon, half cosines between. */
function halfCosines(
  year: readonly SolarDay[],
  high: Float64Array,
  low: Float64Array,
  start_ms: number,
): Float64Array {
  const air = new Float64Array(HOURS);
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
  for (let h = 0; h < HOURS; h++) {
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

function hourlyDew(
  table: ClimateTable,
  clearness: Float64Array,
  air: Float64Array,
  guessed: RawColumn[],
  notices: Notice[],
): Float64Array {
  const byMonth = meanByMonth(clearness);
  const monthOfHour = (h: number): number => MONTH_OF_DAY[Math.floor(h / 24)];
  const hoursOf = MONTH_DAYS.map((days) => days * 24);
  if (table.months.some((m) => m.dewPoint_C === undefined && m.humidity === undefined)) {
    guessed.push('dewPoint_C');
    notices.push({
      code: 'climate-dew-guessed',
      severity: 'unsure',
      path: '/weather',
      message: 'Humidity is not given for every month: the dew point is guessed at the mean low',
      remedy: 'Give humidity or dew point: evaporation follows it.',
    });
  }
  const want = table.months.map((m) => ({
    dew: m.dewPoint_C ?? (m.humidity === undefined ? m.low_C : undefined),
    humidity: m.humidity,
  }));
  const nodes = want.map(({ dew, humidity }, m) => {
    const mean = (table.months[m].high_C + table.months[m].low_C) / 2;
    return dew ?? dewPointFromHumidity(mean, humidity ?? 0.6);
  });
  const lines = daily(nodes);
  const shift = new Array<number>(12).fill(0);
  const make = (): Float64Array => {
    const dew = new Float64Array(HOURS);
    for (let h = 0; h < HOURS; h++) {
      const d = Math.floor(h / 24);
      // Judgement: 6 K drier for a clearness index one higher; clear days ±1 K of the month's mean.
      dew[h] = Math.max(
        -55,
        Math.min(air[h], lines[d] + shift[MONTH_OF_DAY[d]] - 6 * (clearness[d] - byMonth[MONTH_OF_DAY[d]])),
      );
    }
    return dew;
  };
  let dew = make();
  for (let round = 0; round < 25; round++) {
    const gotDew = new Array<number>(12).fill(0);
    const gotHumidity = new Array<number>(12).fill(0);
    for (let h = 0; h < HOURS; h++) {
      const m = monthOfHour(h);
      gotDew[m] += dew[h] / hoursOf[m];
      if (want[m].dew === undefined) gotHumidity[m] += humidityFromDewPoint(air[h], dew[h]) / hoursOf[m];
    }
    let worst = 0;
    for (let m = 0; m < 12; m++) {
      const { dew: target, humidity } = want[m];
      // 17 K of dew point to a factor e of vapour pressure.
      const off =
        target !== undefined
          ? target - gotDew[m]
          : 17 * Math.log((humidity ?? gotHumidity[m]) / gotHumidity[m]);
      worst = Math.max(worst, Math.abs(off));
      shift[m] += Math.min(4, Math.max(-4, off));
    }
    if (worst < 0.01) return dew;
    dew = make();
  }
  want.forEach(({ dew: target }, m) => {
    let got = 0;
    for (let h = 0; h < HOURS; h++) if (monthOfHour(h) === m) got += dew[h] / hoursOf[m];
    if (target !== undefined && Math.abs(got - target) > 0.2 && table.months[m].dewPoint_C !== undefined)
      notices.push(
        say(
          m,
          `a dew point of ${target} °C does not fit the temperatures; ${got.toFixed(1)} °C is the mean made`,
        ),
      );
  });
  return dew;
}

function hourlyWind(
  table: ClimateTable,
  year: readonly SolarDay[],
  start_ms: number,
  random: Random,
  lag1: number,
  guessed: RawColumn[],
): Float64Array {
  if (table.months.some((m) => m.wind_ms === undefined)) guessed.push('wind_ms');
  const scores = persistentScores(random, lag1);
  const wind = new Float64Array(HOURS);
  const sums = new Array<number>(12).fill(0);
  for (let h = 0; h < HOURS; h++) {
    const d = Math.floor(h / 24);
    const solarHour = 12 + (start_ms + (h + 0.5) * 3_600_000 - year[d].noon_ms) / 3_600_000;
    // Judgement: 35 % rhythm over the day, 35 % from day to day.
    const rhythm = 1 + 0.35 * Math.cos(((solarHour - 15) / 12) * Math.PI);
    wind[h] = rhythm * Math.exp(0.35 * scores[d]);
    sums[MONTH_OF_DAY[d]] += wind[h];
  }
  for (let h = 0; h < HOURS; h++) {
    const m = MONTH_OF_DAY[Math.floor(h / 24)];
    wind[h] *= ((table.months[m].wind_ms ?? 2) * MONTH_DAYS[m] * 24) / sums[m];
  }
  return wind;
}

function hourlyCloud(
  table: ClimateTable,
  year: readonly SolarDay[],
  clearness: Float64Array,
  start_ms: number,
): Float64Array {
  const cloud = clearness.map((k) => cloudFromClearness(k, table.angstrom ?? ANGSTROM_FAO));
  return Float64Array.from({ length: HOURS }, (_, h) => {
    const t = start_ms + (h + 0.5) * 3_600_000;
    const d = Math.floor(h / 24);
    const other = t < year[d].noon_ms ? d - 1 : d + 1;
    const share = Math.abs(t - year[d].noon_ms) / DAY_MS;
    return cloud[d] * (1 - share) + cloud[(other + YEAR_DAYS) % YEAR_DAYS] * share;
  });
}
