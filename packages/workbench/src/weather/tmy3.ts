import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { rainOrNone } from './epw';
import { isDay, layOut, type Stamp, spread } from './layout';
import { findColumn, millibar, QUANTITIES } from './named-columns';
import { finishReading, refuse, type WeatherReading } from './reading';
import { isBlank, type NumberColumn, problemList, readNumber, splitTable, strictNumber } from './table';

/** Names under which the columns have been published; later editions moved and renamed some. */
const NAMES: Partial<Record<RawColumn, readonly string[]>> = {
  air_C: ['Dry-bulb (C)', 'Dry-bulb'],
  dewPoint_C: ['Dew-point (C)', 'Dew-point'],
  humidity: ['RHum (%)', 'RHum'],
  pressure_Pa: ['Pressure (mbar)', 'Pressure'],
  wind_ms: ['Wspd (m/s)', 'Wspd'],
  global_Wm2: ['GHI (W/m^2)', 'GHI'],
  directNormal_Wm2: ['DNI (W/m^2)', 'DNI'],
  diffuse_Wm2: ['DHI (W/m^2)', 'DHI'],
  cloud: ['TotCld (tenths)', 'TotCld'],
  rain_kgm2: ['Lprecip depth (mm)', 'Lprecip depth'],
};

/**
 * Reads a TMY3 file (Wilcox & Marion 2008, NREL/TP-581-43156). Two header lines; rows 01:00 to 24:00 are means
 * over the hour that ends then; columns are found by name, because there is more than one order of them.
 */
export function readTmy3(text: string): WeatherReading {
  const table = splitTable(text);
  if ('message' in table) return refuse(table);
  const { rows, lineOf } = table;
  const problems = problemList();
  const head = rows[0] ?? [];
  const header = (index: number, what: string, low: number, high: number): number => {
    const value = strictNumber((head[index] ?? '').trim());
    if (!(value >= low && value <= high))
      problems.add(1, index + 1, head[index] ?? '', `${what} from ${low} to ${high}`);
    return value;
  };
  const utcOffset_h = header(3, 'time zone', -12, 14);
  const latitude_deg = header(4, 'latitude', -90, 90);
  const longitude_deg = header(5, 'longitude', -180, 180);
  const elevation_m = header(6, 'elevation [m]', -450, 9000);
  const names = rows[1] ?? [];
  const dateColumn = findColumn(names, ['Date (MM/DD/YYYY)', 'Date']);
  const timeColumn = findColumn(names, ['Time (HH:MM)', 'Time']);
  if (dateColumn < 0 || timeColumn < 0)
    problems.add(2, 1, names[0] ?? '', 'columns Date (MM/DD/YYYY) and Time (HH:MM)');
  const columns: [RawColumn, NumberColumn][] = [];
  for (const [name, aliases] of Object.entries(NAMES) as [RawColumn, readonly string[]][]) {
    const index = findColumn(names, aliases);
    if (index < 0) continue;
    if (name === 'pressure_Pa') columns.push([name, millibar(index)]);
    else
      columns.push([
        name,
        { ...QUANTITIES[name], index, scale: name === 'humidity' ? 0.01 : name === 'cloud' ? 0.1 : 1 },
      ]);
  }
  for (const need of ['air_C', 'global_Wm2'] as const)
    if (!columns.some(([name]) => name === need))
      problems.add(2, 0, names.slice(0, 6).join(','), `a column ${NAMES[need]?.[0]}`);
  if (problems.list.length > 0) return refuse(...problems.list);

  const stamps: Stamp[] = [];
  const values = columns.map(() => [] as number[]);
  for (let i = 2; i < rows.length && !problems.full(); i++) {
    const row = rows[i];
    if (isBlank(row)) continue;
    const line = lineOf(i);
    if (row.length < names.length) {
      problems.add(line, row.length, `${row.length} fields`, `${names.length} fields as in the header`);
      continue;
    }
    const date = /^(\d{1,2})\/(\d{1,2})\/(\d{4})$/.exec(row[dateColumn].trim());
    const time = /^(\d{1,2}):(\d{2})$/.exec(row[timeColumn].trim());
    if (!date || !isDay(Number(date[1]), Number(date[2]))) {
      problems.add(line, dateColumn + 1, row[dateColumn], 'a date MM/DD/YYYY');
      continue;
    }
    const end = time ? Number(time[1]) * 60 + Number(time[2]) : Number.NaN;
    if (!(end >= 0 && end <= 1440)) {
      problems.add(line, timeColumn + 1, row[timeColumn], 'a time from 00:00 to 24:00');
      continue;
    }
    stamps.push({
      year: Number(date[3]),
      month: Number(date[1]),
      day: Number(date[2]),
      minute: end - 60,
      line,
    });
    columns.forEach(([, column], k) => {
      values[k].push(readNumber(row, line, column, problems));
    });
  }
  if (problems.list.length > 0) return refuse(...problems.list);
  const layout = layOut(stamps, true, problems);
  if (!layout || problems.list.length > 0) return refuse(...problems.list);
  return finishReading({
    format: 'tmy3',
    convention: 'means over the hour that ends at each stamp',
    rows: stamps.length,
    leftOut: layout.leftOut,
    lines: spread(
      layout,
      stamps.map((s) => s.line),
    ),
    notices: [],
    raw: {
      name:
        [head[1], head[2]]
          .map((s) => (s ?? '').trim())
          .filter(Boolean)
          .join(', ') || 'unnamed place',
      place: { latitude_deg, longitude_deg, elevation_m },
      utcOffset_h,
      start_ms: layout.start_ms - utcOffset_h * 3_600_000,
      step_s: layout.step_min * 60,
      length: layout.length,
      typical: layout.typical,
      sunShift_s: 0,
      windHeight_m: 10,
      columns: rainOrNone(Object.fromEntries(columns.map(([name], k) => [name, spread(layout, values[k])]))),
    },
  });
}
