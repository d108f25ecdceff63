import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { intervalSun } from '../../src/sun/day';
import { clearnessFromSunshine } from '../../src/weather/angstrom';
import { clearnessDistribution, clearnessShare } from '../../src/weather/clearness';
import type { ClimateMonth } from '../../src/weather/climate-table';
import { monthlySummary } from '../../src/weather/monthly';
import { MONTH_DAYS, MONTH_OF_DAY } from '../../src/weather/normals';
import { lightInterval_ms, localMoment, skyLongWave_Wm2, stepStart_ms } from '../../src/weather/series';
import { solarDays } from '../../src/weather/solar-days';
import { synthesiseYear } from '../../src/weather/synthesis';
import { place, temperate } from './tables';

const YEAR_MS = 365 * 86_400_000;

function possibleSunshine(latitude: number, longitude: number, offset: number): number[] {
  const start = Date.UTC(2001, 0, 1) - offset * 3_600_000;
  const days = solarDays(
    { latitude_deg: latitude, longitude_deg: longitude, elevation_m: 0 },
    start,
    start + YEAR_MS,
  );
  const sums = new Array<number>(12).fill(0);
  days.forEach((day) => {
    const at = Math.floor((day.noon_ms - start) / 86_400_000);
    if (at >= 0 && at < 365)
      sums[MONTH_OF_DAY[at]] += ((24 / Math.PI) * day.sunset) / MONTH_DAYS[MONTH_OF_DAY[at]];
  });
  return sums;
}

function lag(values: ArrayLike<number>): number {
  const n = values.length;
  let mean = 0;
  for (let i = 0; i < n; i++) mean += values[i] / n;
  let a = 0;
  let b = 0;
  for (let i = 0; i < n; i++) {
    b += (values[i] - mean) ** 2;
    if (i > 0) a += (values[i] - mean) * (values[i - 1] - mean);
  }
  return a / b;
}

