import { dewPointFromVapourPressure, pressureAtElevation, saturationPressure } from '../fluids/moist-air';
import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import type { Place } from '../sun/place';
import { splitGlobal } from '../sun/split';
import { cloudFromClearness } from './angstrom';
import { fillGaps } from './gaps';
import type { Origin, SeriesColumn, WeatherSeries } from './series';
import { intervalCosZenith, type SolarDay, solarDayOf, solarDays } from './solar-days';

/** Quantities a source may bring; NaN where a value is missing. */
export type RawColumn =
  | 'air_C'
  | 'dewPoint_C'
  | 'humidity'
  | 'pressure_Pa'
  | 'wind_ms'
  | 'global_Wm2'
  | 'directNormal_Wm2'
  | 'diffuse_Wm2'
  | 'longWave_Wm2'
  | 'cloud'
  | 'rain_kgm2';

/** Weather as a source gives it, in equal steps. */
export interface RawWeather {
  readonly name: string;
  readonly place: Place;
  readonly utcOffset_h: number;
  readonly start_ms: number;
  readonly step_s: number;
  readonly length: number;
  readonly typical: boolean;
  readonly sunShift_s: number;
  readonly solarTime?: boolean;
  readonly windHeight_m: number;
  readonly columns: Partial<Record<RawColumn, Float64Array>>;
  /** Columns that somebody guessed, not measured. */
  readonly guessed?: readonly RawColumn[];
}

/** A series, or what is missing for one; notices in either case. */
export type Assembled =
  | { readonly ok: true; readonly series: WeatherSeries; readonly notices: Notice[] }
  | {
      readonly ok: false;
      readonly reason: string;
      /** First step that cannot be mended, or −1. */
      readonly step: number;
      readonly column: string;
    };

/**
 * Makes a full series of what a source brought: fills short gaps and counts them, gets dew point from humidity,
 * direct and diffuse from global (Erbs) or global from direct and diffuse, cloud from clearness, pressure from
 * elevation, and says which of these it did.
 *
 * @throws {DomainError} only for columns of different length, which no reader makes
 */
