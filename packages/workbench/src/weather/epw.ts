import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { fieldNumber, fieldRows, fieldWhole } from './field-rows';
import { isDay, layOut, type Stamp, spread } from './layout';
import { finishReading, refuse, say, type WeatherReading } from './reading';
import { farBelow, type NumberColumn, negativeCode, problemList, strictNumber } from './table';

/** Lines before the data: LOCATION to DATA PERIODS. */
const HEADER_LINES = 8;

/** Fields of a data row, EnergyPlus "Auxiliary Programs", Weather Converter, EPW data dictionary. */
const COLUMNS: Partial<Record<RawColumn, NumberColumn>> = {
  air_C: { index: 6, what: 'dry bulb [°C]', low: -70, high: 70, missing: (v) => v === 99.9 || farBelow(v) },
  dewPoint_C: {
    index: 7,
    what: 'dew point [°C]',
    low: -80,
    high: 70,
    missing: (v) => v === 99.9 || farBelow(v),
  },
  humidity: {
    index: 8,
    what: 'relative humidity [%]',
    low: 0,
    high: 110,
    missing: (v) => v === 999 || negativeCode(v),
    scale: 0.01,
  },
  pressure_Pa: {
    index: 9,
    what: 'station pressure [Pa]',
    low: 31_000,
    high: 120_000,
    missing: (v) => v >= 999_000 || negativeCode(v),
  },
  longWave_Wm2: {
    index: 12,
    what: 'long wave from the sky [W/m²]',
    low: 0,
    high: 800,
    missing: (v) => v >= 9999 || v === 0 || negativeCode(v),
  },
  global_Wm2: {
    index: 13,
    what: 'global sunlight [W/m²]',
    low: -5,
    high: 1600,
    missing: (v) => v >= 9999 || negativeCode(v),
  },
  directNormal_Wm2: {
    index: 14,
    what: 'direct sunlight [W/m²]',
    low: -5,
    high: 1500,
    missing: (v) => v >= 9999 || negativeCode(v),
  },
  diffuse_Wm2: {
    index: 15,
    what: 'diffuse sunlight [W/m²]',
    low: -5,
    high: 1200,
    missing: (v) => v >= 9999 || negativeCode(v),
  },
  wind_ms: {
    index: 21,
    what: 'wind speed [m/s]',
    low: 0,
    high: 80,
    missing: (v) => v === 999 || negativeCode(v),
  },
  cloud: {
    index: 22,
    what: 'sky cover [tenths]',
    low: 0,
    high: 10,
    missing: (v) => v === 99 || negativeCode(v),
    scale: 0.1,
  },
  rain_kgm2: { index: 33, what: 'rain [mm]', low: 0, high: 500, missing: (v) => v >= 900 || negativeCode(v) },
};

/**
 * Reads an EnergyPlus weather file. Rows are stamped with the end of their interval; the minute field says 0 or 60
 * for one and the same thing, and means something only with several rows an hour.
 */