describe('a synthesised year', () => {
  // The promise of the method: monthly means within 0.2 K and 2 % of the table.
  it.each([1, 2, 77])('keeps the table’s monthly means, seed %i', (seed) => {
    const table = temperate();
    const { series, notices } = synthesiseYear(table, { seed });
    expect(notices).toEqual([]);
    const possible = possibleSunshine(40, -75, -5);
    const days = solarDays(table.place, series.start_ms, series.start_ms + YEAR_MS);
    const above = new Array<number>(12).fill(0);
    days.forEach((day) => {
      const at = Math.floor((day.noon_ms - series.start_ms) / 86_400_000);
      if (at >= 0 && at < 365)
        above[MONTH_OF_DAY[at]] += day.extraterrestrial_Jm2 / 3.6e6 / MONTH_DAYS[MONTH_OF_DAY[at]];
    });
    monthlySummary(series).forEach((got, m) => {
      const want = table.months[m];
      expect(got.days).toBe(MONTH_DAYS[m]);
      expect(Math.abs(got.high_C - want.high_C)).toBeLessThan(0.2);
      expect(Math.abs(got.low_C - want.low_C)).toBeLessThan(0.2);
      expect(Math.abs(got.air_C - (want.high_C + want.low_C) / 2)).toBeLessThan(1.2); // not in the table: shape of the day
      expect(Math.abs(got.humidity / (want.humidity ?? 0) - 1)).toBeLessThan(0.02);
      expect(Math.abs(got.wind_ms / (want.wind_ms ?? 0) - 1)).toBeLessThan(0.02);
      const irradiation = clearnessFromSunshine((want.sunshine_h ?? 0) / possible[m]) * above[m];
      expect(Math.abs(got.irradiation_kWhm2day / irradiation - 1)).toBeLessThan(0.02);
    });
  });

  it('keeps irradiation and dew point when the table has those', () => {
    const table = temperate();
    const months = table.months.map(
      ({ high_C, low_C }, m): ClimateMonth => ({
        high_C,
        low_C,
        irradiation_kWhm2: [1.8, 2.6, 3.7, 4.8, 5.6, 6.2, 6.1, 5.4, 4.4, 3.2, 2.0, 1.6][m],
        dewPoint_C: low_C - 1,
      }),
    );
    const { series } = synthesiseYear({ ...table, months });
    monthlySummary(series).forEach((got, m) => {
      expect(Math.abs(got.irradiation_kWhm2day / (months[m].irradiation_kWhm2 ?? 0) - 1)).toBeLessThan(0.02);
      expect(Math.abs(got.dewPoint_C - (months[m].dewPoint_C ?? 0))).toBeLessThan(0.2);
    });
    expect(series.origin.wind_ms).toBe('guessed');
    expect(monthlySummary(series)[5].wind_ms).toBeCloseTo(2, 6);
  });

  it('is the same for the same seed and another for another', () => {
    const a = synthesiseYear(temperate(), { seed: 5 }).series;
    const b = synthesiseYear(temperate(), { seed: 5 }).series;
    const c = synthesiseYear(temperate(), { seed: 6 }).series;
    for (const column of ['air_C', 'dewPoint_C', 'wind_ms', 'global_Wm2', 'diffuse_Wm2', 'cloud'] as const) {
      expect(b[column]).toEqual(a[column]);
      expect(c[column]).not.toEqual(a[column]);
    }
  });

  // Published, from memory: Bendt et al. 1981 after Liu & Jordan 1960, by the Kolmogorov distance over 20 years of one month.
  // 600 days with a forced mean; the 1 % point for 600 independent days is 0.067.
  it('daily clearness is distributed as published', () => {
    const values = new Map<number, number[]>();
    for (let seed = 0; seed < 20; seed++) {
      const { clearness } = synthesiseYear(temperate({}, { sunshine_h: undefined, irradiation_kWhm2: 3 }), {
        seed,
      });
      clearness.forEach((k, d) => {
        const m = MONTH_OF_DAY[d];
        if (m === 2 || m === 8) values.set(m, [...(values.get(m) ?? []), k]);
      });
    }
    for (const days of values.values()) {
      const sorted = [...days].sort((a, b) => a - b);
      const mean = sorted.reduce((a, b) => a + b, 0) / sorted.length;
      const distribution = clearnessDistribution(mean);
      const distance = Math.max(
        ...sorted.map((k, i) => Math.abs(clearnessShare(distribution, k) - (i + 0.5) / sorted.length)),
      );
      expect(distance).toBeLessThan(0.067);
    }
  });

  // Published, from memory: lag-1 autocorrelation of daily clearness 0.15…0.35 over stations (Graham, Hollands & Huget 1988: 0.29;
  // Aguiar, Collares-Pereira & Conde 1988: 0.1…0.35). One year of 365 days has ±0.05.
  it('bright days follow bright days as published', () => {
    const score: number[] = [];
    const clearness: number[] = [];
    for (let seed = 0; seed < 12; seed++) {
      const year = synthesiseYear(temperate(), { seed });
      score.push(lag(year.score) / 12);
      clearness.push(lag(year.clearness) / 12);
    }
    const sum = (values: number[]) => values.reduce((a, b) => a + b, 0);
    expect(Math.abs(sum(score) - 0.3)).toBeLessThan(0.04);
    expect(sum(clearness)).toBeGreaterThan(0.15);
    expect(sum(clearness)).toBeLessThan(0.35);
    expect(Math.abs(lag(synthesiseYear(temperate(), { lag1: 0 }).score))).toBeLessThan(0.12);
  });

  it('light belongs to the sun: none at night, never more than above the air, direct and diffuse make the global', () => {
    const { series } = synthesiseYear(temperate());
    for (let i = 0; i < series.length; i += 37) {
      const [from, to] = lightInterval_ms(series, i);
      const { sun, sunlitShare } = intervalSun(from, to, series.place);
      const global = series.global_Wm2[i];
      if (sunlitShare === 0) expect(global).toBeLessThan(3); // refraction apart, the two suns agree to a minute
      const cos = Math.max(0, Math.cos((sun.zenith_deg * Math.PI) / 180));
      expect(global).toBeLessThanOrEqual(1420 * cos + 15);
      if (sunlitShare === 1) {
        const sum = series.directNormal_Wm2[i] * cos + series.diffuse_Wm2[i];
        expect(Math.abs(sum - global)).toBeLessThan(3 + 0.01 * global);
      }
      expect(series.dewPoint_C[i]).toBeLessThanOrEqual(series.air_C[i]);
      expect(series.cloud[i]).toBeGreaterThanOrEqual(0);
      expect(series.cloud[i]).toBeLessThanOrEqual(1);
      expect(skyLongWave_Wm2(series, i)).toBeGreaterThan(120);
    }
  });

  it('noon lies at noon: the light’s centre of gravity is the solar noon', () => {
    const { series } = synthesiseYear(temperate());
    const days = solarDays(series.place, series.start_ms, series.start_ms + YEAR_MS);
    for (const d of [20, 110, 200, 300]) {
      const day = days[d];
      let sum = 0;
      let moment = 0;
      for (let i = 0; i < series.length; i++) {
        const t = stepStart_ms(series, i) + 1_800_000;
        if (Math.abs(t - day.noon_ms) > 43_200_000) continue;
        sum += series.global_Wm2[i];
        moment += series.global_Wm2[i] * (t - day.noon_ms);
      }
      expect(Math.abs(moment / sum)).toBeLessThan(60_000);
    }
  });

  it('clear days are warmer at three, colder at dawn, drier and less clouded', () => {
    const { series, clearness } = synthesiseYear(temperate());
    const july = Array.from({ length: 31 }, (_, i) => 181 + i).sort((a, b) => clearness[a] - clearness[b]);
    const mean = (days: number[], f: (d: number) => number) =>
      days.reduce((sum, d) => sum + f(d), 0) / days.length;
    const dull = july.slice(0, 8);
    const clear = july.slice(-8);
    const range = (d: number) => {
      const day = series.air_C.subarray(24 * d, 24 * d + 24);
      return Math.max(...day) - Math.min(...day);
    };
    const noon = (column: Float64Array) => (d: number) => column[24 * d + 12];
    expect(mean(clear, range)).toBeGreaterThan(mean(dull, range) + 2);
    expect(mean(clear, noon(series.dewPoint_C))).toBeLessThan(mean(dull, noon(series.dewPoint_C)));
    expect(mean(clear, noon(series.cloud))).toBeLessThan(mean(dull, noon(series.cloud)) - 0.2);
    expect(mean(clear, (d) => series.wind_ms[24 * d + 15])).toBeGreaterThan(
      mean(clear, (d) => series.wind_ms[24 * d + 3]),
    );
  });

  it.each([
    ['equator', 0, 32, 2],
    ['south', -33.9, 151.2, 10],
    ['date line', -17.8, 178, 12],
    ['other side of the date line', -14, -171, 13],
    ['polar', 78, 16, 1],
    ['south pole', -90, 0, 12],
  ])('does not break at the %s', (_, latitude, longitude, offset) => {
    const { series } = synthesiseYear(
      temperate(place(latitude, longitude, offset), {
        sunshine_h: undefined,
        irradiation_kWhm2: latitude > 70 || latitude < -80 ? 2 : 4,
      }),
    );
    expect(series.length).toBe(8760);
    for (const column of [
      'air_C',
      'dewPoint_C',
      'wind_ms',
      'global_Wm2',
      'directNormal_Wm2',
      'diffuse_Wm2',
      'cloud',
    ] as const)
      expect(series[column].every(Number.isFinite)).toBe(true);
    const months = monthlySummary(series);
    if (latitude > 70) {
      expect(months[11].irradiation_kWhm2day).toBe(0);
      expect(months[5].irradiation_kWhm2day).toBeGreaterThan(1.9);
    }
    if (latitude === -90) expect(months[5].irradiation_kWhm2day).toBe(0);
    const first = localMoment(stepStart_ms(series, 0), series.utcOffset_h);
    expect([first.month, first.day, first.hour]).toEqual([0, 1, 0]);
  });

  it('says when the table cannot be', () => {
    const codes = (over: Partial<ClimateMonth>) =>
      synthesiseYear(temperate({}, over)).notices.map((n) => n.code);
    expect(codes({ humidity: undefined })).toContain('climate-dew-guessed');
    expect(codes({ sunshine_h: 15 })).toContain('climate-row-doubtful');
    expect(codes({ irradiation_kWhm2: 9 })).toContain('climate-row-doubtful');
    expect(codes({ dewPoint_C: 3.9 })).toContain('climate-row-doubtful'); // over January's mean temperature
  });

  it('refuses a table that is none', () => {
    const bad: Partial<ClimateMonth>[] = [
      { high_C: Number.NaN },
      { low_C: 40 },
      { sunshine_h: undefined },
      { sunshine_h: 25 },
      { humidity: 66 },
      { wind_ms: -1 },
    ];
    for (const month of bad) expect(() => synthesiseYear(temperate({}, month))).toThrow(DomainError);
    expect(() => synthesiseYear(temperate({ months: [] }))).toThrow(DomainError);
    expect(() => synthesiseYear(temperate({ utcOffset_h: 20 }))).toThrow(DomainError);
    expect(() => synthesiseYear(temperate(), { lag1: 1 })).toThrow(DomainError);
    expect(() => synthesiseYear(temperate(), { seed: Number.NaN })).toThrow(DomainError);
  });

  it('takes any sensible table', () => {
    const month = fc.record({
      off: fc.double({ min: -2, max: 2, noNaN: true }),
      range: fc.double({ min: 3, max: 16, noNaN: true }),
      irradiation_kWhm2: fc.double({ min: 0.1, max: 8, noNaN: true }),
      humidity: fc.double({ min: 0.15, max: 0.9, noNaN: true }),
    });
    const climate = fc.record({
      mean: fc.double({ min: -5, max: 27, noNaN: true }),
      swing: fc.double({ min: -15, max: 15, noNaN: true }),
      latitude: fc.double({ min: -65, max: 65, noNaN: true }),
      months: fc.array(month, { minLength: 12, maxLength: 12 }),
      seed: fc.integer(),
    });
    fc.assert(
      fc.property(climate, ({ mean, swing, latitude, months, seed }) => {
        const rows = months.map(({ off, range, ...rest }, m) => {
          const middle = mean + off + swing * Math.cos(((m + 0.5) / 6) * Math.PI);
          return { high_C: middle + range / 2, low_C: middle - range / 2, ...rest };
        });
        const { series } = synthesiseYear({ ...temperate(place(latitude, 0, 0)), months: rows }, { seed });
        const off = monthlySummary(series).map((got, m) => [
          Math.abs(got.high_C - rows[m].high_C),
          Math.abs(got.low_C - rows[m].low_C),
          10 * Math.abs(got.humidity / rows[m].humidity - 1), // 2 % in the units of 0.2 K
          got.irradiation_kWhm2day - 1.02 * rows[m].irradiation_kWhm2,
        ]);
        expect(off.filter((row) => Math.max(...row) >= 0.2)).toEqual([]);
      }),
      { seed: 9, numRuns: 25, endOnFailure: true },
    );
  });
});
