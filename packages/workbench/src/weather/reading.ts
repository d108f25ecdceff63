import type { Notice } from '@sunlap/engine/numeric/notice';
import { type Alignment, detectAlignment } from '@sunlap/engine/weather/alignment';
import { type Assembled, assembleWeather, type RawWeather } from '@sunlap/engine/weather/assemble';
import type { WeatherSeries } from '@sunlap/engine/weather/series';

export type WeatherFormat = 'epw' | 'tmy3' | 'tmy2' | 'pvgis-csv' | 'pvgis-json' | 'nsrdb' | 'csv';

/** Something in a file that cannot be read: where, what was there, what was expected. */
export interface ReadProblem {
  /** First line is 1; 0 when it is the file as a whole. */
  readonly line: number;
  /** First field of the line is 1; 0 when it is the whole line. */
  readonly column: number;
  readonly found: string;
  readonly expected: string;
  readonly message: string;
}

/** What was found in a file, in words a person can check. */
export interface WeatherFound {
  readonly format: WeatherFormat;
  /** How the file says its rows are stamped. */
  readonly convention: string;
  readonly alignment: Alignment;
  /** Rows of data, and rows left out (29 February of a typical year). */
  readonly rows: number;
  readonly leftOut: number;
}

export type WeatherReading =
  | {
      readonly ok: true;
      readonly series: WeatherSeries;
      readonly found: WeatherFound;
      readonly notices: Notice[];
    }
  | { readonly ok: false; readonly problems: ReadProblem[] };

/** More problems than this are not worth reading. */
export const MOST_PROBLEMS = 20;

export function problem(line: number, column: number, found: string, expected: string): ReadProblem {
  const at = line > 0 ? `Line ${line}${column > 0 ? `, column ${column}` : ''}: ` : '';
  const short = found.length > 40 ? `${found.slice(0, 40)}…` : found;
  const got = found === '' ? 'nothing' : `“${short}”`;
  return { line, column, found: short, expected, message: `${at}expected ${expected}, found ${got}` };
}

export function refuse(...problems: ReadProblem[]): WeatherReading {
  return { ok: false, problems: problems.slice(0, MOST_PROBLEMS) };
}

/** What a format's reader hands over: raw columns, and where each step came from for messages. */
export interface RawReading {
  readonly format: WeatherFormat;
  readonly convention: string;
  readonly raw: RawWeather;
  /** Line of each step, 0 where the file has none. */
  readonly lines: ArrayLike<number>;
  readonly rows: number;
  readonly leftOut: number;
  readonly notices: Notice[];
}

/** Shifts under this are the noise of clouds, not a convention [min]. */
const NOTICEABLE_MIN = 8;

/** Assembles the series, looks how its light is stamped, and corrects it where the file's statement is wrong. */
export function finishReading(read: RawReading): WeatherReading {
  let made = assembleWeather(read.raw);
  if (!made.ok) {
    const line = made.step >= 0 ? lineNear(read.lines, made.step) : 0;
    return refuse({
      line,
      column: 0,
      found: '',
      expected: 'air temperature, sunlight, dew point and wind without gaps of over three days',
      message: `${line > 0 ? `Line ${line}: ` : ''}${made.reason}`,
    });
  }
  const notices = [...read.notices];
  const alignment = detectAlignment(made.series);
  const shift = alignment.shift_min;
  if (shift === null)
    notices.push(
      say(
        'weather-alignment-unknown',
        'info',
        'Too few clear days to check how the sunlight is stamped; taken as stated',
      ),
    );
  else if (alignment.solarTime || Math.abs(shift) >= NOTICEABLE_MIN) {
    const raw = { ...read.raw, sunShift_s: read.raw.sunShift_s + 60 * shift, solarTime: alignment.solarTime };
    const { global_Wm2, directNormal_Wm2, diffuse_Wm2 } = raw.columns;
    // With all three measured the sun's place is not in any column.
    const again: Assembled =
      global_Wm2 && directNormal_Wm2 && diffuse_Wm2
        ? { ...made, series: { ...made.series, sunShift_s: raw.sunShift_s, solarTime: raw.solarTime } }
        : assembleWeather(raw);
    if (again.ok) made = again;
    notices.push(
      say(
        alignment.solarTime ? 'weather-solar-time' : 'weather-alignment',
        'unsure',
        alignment.solarTime
          ? `The file’s clock runs by the sun, not by the zone; its light is moved by the equation of time and ${shift.toFixed(0)} min`
          : `Stated: ${read.convention}. The light fits the sun best ${Math.abs(shift).toFixed(0)} min ${shift > 0 ? 'later' : 'earlier'} than that, and is moved there`,
      ),
    );
  }
  const { place, utcOffset_h } = read.raw;
  if (Math.abs(place.longitude_deg / 15 - utcOffset_h) > 3)
    notices.push(
      say(
        'weather-zone-odd',
        'unsure',
        `Longitude ${place.longitude_deg.toFixed(1)}° and an offset of ${utcOffset_h} h from universal time do not belong together`,
        'Check the file’s header.',
      ),
    );
  return {
    ok: true,
    series: made.series,
    found: {
      format: read.format,
      convention: read.convention,
      alignment,
      rows: read.rows,
      leftOut: read.leftOut,
    },
    notices: [...notices, ...made.notices],
  };
}

function lineNear(lines: ArrayLike<number>, step: number): number {
  for (let back = step; back >= 0; back--) if (lines[back] > 0) return lines[back];
  return 0;
}

export function say(code: string, severity: Notice['severity'], message: string, remedy?: string): Notice {
  return { code, severity, path: '/weather', message, ...(remedy ? { remedy } : {}) };
}
