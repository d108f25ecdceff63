import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { isDay, layOut, type Stamp, spread } from './layout';
import { findColumn, millibar, QUANTITIES } from './named-columns';
import { finishReading, refuse, type WeatherReading } from './reading';
import {
  isBlank,
  type NumberColumn,
  problemList,
  readNumber,
  readWhole,
  splitTable,
  strictNumber,
} from './table';

/** Names the columns have had. */
const NAMES: Partial<Record<RawColumn, readonly string[]>> = {
  air_C: ['Temperature', 'Air Temperature', 'Temperature (°C)'],
  dewPoint_C: ['Dew Point', 'Dew Point Temperature'],
  humidity: ['Relative Humidity'],
  pressure_Pa: ['Pressure', 'Surface Pressure'],
  wind_ms: ['Wind Speed'],
  global_Wm2: ['GHI'],
  directNormal_Wm2: ['DNI'],
  diffuse_Wm2: ['DHI'],
};

/**
 * Reads an NSRDB file: a line of names, a line of values, a line of columns, then rows stamped with the middle of
 * their interval, hourly or half-hourly, in local standard time or in universal time as "Time Zone" says.
 */
export function readNsrdb(text: string): WeatherReading {
  const table = splitTable(text);
  if ('message' in table) return refuse(table);
  const { rows, lineOf } = table;
  const problems = problemList();
  const headNames = rows[0] ?? [];
  const head = rows[1] ?? [];
  const header = (aliases: string[], low: number, high: number): number => {
    const index = findColumn(headNames, aliases);
    const found = index >= 0 ? (head[index] ?? '').trim() : '';
    const value = strictNumber(found);
    if (index < 0) problems.add(1, 0, headNames.slice(0, 5).join(','), `a header field ${aliases[0]}`);
    else if (!(value >= low && value <= high))
      problems.add(2, index + 1, found, `${aliases[0]} from ${low} to ${high}`);
    return value;
  };
  const latitude_deg = header(['Latitude'], -90, 90);
  const longitude_deg = header(['Longitude'], -180, 180);
  const elevation_m = header(['Elevation'], -450, 9000);
  const dataOffset_h = header(['Time Zone'], -12, 14);
  const localIndex = findColumn(headNames, ['Local Time Zone']);
  const local = localIndex >= 0 ? strictNumber((head[localIndex] ?? '').trim()) : Number.NaN;
  const names = rows[2] ?? [];
  const timeAt = ['Year', 'Month', 'Day', 'Hour', 'Minute'].map((name) => findColumn(names, [name]));
  if (timeAt.slice(0, 4).some((i) => i < 0))
    problems.add(3, 0, names.slice(0, 5).join(','), 'columns Year, Month, Day, Hour, Minute');
  const columns: [RawColumn, NumberColumn][] = [];
  for (const [name, aliases] of Object.entries(NAMES) as [RawColumn, readonly string[]][]) {
    const index = findColumn(names, aliases);
    if (index < 0) continue;
    if (name === 'pressure_Pa') columns.push([name, millibar(index)]);
    else columns.push([name, { ...QUANTITIES[name], index, scale: name === 'humidity' ? 0.01 : 1 }]);
  }
  for (const need of ['air_C', 'global_Wm2'] as const)
    if (!columns.some(([name]) => name === need))
      problems.add(3, 0, names.join(','), `a column ${NAMES[need]?.[0]}`);
  if (problems.list.length > 0) return refuse(...problems.list);

  const stamps: Stamp[] = [];
  const values = columns.map(() => [] as number[]);
  for (let i = 3; i < rows.length && !problems.full(); i++) {
    const row = rows[i];
    if (isBlank(row)) continue;
    const line = lineOf(i);
    // Some exports end each row with an empty field that the header does not have, or the other way round.
    const needed = Math.max(...timeAt, ...columns.map(([, column]) => column.index)) + 1;
    if (row.length < needed) {
      problems.add(line, row.length, `${row.length} fields`, `at least ${needed} fields`);
      continue;
    }
    const year = readWhole(row, line, timeAt[0], 'a year', 1900, 2200, problems);
    const month = readWhole(row, line, timeAt[1], 'a month', 1, 12, problems);
    const day = readWhole(row, line, timeAt[2], 'a day', 1, 31, problems);
    const hour = readWhole(row, line, timeAt[3], 'an hour', 0, 23, problems);
    const minute = timeAt[4] >= 0 ? readWhole(row, line, timeAt[4], 'a minute', 0, 59, problems) : 30;
    if (!isDay(month, day)) {
      if (!Number.isNaN(month + day))
        problems.add(line, timeAt[2] + 1, row[timeAt[2]], `a day of month ${month}`);
      continue;
    }
    stamps.push({ year, month, day, minute: hour * 60 + minute, line });
    columns.forEach(([, column], k) => {
      values[k].push(readNumber(row, line, column, problems));
    });
  }
  if (problems.list.length > 0) return refuse(...problems.list);
  const layout = layOut(stamps, true, problems);
  if (!layout || problems.list.length > 0) return refuse(...problems.list);
  return finishReading({
    format: 'nsrdb',
    convention: `stamps in the middle of steps of ${layout.step_min} min`,
    rows: stamps.length,
    leftOut: layout.leftOut,
    lines: spread(
      layout,
      stamps.map((s) => s.line),
    ),
    notices: [],
    raw: {
      name: `${latitude_deg.toFixed(2)}°, ${longitude_deg.toFixed(2)}°`,
      place: { latitude_deg, longitude_deg, elevation_m },
      utcOffset_h: local >= -12 && local <= 14 ? local : dataOffset_h,
      start_ms: layout.start_ms - dataOffset_h * 3_600_000 - layout.step_min * 30_000,
      step_s: layout.step_min * 60,
      length: layout.length,
      typical: layout.typical,
      sunShift_s: 0,
      windHeight_m: 10,
      columns: Object.fromEntries(columns.map(([name], k) => [name, spread(layout, values[k])])),
    },
  });
}
