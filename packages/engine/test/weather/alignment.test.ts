import { describe, expect, it } from 'vitest';
import { detectAlignment, equationOfTimeOfSteps } from '../../src/weather/alignment';
import { lightInterval_ms, type WeatherSeries } from '../../src/weather/series';
import { solarDays } from '../../src/weather/solar-days';
import { synthesiseYear } from '../../src/weather/synthesis';
import { place, temperate } from './tables';

const year = synthesiseYear(temperate()).series;

/** The same sky with stamps that are `minutes` too early: the light is later than its stamp says. */
function late(series: WeatherSeries, minutes: number): WeatherSeries {
  return { ...series, start_ms: series.start_ms - minutes * 60_000 };
}

describe('interval alignment', () => {
  // Our own synthetic sky, whose light is symmetric about noon by construction: 3 min is the parabola's error.
  it.each([0, 30, -30, 60, 10.6, -60])('finds light that is %f min later than stated', (minutes) => {
    const found = detectAlignment(late(year, minutes));
    expect(Math.abs((found.shift_min ?? 999) - minutes)).toBeLessThan(3);
    expect(found.solarTime).toBe(false);
    expect(found.days).toBeGreaterThan(15);
    expect(found.correlation).toBeGreaterThan(0.99);
  });

  it('works in the south and across the date line', () => {
    for (const [latitude, longitude, offset] of [
      [-33.9, 151.2, 10],
      [-17.8, 178, 12],
      [21.3, -157.9, -10],
    ]) {
      const series = synthesiseYear(temperate(place(latitude, longitude, offset))).series;
      expect(Math.abs(detectAlignment(series).shift_min ?? 999)).toBeLessThan(3);
      expect(Math.abs((detectAlignment(late(series, 30)).shift_min ?? 999) - 30)).toBeLessThan(3);
    }
  });

  it('is judged against what is stated', () => {
    const stated = { ...late(year, 30), sunShift_s: 1800 };
    expect(Math.abs(detectAlignment(stated).shift_min ?? 999)).toBeLessThan(3);
  });

  it('recognises a file in solar time and gives its light the true interval', () => {
    // Rewrite the year as a station with a sundial: each step holds the light of its solar hour.
    const days = solarDays(year.place, year.start_ms, year.start_ms + year.length * 3_600_000);
    const equation = equationOfTimeOfSteps(year);
    const global = Float64Array.from(year.global_Wm2, (_, i) => {
      const at = i - equation[i] / 60; // where, in clock hours, this solar hour lies
      const k = Math.floor(at);
      const share = at - k;
      return (year.global_Wm2[k] ?? 0) * (1 - share) + (year.global_Wm2[k + 1] ?? 0) * share;
    });
    const found = detectAlignment({ ...year, global_Wm2: global });
    expect(found.solarTime).toBe(true);
    expect(Math.abs(found.shift_min ?? 999)).toBeLessThan(3);
    const sundial = { ...year, global_Wm2: global, solarTime: true };
    for (const i of [1000, 4000, 7300]) {
      const [from] = lightInterval_ms(sundial, i, equation[i]);
      expect(from).toBeCloseTo(lightInterval_ms(year, i)[0] - equation[i] * 60_000, 3);
    }
    expect(days.length).toBeGreaterThan(360);
  });

  it('cannot tell from a week, from rain, or from darkness', () => {
    const week: WeatherSeries = { ...year, length: 168 };
    expect(detectAlignment(week).shift_min).toBeNull();
    const flat = { ...year, global_Wm2: year.global_Wm2.map((g) => Math.min(g, 60)) };
    expect(detectAlignment(flat).shift_min).toBeNull();
    const dark = { ...year, global_Wm2: new Float64Array(year.length) };
    expect(detectAlignment(dark).shift_min).toBeNull();
  });
});

describe('equation of time', () => {
  // Verified: almanac values, −14.2 min about 11 February, +16.4 about 3 November; ±0.3 min for the year.
  it('has the almanac’s extremes', () => {
    const equation = equationOfTimeOfSteps(year);
    expect(equation[41 * 24 + 12]).toBeCloseTo(-14.2, 0);
    expect(equation[306 * 24 + 12]).toBeCloseTo(16.4, 0);
  });
});
