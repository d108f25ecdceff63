import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createRandom } from '../../src/numeric/random';
import type { ClimateTable } from '../../src/weather/climate-table';
import { MONTH_DAYS } from '../../src/weather/normals';
import { synthesiseYear } from '../../src/weather/synthesis';
import { hourlyRain } from '../../src/weather/synthesis-rain';

const table = (rain: (month: number) => number | undefined): ClimateTable => ({
  name: 'invented',
  place: { latitude_deg: 40, longitude_deg: -75, elevation_m: 50 },
  utcOffset_h: -5,
  months: Array.from({ length: 12 }, (_, m) => ({
    high_C: 20,
    low_C: 10,
    irradiation_kWhm2: 3,
    ...(rain(m) === undefined ? {} : { rain_mm: rain(m) }),
  })),
});
const byMonth = (rain: Float64Array): number[] => {
  let start = 0;
  return MONTH_DAYS.map((days) => {
    const sum = rain.slice(24 * start, 24 * (start + days)).reduce((a, b) => a + b, 0);
    start += days;
    return sum;
  });
};

describe('rain of a made year', () => {
  // Invariants: the month's sum is the table's, it falls on the dullest days, and the same seed rains alike.
  it('sums to the table on the dullest days', () => {
    fc.assert(
      fc.property(
        fc.array(fc.constantFrom(0, 0.4, 12, 80, 900), { minLength: 12, maxLength: 12 }),
        fc.integer(),
        (mm, seed) => {
          const clearness = Float64Array.from({ length: 365 }, (_, d) => 0.2 + ((d * 37) % 61) / 100);
          const rain = hourlyRain(
            table((m) => mm[m]),
            clearness,
            createRandom(seed),
          )!;
          byMonth(rain).forEach((sum, m) => {
            expect(sum).toBeCloseTo(mm[m], 9);
          });
          let start = 0;
          MONTH_DAYS.forEach((length) => {
            const days = Array.from({ length }, (_, d) => start + d);
            const wet = days.filter((d) => rain.slice(24 * d, 24 * d + 24).some((r) => r > 0));
            const dry = days.filter((d) => !wet.includes(d));
            expect(wet.length).toBeLessThanOrEqual(0.6 * length);
            if (wet.length > 0)
              expect(Math.max(...wet.map((d) => clearness[d]))).toBeLessThanOrEqual(
                Math.min(...dry.map((d) => clearness[d])),
              );
            start += length;
          });
        },
      ),
      { seed: 9, numRuns: 40 },
    );
  });

  it('comes into the series with everything else unchanged, and not where the table is silent', () => {
    const dry = synthesiseYear(table(() => undefined)).series;
    const wet = synthesiseYear(table((m) => (m === 3 ? 90 : undefined))).series;
    expect(dry.rain_kgm2).toBeNull();
    expect(byMonth(wet.rain_kgm2!).map(Math.round)).toEqual([0, 0, 0, 90, 0, 0, 0, 0, 0, 0, 0, 0]);
    expect(wet.global_Wm2).toEqual(dry.global_Wm2);
    expect(wet.wind_ms).toEqual(dry.wind_ms);
    expect(synthesiseYear(table(() => 50)).series.rain_kgm2).toEqual(
      synthesiseYear(table(() => 50)).series.rain_kgm2,
    );
    expect(() => synthesiseYear(table(() => -1))).toThrow();
  });
});
