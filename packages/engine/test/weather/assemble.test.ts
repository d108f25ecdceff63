import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { humidityFromDewPoint, pressureAtElevation } from '../../src/fluids/moist-air';
import { DomainError } from '../../src/numeric/errors';
import { assembleWeather, type RawColumn, type RawWeather } from '../../src/weather/assemble';
import { fillGaps } from '../../src/weather/gaps';
import type { WeatherSeries } from '../../src/weather/series';
import { intervalCosZenith, solarDayOf, solarDays } from '../../src/weather/solar-days';
import { synthesiseYear } from '../../src/weather/synthesis';
import { temperate } from './tables';

const year = synthesiseYear(temperate()).series;

function raw(
  over: Partial<Record<RawColumn, Float64Array | undefined>> = {},
  rest: Partial<RawWeather> = {},
): RawWeather {
  const columns: Partial<Record<RawColumn, Float64Array>> = {
    air_C: year.air_C,
    dewPoint_C: year.dewPoint_C,
    wind_ms: year.wind_ms,
    global_Wm2: year.global_Wm2,
    directNormal_Wm2: year.directNormal_Wm2,
    diffuse_Wm2: year.diffuse_Wm2,
    pressure_Pa: year.pressure_Pa,
    cloud: year.cloud,
  };
  for (const [name, values] of Object.entries(over)) {
    if (values) columns[name as RawColumn] = values;
    else delete columns[name as RawColumn];
  }
  return {
    name: 'test',
    place: year.place,
    utcOffset_h: -5,
    start_ms: year.start_ms,
    step_s: 3600,
    length: year.length,
    typical: true,
    sunShift_s: 0,
    windHeight_m: 10,
    columns,
    ...rest,
  };
}

function series(weather: RawWeather): WeatherSeries {
  const made = assembleWeather(weather);
  if (!made.ok) throw new Error(made.reason);
  return made.series;
}

function codes(weather: RawWeather): string[] {
  const made = assembleWeather(weather);
  return made.ok ? made.notices.map((n) => n.code) : [made.reason];
}

function holed(values: Float64Array, from: number, length: number): Float64Array {
  const copy = Float64Array.from(values);
  for (let i = 0; i < length; i++) copy[(from + i) % copy.length] = Number.NaN;
  return copy;
}

describe('gaps', () => {
  it('short ones by a straight line, over New Year too', () => {
    const values = Float64Array.from({ length: 48 }, (_, i) => i);
    const cut = holed(values, 10, 4);
    expect(fillGaps(cut, 24, true)).toEqual({ filled: 4, longest: 4, tooLong: -1 });
    expect(Array.from(cut)).toEqual(Array.from(values));
    const ring = Float64Array.from({ length: 48 }, () => 3);
    expect(fillGaps(holed(ring, 46, 4), 24, true)).toEqual({ filled: 4, longest: 4, tooLong: -1 });
  });

  it('long ones by the days around, so that noon stays noon', () => {
    const day = (i: number) => Math.max(0, Math.sin((((i % 24) - 6) / 12) * Math.PI));
    const values = Float64Array.from({ length: 240 }, (_, i) => day(i));
    for (const length of [5, 20, 72]) {
      const cut = holed(values, 100, length);
      expect(fillGaps(cut, 24, false).longest).toBe(length);
      expect(Array.from(cut, (v, i) => Math.abs(v - values[i]) < 1e-12)).not.toContain(false);
    }
  });

  it('need a day of whole steps', () => {
    expect(() => fillGaps(new Float64Array(500), 86_400 / 420, true)).toThrow(DomainError);
    const seven = assembleWeather(raw({}, { step_s: 420 }));
    expect(seven.ok ? '' : seven.reason).toContain('steps of 7 min do not fill a day');
    expect(assembleWeather(raw({}, { step_s: 600 })).ok).toBe(true);
  });

  it('over three days are not filled but reported where they begin', () => {
    const cut = holed(
      Float64Array.from({ length: 480 }, () => 1),
      50,
      73,
    );
    expect(fillGaps(cut, 24, true)).toEqual({ filled: 0, longest: 0, tooLong: 50 });
    expect(fillGaps(new Float64Array(5).fill(Number.NaN), 24, true).tooLong).toBe(0);
  });

  it('never touches what is known, never leaves a hole it says it filled', () => {
    fc.assert(
      fc.property(
        fc.array(fc.option(fc.double({ min: -40, max: 40, noNaN: true }), { freq: 3 }), {
          minLength: 30,
          maxLength: 120,
        }),
        fc.boolean(),
        (list, straight) => {
          const values = Float64Array.from(list, (v) => v ?? Number.NaN);
          const missing = list.filter((v) => v === null).length;
          const fill = fillGaps(values, 24, straight);
          list.forEach((v, i) => {
            if (v !== null) expect(values[i]).toBe(v);
          });
          expect(values.filter(Number.isNaN).length).toBe(missing - fill.filled);
          if (fill.tooLong < 0) expect(fill.filled).toBe(missing);
        },
      ),
      { seed: 3, numRuns: 100 },
    );
  });
});