export function assembleWeather(raw: RawWeather): Assembled {
  const n = raw.length;
  for (const [name, column] of Object.entries(raw.columns))
    if (column.length !== n) throw new DomainError(`length of ${name}`, column.length, `${n}`);
  const perDay = 86_400 / raw.step_s;
  if (!(perDay >= 1 && Number.isInteger(perDay)))
    return {
      ok: false,
      reason: `its steps of ${+(raw.step_s / 60).toFixed(2)} min do not fill a day: a day must have a whole number of them`,
      step: -1,
      column: '',
    };
  const notices: Notice[] = [];
  const columns: Partial<Record<RawColumn, Float64Array>> = {};
  let filled = 0;
  let longest = 0;
  for (const name of Object.keys(raw.columns) as RawColumn[]) {
    const source = raw.columns[name];
    if (!source) continue;
    const values = Float64Array.from(source);
    if (values.every(Number.isNaN)) continue; // as if the source did not have it
    const fill = fillGaps(values, perDay, !/_Wm2$/.test(name) || name === 'longWave_Wm2');
    if (fill.tooLong >= 0) {
      // A column that can be had in another way is given up; the others are refused.
      if (name !== 'air_C' && name !== 'global_Wm2' && name !== 'dewPoint_C' && name !== 'wind_ms') {
        notices.push(
          note(
            'weather-column-dropped',
            'unsure',
            `${LABEL[name]} has a gap of over three days and is not used`,
          ),
        );
        continue;
      }
      return {
        ok: false,
        reason: `${LABEL[name]} is missing for over three days`,
        step: fill.tooLong,
        column: name,
      };
    }
    if (fill.filled > 0) {
      filled += fill.filled;
      longest = Math.max(longest, fill.longest);
      notices.push(
        note(
          'weather-gaps-filled',
          fill.filled > 0.05 * n ? 'unsure' : 'info',
          `${LABEL[name]}: ${fill.filled} missing value${fill.filled > 1 ? 's' : ''} filled, longest gap ${fill.longest} step${fill.longest > 1 ? 's' : ''}`,
        ),
      );
    }
    columns[name] = values;
  }

  const air = columns.air_C;
  if (!air) return { ok: false, reason: 'there is no air temperature', step: -1, column: 'air_C' };
  const days = solarDays(
    raw.place,
    raw.start_ms - 43_200_000,
    raw.start_ms + n * raw.step_s * 1000 + 43_200_000,
  );
  const light = lightColumns(raw, columns, days);
  if (!light)
    return {
      ok: false,
      reason: 'there is no sunlight, neither global nor direct and diffuse',
      step: -1,
      column: 'global_Wm2',
    };

  const guessed = new Set<string>(raw.guessed ?? []);
  const origin: Record<SeriesColumn, Origin> = {
    air_C: 'measured',
    dewPoint_C: 'measured',
    pressure_Pa: 'measured',
    wind_ms: 'measured',
    ...light.origin,
    cloud: 'measured',
  };
  for (const name of guessed) if (name in origin) origin[name as SeriesColumn] = 'guessed';

  let dew: Float64Array | undefined = columns.dewPoint_C;
  if (!dew && columns.humidity) {
    const humidity = columns.humidity;
    dew = air.map((t, i) => dewFrom(t, humidity[i]));
    origin.dewPoint_C = guessed.has('humidity') ? 'guessed' : 'computed';
  }
  if (!dew) {
    dew = nightlyLows(air, perDay);
    origin.dewPoint_C = 'guessed';
    notices.push(
      note(
        'weather-no-humidity',
        'unsure',
        'No humidity: the dew point is taken at each night’s low',
        'Give dew point or humidity: evaporation follows it.',
      ),
    );
  }
  // Rounding in a source may put the dew point a little over the air's temperature.
  let over = 0;
  dew = dew.map((d, i) => {
    if (d > air[i] + 0.5) over++;
    return Math.min(d, air[i]);
  });
  if (over > 0)
    notices.push(
      note(
        'weather-dew-over-air',
        'unsure',
        `In ${over} steps the dew point is over the air’s temperature; it is taken as saturated air`,
      ),
    );

  let pressure = columns.pressure_Pa;
  if (!pressure) {
    pressure = new Float64Array(n).fill(pressureAtElevation(raw.place.elevation_m));
    origin.pressure_Pa = 'computed';
  }
  let wind = columns.wind_ms;
  if (!wind) {
    wind = new Float64Array(n).fill(2);
    origin.wind_ms = 'guessed';
    notices.push(
      note(
        'weather-no-wind',
        'unsure',
        'No wind: 2 m/s is taken all year',
        'Give wind, or widen the exposure’s interval.',
      ),
    );
  } else if (n > perDay && wind.every((w) => w === wind?.[0]))
    notices.push(
      note(
        'weather-constant-wind',
        'unsure',
        `The wind is ${wind[0]} m/s in every step: somebody’s placeholder, not a measurement`,
      ),
    );

  let cloud: Float64Array | undefined = columns.cloud?.map((c) => Math.min(1, Math.max(0, c)));
  if (!cloud) {
    cloud = cloudColumn(raw, light.global, days);
    origin.cloud = 'computed';
  }

  return {
    ok: true,
    notices,
    series: {
      name: raw.name,
      place: raw.place,
      utcOffset_h: raw.utcOffset_h,
      start_ms: raw.start_ms,
      step_s: raw.step_s,
      length: n,
      typical: raw.typical,
      sunShift_s: raw.sunShift_s,
      solarTime: raw.solarTime ?? false,
      windHeight_m: raw.windHeight_m,
      air_C: air,
      dewPoint_C: dew,
      pressure_Pa: pressure,
      wind_ms: wind,
      global_Wm2: light.global,
      directNormal_Wm2: light.direct,
      diffuse_Wm2: light.diffuse,
      cloud,
      longWave_Wm2: columns.longWave_Wm2 ?? null,
      rain_kgm2: columns.rain_kgm2 ?? null,
      origin,
      gaps: { filled, longest },
    },
  };
}

/** What a person calls each column. */
const LABEL: Record<RawColumn, string> = {
  air_C: 'Air temperature',
  dewPoint_C: 'Dew point',
  humidity: 'Humidity',
  pressure_Pa: 'Air pressure',
  wind_ms: 'Wind',
  global_Wm2: 'Global sunlight',
  directNormal_Wm2: 'Direct sunlight',
  diffuse_Wm2: 'Diffuse sunlight',
  longWave_Wm2: 'Long wave from the sky',
  cloud: 'Cloud cover',
  rain_kgm2: 'Rain',
};

function note(code: string, severity: Notice['severity'], message: string, remedy?: string): Notice {
  return { code, severity, path: '/weather', message, ...(remedy ? { remedy } : {}) };
}

function dewFrom(air: number, humidity: number): number {
  const vapour = Math.min(1, Math.max(0.005, humidity)) * saturationPressure(air);
  return dewPointFromVapourPressure(Math.max(2, vapour));
}

