import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { isDay, layOut, type Stamp, spread } from './layout';
import { findColumn, QUANTITIES } from './named-columns';
import { finishReading, refuse, say, type WeatherReading } from './reading';
import {
  type NumberColumn,
  type ProblemList,
  problemList,
  readNumber,
  splitTable,
  strictNumber,
} from './table';

/** Columns of the typical-year layout and, where the plane lay flat, of the hourly-series layout. */
const NAMES: Partial<Record<RawColumn, readonly string[]>> = {
  air_C: ['T2m'],
  humidity: ['RH'],
  pressure_Pa: ['SP'],
  wind_ms: ['WS10m'],
  global_Wm2: ['G(h)'],
  directNormal_Wm2: ['Gb(n)'],
  diffuse_Wm2: ['Gd(h)'],
  longWave_Wm2: ['IR(h)'],
};

/** The hourly series has light on a plane; usable when that plane was level. */
const LEVEL_NAMES: Partial<Record<RawColumn, readonly string[]>> = {
  global_Wm2: ['G(i)'],
  diffuse_Wm2: ['Gd(i)'],
};

export interface PvgisOptions {
  /** Local standard time minus universal time [h]; from the longitude when left out. */
  readonly utcOffset_h?: number;
}

interface PvgisTable {
  readonly format: 'pvgis-csv' | 'pvgis-json';
  readonly latitude_deg: number;
  readonly longitude_deg: number;
  readonly elevation_m: number;
  readonly lightOffset_h: number;
  readonly level: boolean;
  readonly names: readonly string[];
  readonly nameLine: number;
  readonly rows: readonly (readonly string[])[];
  readonly lineOf: (row: number) => number;
}

/** Reads a PVGIS file as CSV: named header lines, a table, and a footer of text after an empty line. */
export function readPvgisCsv(text: string, options: PvgisOptions = {}): WeatherReading {
  const table = splitTable(text);
  if ('message' in table) return refuse(table);
  const problems = problemList();
  const { rows, lineOf } = table;
  const first = rows.findIndex((row) => /^time/i.test((row[0] ?? '').trim()) && row.length > 2);
  if (first < 0) {
    problems.add(0, 0, rows[0]?.join(',') ?? '', 'a line of column names that begins with time(UTC)');
    return refuse(...problems.list);
  }
  const header = new Map<string, { value: string; line: number }>();
  for (let i = 0; i < first; i++) {
    const whole = rows[i].join(',');
    const colon = whole.indexOf(':');
    if (colon > 0)
      header.set(whole.slice(0, colon).trim().toLowerCase(), {
        value: whole.slice(colon + 1).trim(),
        line: lineOf(i),
      });
  }
  const headerNumber = (key: string, fallback: number | null, low: number, high: number): number => {
    const entry = header.get(key);
    if (!entry) {
      if (fallback === null) problems.add(0, 0, '', `a header line “${key}: …”`);
      return fallback ?? Number.NaN;
    }
    const value = strictNumber(entry.value.replace(/\s*(deg\.?|m)?\s*(\(.*\))?$/, ''));
    if (!(value >= low && value <= high))
      problems.add(entry.line, 0, entry.value, `${key} from ${low} to ${high}`);
    return value;
  };
  const latitude_deg = headerNumber('latitude (decimal degrees)', null, -90, 90);
  const longitude_deg = headerNumber('longitude (decimal degrees)', null, -180, 180);
  const elevation_m = headerNumber('elevation (m)', 0, -450, 9000);
  const lightOffset_h = headerNumber('irradiance time offset (h)', 0, -1, 1);
  const level = header.has('slope') && headerNumber('slope', 0, -90, 90) === 0;
  if (problems.list.length > 0) return refuse(...problems.list);
  const body: (readonly string[])[] = [];
  for (let i = first + 1; i < rows.length; i++) {
    // The footer begins after an empty line.
    if (rows[i].every((field) => field.trim() === '')) break;
    body.push(rows[i]);
  }
  return fromTable(
    {
      format: 'pvgis-csv',
      latitude_deg,
      longitude_deg,
      elevation_m,
      lightOffset_h,
      level,
      names: rows[first],
      nameLine: lineOf(first),
      rows: body,
      lineOf: (row) => lineOf(first + 1 + row),
    },
    options,
    problems,
  );
}

/** Reads a PVGIS answer as JSON: `inputs.location` and `outputs.tmy_hourly` or `outputs.hourly`. */
export function readPvgisJson(text: string, options: PvgisOptions = {}): WeatherReading {
  const problems = problemList();
  let parsed: unknown;
  try {
    parsed = JSON.parse(text);
  } catch (error) {
    const reason = error instanceof Error ? error.message : 'no JSON';
    const position = /position (\d+)/.exec(reason);
    const at = position ? Number(position[1]) : text.length;
    const before = text.slice(0, at);
    const line = before.split('\n').length;
    problems.add(line, at - before.lastIndexOf('\n'), text.slice(at, at + 20), 'JSON to the end of the file');
    return refuse(...problems.list);
  }
  const inputs = record(record(parsed)?.inputs);
  const location = record(inputs?.location);
  const outputs = record(record(parsed)?.outputs);
  const list = outputs?.tmy_hourly ?? outputs?.hourly;
  if (!location || !Array.isArray(list)) {
    problems.add(
      0,
      0,
      Object.keys(record(parsed) ?? {}).join(', '),
      'inputs.location and outputs.tmy_hourly',
    );
    return refuse(...problems.list);
  }
  const field = (key: string, low: number, high: number, fallback: number | null): number => {
    const value = location[key] ?? fallback;
    if (!(typeof value === 'number' && value >= low && value <= high)) {
      problems.add(0, 0, cell(value), `inputs.location.${key} from ${low} to ${high}`);
      return Number.NaN;
    }
    return value;
  };
  const latitude_deg = field('latitude', -90, 90, null);
  const longitude_deg = field('longitude', -180, 180, null);
  const elevation_m = field('elevation', -450, 9000, 0);
  const lightOffset_h = field('irradiance_time_offset', -1, 1, 0);
  const names = Object.keys(record(list[0]) ?? {});
  if (problems.list.length > 0) return refuse(...problems.list);
  const mounting = record(record(record(inputs?.mounting_system)?.fixed)?.slope);
  const rows = list.map((entry) => {
    const row = record(entry) ?? {};
    return names.map((name) => cell(row[name]));
  });
  return fromTable(
    {
      format: 'pvgis-json',
      latitude_deg,
      longitude_deg,
      elevation_m,
      lightOffset_h,
      level: mounting?.value === 0,
      names,
      nameLine: 0,
      rows,
      // In JSON the place of a row is its number in the list.
      lineOf: (row) => row + 1,
    },
    options,
    problems,
  );
}