describe('a full series from what a source has', () => {
  it('keeps what is measured', () => {
    const got = series(raw());
    for (const name of ['air_C', 'wind_ms', 'global_Wm2', 'directNormal_Wm2', 'cloud'] as const)
      expect(got[name]).toEqual(year[name]);
    expect(got.origin.directNormal_Wm2).toBe('measured');
    expect(got.gaps).toEqual({ filled: 0, longest: 0 });
    expect(codes(raw())).toEqual([]);
  });

  it('counts and reports what it filled', () => {
    const weather = raw({ air_C: holed(year.air_C, 500, 3), wind_ms: holed(year.wind_ms, 90, 30) });
    expect(series(weather).gaps).toEqual({ filled: 33, longest: 30 });
    expect(codes(weather)).toEqual(['weather-gaps-filled', 'weather-gaps-filled']);
    expect(Math.abs(series(weather).air_C[501] - year.air_C[501])).toBeLessThan(2);
  });

  it('refuses a hole in what it cannot do without; drops what it can', () => {
    const made = assembleWeather(raw({ air_C: holed(year.air_C, 400, 100) }));
    expect(made).toMatchObject({ ok: false, step: 400, column: 'air_C' });
    expect(codes(raw({ cloud: holed(year.cloud, 400, 100) }))).toEqual(['weather-column-dropped']);
    expect(codes(raw({ air_C: undefined }))).toEqual(['there is no air temperature']);
    expect(assembleWeather(raw({ global_Wm2: undefined, diffuse_Wm2: undefined })).ok).toBe(false);
  });

  it('dew point from humidity is the dew point it came from', () => {
    const humidity = year.air_C.map((t, i) => humidityFromDewPoint(t, year.dewPoint_C[i]));
    const got = series(raw({ dewPoint_C: undefined, humidity }));
    expect(got.origin.dewPoint_C).toBe('computed');
    got.dewPoint_C.forEach((d, i) => {
      if (i % 50 === 0) expect(d).toBeCloseTo(year.dewPoint_C[i], 6);
    });
  });

  it('light: what is missing follows from the rest, by the same sun', () => {
    const whole = series(raw({ global_Wm2: undefined }));
    const noDirect = series(raw({ directNormal_Wm2: undefined }));
    const split = series(raw({ directNormal_Wm2: undefined, diffuse_Wm2: undefined }));
    for (let i = 0; i < year.length; i += 31) {
      expect(Math.abs(whole.global_Wm2[i] - year.global_Wm2[i])).toBeLessThan(
        1e-6 + 0.02 * year.global_Wm2[i],
      );
      if (year.global_Wm2[i] > 100)
        expect(Math.abs(noDirect.directNormal_Wm2[i] - year.directNormal_Wm2[i])).toBeLessThan(1);
      expect(split.directNormal_Wm2[i]).toBeCloseTo(year.directNormal_Wm2[i], 6);
    }
    expect(whole.origin.global_Wm2).toBe('computed');
  });

  it('fills in pressure, wind, dew point and cloud, and says which it guessed', () => {
    const weather = raw({
      pressure_Pa: undefined,
      wind_ms: undefined,
      dewPoint_C: undefined,
      cloud: undefined,
    });
    const got = series(weather);
    expect(got.origin).toMatchObject({
      pressure_Pa: 'computed',
      wind_ms: 'guessed',
      dewPoint_C: 'guessed',
      cloud: 'computed',
    });
    expect(codes(weather)).toEqual(['weather-no-humidity', 'weather-no-wind']);
    expect(got.pressure_Pa[0]).toBe(pressureAtElevation(50));
    // Cloud found again from the light alone.
    let off = 0;
    for (let i = 0; i < year.length; i++) off += Math.abs(got.cloud[i] - year.cloud[i]) / year.length;
    expect(off).toBeLessThan(0.02);
  });

  it('names a wind that never changes, and dew points over the air', () => {
    expect(codes(raw({ wind_ms: new Float64Array(year.length).fill(2.5) }))).toEqual([
      'weather-constant-wind',
    ]);
    const damp = year.air_C.map((t, i) => (i < 40 ? t + 3 : t - 2));
    expect(codes(raw({ dewPoint_C: damp }))).toEqual(['weather-dew-over-air']);
    expect(series(raw({ dewPoint_C: damp })).dewPoint_C[3]).toBe(year.air_C[3]);
  });

  it('small negative night values of a pyranometer are night', () => {
    const sensor = year.global_Wm2.map((g) => (g === 0 ? -2 : g));
    expect(Math.min(...series(raw({ global_Wm2: sensor })).global_Wm2)).toBe(0);
  });

  it('half hours work like hours', () => {
    const doubled = (values: Float64Array) =>
      Float64Array.from({ length: 2 * values.length }, (_, i) => values[i >> 1]);
    const got = series(
      raw(
        {
          air_C: doubled(year.air_C),
          global_Wm2: doubled(year.global_Wm2),
          dewPoint_C: doubled(year.dewPoint_C),
          wind_ms: doubled(year.wind_ms),
          directNormal_Wm2: undefined,
          diffuse_Wm2: undefined,
          pressure_Pa: undefined,
          cloud: undefined,
        },
        { step_s: 1800, length: 2 * year.length },
      ),
    );
    expect(got.length).toBe(17_520);
    expect(got.directNormal_Wm2.every(Number.isFinite)).toBe(true);
  });

  it('columns of different length are a programmer’s mistake', () => {
    expect(() => assembleWeather(raw({ cloud: new Float64Array(3) }))).toThrow(DomainError);
  });
});