interface Light {
  global: Float64Array;
  direct: Float64Array;
  diffuse: Float64Array;
  origin: Pick<Record<SeriesColumn, Origin>, 'global_Wm2' | 'directNormal_Wm2' | 'diffuse_Wm2'>;
}

function lightColumns(raw: RawWeather, columns: RawWeather['columns'], days: SolarDay[]): Light | null {
  const { global_Wm2: g, directNormal_Wm2: b, diffuse_Wm2: d } = columns;
  const positive = (values: Float64Array): Float64Array => values.map((v) => Math.max(0, v));
  if (g && b && d)
    return {
      global: positive(g),
      direct: positive(b),
      diffuse: positive(d),
      origin: { global_Wm2: 'measured', directNormal_Wm2: 'measured', diffuse_Wm2: 'measured' },
    };
  const n = raw.length;
  const global = g ? positive(g) : new Float64Array(n);
  const direct = b ? positive(b) : new Float64Array(n);
  const diffuse = d ? positive(d) : new Float64Array(n);
  if (!g && !(b && d)) return null;
  for (let i = 0; i < n; i++) {
    const stated = raw.start_ms + (i * raw.step_s + raw.sunShift_s) * 1000;
    const start = stated - (raw.solarTime ? aheadOfClock_ms(days, stated + raw.step_s * 500) : 0);
    const { cosZenith } = intervalCosZenith(days, start, start + raw.step_s * 1000);
    if (!g) {
      global[i] = diffuse[i] + direct[i] * cosZenith;
    } else if (b) {
      diffuse[i] = Math.max(0, global[i] - direct[i] * cosZenith);
    } else if (d) {
      diffuse[i] = Math.min(diffuse[i], global[i]);
      direct[i] = beamOf(global[i] - diffuse[i], cosZenith);
    } else if (global[i] > 0) {
      const day = days[solarDayOf(days, start + raw.step_s * 500)];
      const zenith = (Math.acos(cosZenith) * 180) / Math.PI;
      const split = splitGlobal(global[i], zenith, day.extraterrestrialNormal_Wm2);
      direct[i] = split.directNormal_Wm2;
      diffuse[i] = split.diffuseHorizontal_Wm2;
    }
  }
  return {
    global,
    direct,
    diffuse,
    origin: {
      global_Wm2: g ? 'measured' : 'computed',
      directNormal_Wm2: b ? 'measured' : 'computed',
      diffuse_Wm2: d ? 'measured' : 'computed',
    },
  };
}

/** How far the sun is ahead of the mean clock on the day of an instant: what a source in solar time is off by [ms]. */
function aheadOfClock_ms(days: readonly SolarDay[], utc_ms: number): number {
  return days[solarDayOf(days, utc_ms)].equationOfTime_min * 60_000;
}

function beamOf(horizontal: number, cosZenith: number): number {
  return cosZenith > 0.02 ? Math.min(1400, Math.max(0, horizontal) / cosZenith) : 0;
}

/** Cloud by the clearness of the day, carried from noon to noon along straight lines. */
function cloudColumn(raw: RawWeather, global: Float64Array, days: SolarDay[]): Float64Array {
  const sums = new Float64Array(days.length);
  const steps = new Uint16Array(days.length);
  for (let i = 0; i < raw.length; i++) {
    const k = solarDayOf(days, raw.start_ms + (i + 0.5) * raw.step_s * 1000);
    sums[k] += global[i] * raw.step_s;
    steps[k]++;
  }
  const perDay = 86_400 / raw.step_s;
  let last = 0.5;
  const cloud = days.map((day, k) => {
    // Days cut off by the ends of the file, and days without sun, keep their neighbour's sky.
    if (steps[k] > 0.8 * perDay && day.extraterrestrial_Jm2 > 5e5)
      last = cloudFromClearness(sums[k] / day.extraterrestrial_Jm2);
    return last;
  });
  return Float64Array.from({ length: raw.length }, (_, i) => {
    const t = raw.start_ms + (i + 0.5) * raw.step_s * 1000;
    const x = (t - days[0].noon_ms) / 86_400_000;
    const k = Math.min(days.length - 2, Math.max(0, Math.floor(x)));
    const share = Math.min(1, Math.max(0, x - k));
    return cloud[k] * (1 - share) + cloud[k + 1] * share;
  });
}

/** Each day's lowest temperature, held through the day. */
function nightlyLows(air: Float64Array, perDay: number): Float64Array {
  const lows = new Float64Array(air.length);
  for (let from = 0; from < air.length; from += perDay) {
    const day = air.subarray(from, Math.min(air.length, from + perDay));
    lows.fill(Math.min(...day), from, from + day.length);
  }
  return lows;
}