/** A JSON value as a field of a table; what is neither number nor text is shown as it stands, to be refused. */
function cell(value: unknown): string {
  if (value === null || value === undefined) return '';
  return typeof value === 'string' || typeof value === 'number' ? `${value}` : JSON.stringify(value);
}

function record(value: unknown): Record<string, unknown> | null {
  return typeof value === 'object' && value !== null && !Array.isArray(value)
    ? (value as Record<string, unknown>)
    : null;
}

function fromTable(table: PvgisTable, options: PvgisOptions, problems: ProblemList): WeatherReading {
  const { names, rows, lineOf } = table;
  const timeColumn = findColumn(names, ['time(UTC)', 'time']);
  if (timeColumn < 0) problems.add(table.nameLine, 0, names.join(','), 'a column time(UTC)');
  const columns: [RawColumn, NumberColumn][] = [];
  const add = (list: Partial<Record<RawColumn, readonly string[]>>): void => {
    for (const [name, aliases] of Object.entries(list) as [RawColumn, readonly string[]][]) {
      const index = findColumn(names, aliases);
      if (index >= 0 && !columns.some(([have]) => have === name))
        columns.push([name, { ...QUANTITIES[name], index, scale: name === 'humidity' ? 0.01 : 1 }]);
    }
  };
  add(NAMES);
  if (table.level) add(LEVEL_NAMES);
  if (!columns.some(([name]) => name === 'global_Wm2'))
    problems.add(
      table.nameLine,
      0,
      names.join(','),
      findColumn(names, ['G(i)', 'Gb(i)']) >= 0
        ? 'sunlight on the level, G(h): ask for a typical year, or an hourly series with slope 0'
        : 'a column G(h)',
    );
  if (!columns.some(([name]) => name === 'air_C'))
    problems.add(table.nameLine, 0, names.join(','), 'a column T2m');
  if (problems.list.length > 0) return refuse(...problems.list);

  const stamps: Stamp[] = [];
  const values = columns.map(() => [] as number[]);
  for (let i = 0; i < rows.length && !problems.full(); i++) {
    const row = rows[i];
    const line = lineOf(i);
    if (row.length < names.length) {
      problems.add(line, row.length, `${row.length} fields`, `${names.length} fields as in the header`);
      continue;
    }
    const t = /^(\d{4})(\d{2})(\d{2}):(\d{2})(\d{2})$/.exec(row[timeColumn].trim());
    const month = Number(t?.[2]);
    const day = Number(t?.[3]);
    const minute = Number(t?.[4]) * 60 + Number(t?.[5]);
    if (!t || !(month >= 1 && month <= 12) || !isDay(month, day) || minute >= 1440) {
      problems.add(line, timeColumn + 1, row[timeColumn], 'a time YYYYMMDD:HHMM');
      continue;
    }
    stamps.push({ year: Number(t[1]), month, day, minute: minute - 30, line });
    columns.forEach(([, column], k) => {
      values[k].push(readNumber(row, line, column, problems));
    });
  }
  if (problems.list.length > 0) return refuse(...problems.list);
  const layout = layOut(stamps, true, problems);
  if (!layout || problems.list.length > 0) return refuse(...problems.list);
  const notices = [];
  let utcOffset_h = options.utcOffset_h;
  if (utcOffset_h === undefined) {
    utcOffset_h = Math.round(table.longitude_deg / 15);
    notices.push(
      say(
        'weather-zone-from-longitude',
        'info',
        `The file is in universal time; local standard time is taken as UTC${utcOffset_h >= 0 ? '+' : ''}${utcOffset_h} from its longitude`,
      ),
    );
  }
  return finishReading({
    format: table.format,
    convention: `values at the instant of each stamp, light ${(table.lightOffset_h * 60).toFixed(0)} min after it`,
    rows: stamps.length,
    leftOut: layout.leftOut,
    lines: spread(
      layout,
      stamps.map((s) => s.line),
    ),
    notices,
    raw: {
      name: `${table.latitude_deg.toFixed(2)}°, ${table.longitude_deg.toFixed(2)}°`,
      place: {
        latitude_deg: table.latitude_deg,
        longitude_deg: table.longitude_deg,
        elevation_m: table.elevation_m,
      },
      utcOffset_h,
      start_ms: layout.start_ms,
      step_s: layout.step_min * 60,
      length: layout.length,
      typical: layout.typical,
      sunShift_s: table.lightOffset_h * 3600,
      windHeight_m: 10,
      columns: Object.fromEntries(columns.map(([name], k) => [name, spread(layout, values[k])])),
    },
  });
}