// Exact: light of constant clearness, stamped by the sun, splits into the same beam all day long. On 2 November the sun
// is 16 min ahead of the clock: without the equation of time 240 W/m² came out in the morning and 1186 in the evening.
it('splits the light of a source in solar time by the sun of its own stamps', () => {
  const place = { latitude_deg: 40, longitude_deg: 0, elevation_m: 0 };
  const start_ms = Date.UTC(2025, 10, 1);
  const days = solarDays(place, start_ms - 86_400_000, start_ms + 4 * 86_400_000);
  const global = new Float64Array(72);
  for (let i = 0; i < 72; i++) {
    const middle = start_ms + (i + 0.5) * 3_600_000;
    const day = days[solarDayOf(days, middle)];
    const start = middle - 1_800_000 - day.equationOfTime_min * 60_000;
    const { cosZenith } = intervalCosZenith(days, start, start + 3_600_000);
    global[i] = 0.7 * day.extraterrestrialNormal_Wm2 * cosZenith;
  }
  const made = series({
    ...raw(),
    place,
    start_ms,
    length: 72,
    solarTime: true,
    columns: {
      air_C: new Float64Array(72).fill(12),
      dewPoint_C: new Float64Array(72).fill(5),
      global_Wm2: global,
    },
  });
  const beam = [8, 10, 12, 13, 15].map((h) => made.directNormal_Wm2[24 + h]);
  for (const b of beam) expect(Math.abs(b / beam[2] - 1)).toBeLessThan(0.01);
  expect(Math.abs(made.directNormal_Wm2[24 + 7] / made.directNormal_Wm2[24 + 16] - 1)).toBeLessThan(0.01);
});