export function readEpw(text: string): WeatherReading {
  const rows = fieldRows(text);
  if ('message' in rows) return refuse(rows);
  const { lineOf } = rows;
  const problems = problemList();
  const head = rows.list(0);
  if ((head[0] ?? '').trim().toUpperCase() !== 'LOCATION') problems.add(1, 1, head[0] ?? '', 'LOCATION');
  if (rows.count <= HEADER_LINES)
    problems.add(lineOf(rows.count - 1), 0, `${rows.count} lines`, 'eight header lines and rows of data');
  const header = (index: number, what: string, low: number, high: number): number => {
    const value = strictNumber((head[index] ?? '').trim());
    if (!(value >= low && value <= high))
      problems.add(1, index + 1, head[index] ?? '', `${what} from ${low} to ${high}`);
    return value;
  };
  const latitude_deg = header(6, 'latitude', -90, 90);
  const longitude_deg = header(7, 'longitude', -180, 180);
  const utcOffset_h = header(8, 'time zone', -12, 14);
  const elevation_m = header(9, 'elevation [m]', -450, 9000);
  if (problems.list.length > 0) return refuse(...problems.list);

  const opening = Array.from({ length: Math.min(20, rows.count) }, (_, i) => rows.list(i));
  const periods = opening.findIndex((row) => /^DATA PERIODS/i.test(row[0] ?? ''));
  const first = periods >= 0 ? periods + 1 : HEADER_LINES;
  const perHourText = (periods >= 0 ? (opening[periods][2] ?? '1') : '1').trim();
  const perHour = strictNumber(perHourText);
  if (!(Number.isInteger(perHour) && perHour >= 1 && perHour <= 60)) {
    problems.add(lineOf(periods), 3, perHourText, 'rows an hour from 1 to 60');
    return refuse(...problems.list);
  }

  const stamps: Stamp[] = [];
  const columns = Object.entries(COLUMNS) as [RawColumn, NumberColumn][];
  const values = columns.map(() => [] as number[]);
  for (let i = first; i < rows.count && !problems.full(); i++) {
    const row = rows.row(i);
    if (row.isBlank()) continue;
    const line = lineOf(i);
    if (row.length < 22) {
      problems.add(line, row.length, `${row.length} fields`, 'at least 22 fields');
      continue;
    }
    const year = fieldWhole(row, line, 0, 'a year', 1800, 2200, problems);
    const month = fieldWhole(row, line, 1, 'a month', 1, 12, problems);
    const day = fieldWhole(row, line, 2, 'a day', 1, 31, problems);
    const hour = fieldWhole(row, line, 3, 'an hour', 1, 24, problems);
    const minute = fieldWhole(row, line, 4, 'a minute', 0, 60, problems);
    if (!isDay(month, day)) {
      if (!Number.isNaN(month + day)) problems.add(line, 3, row.text(2), `a day of month ${month}`);
      continue;
    }
    // Several rows an hour: minutes are the interval's end, with 0 for the hour's last as well as 60.
    const end = perHour === 1 || minute === 0 ? 60 : minute;
    stamps.push({ year, month, day, minute: (hour - 1) * 60 + end - 60 / perHour, line });
    for (let k = 0; k < columns.length; k++) values[k].push(fieldNumber(row, line, columns[k][1], problems));
  }
  if (problems.list.length > 0) return refuse(...problems.list);

  // Files converted from instants say by how much the light is off; their own header may contradict their zone.
  const notices = [];
  const offset = /Irradiance Time Offset \(h\):\s*([-+]?[\d.]+)/i.exec(
    opening
      .slice(0, first)
      .map((row) => row.join(','))
      .join('\n'),
  );
  const instants = offset !== null;
  if (instants)
    notices.push(
      say(
        'epw-offset-header',
        'info',
        `The header gives the light an offset of ${offset[1]} h, which is in universal time though the rows are in zone UTC${utcOffset_h >= 0 ? '+' : ''}${utcOffset_h}; the light itself decides`,
      ),
    );
  const layout = layOut(stamps, true, problems);
  if (!layout || problems.list.length > 0) return refuse(...problems.list);
  const half_ms = instants ? 30_000 * layout.step_min : 0;
  return finishReading({
    format: 'epw',
    convention: instants
      ? 'values at the instant of each stamp'
      : 'means over the interval that ends at each stamp',
    rows: stamps.length,
    leftOut: layout.leftOut,
    lines: spread(
      layout,
      stamps.map((s) => s.line),
    ),
    notices,
    raw: {
      name: placeName(head[1], head[3]),
      place: { latitude_deg, longitude_deg, elevation_m },
      utcOffset_h,
      start_ms: layout.start_ms - utcOffset_h * 3_600_000 + half_ms,
      step_s: layout.step_min * 60,
      length: layout.length,
      typical: layout.typical,
      sunShift_s: 0,
      windHeight_m: 10,
      columns: rainOrNone(Object.fromEntries(columns.map(([name], k) => [name, spread(layout, values[k])]))),
    },
  });
}

function placeName(city = '', country = ''): string {
  const parts = [city, country].map((s) => s.trim()).filter((s) => s !== '' && s !== '-' && s !== 'unknown');
  return parts.length > 0 ? parts.join(', ') : 'unnamed place';
}

/** Rain is often given for few hours only; then the others are dry. */
export function rainOrNone(
  columns: Partial<Record<RawColumn, Float64Array>>,
): Partial<Record<RawColumn, Float64Array>> {
  const rain = columns.rain_kgm2;
  if (!rain) return columns;
  const known = rain.reduce((n, v) => n + (Number.isNaN(v) ? 0 : 1), 0);
  const { rain_kgm2: _, ...rest } = columns;
  return known < rain.length / 2 ? rest : { ...rest, rain_kgm2: rain.map((v) => (Number.isNaN(v) ? 0 : v)) };
}
