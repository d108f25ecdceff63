import type { Place } from '@sunlap/engine/sun/place';
import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { rainOrNone } from './epw';
import { isDay, layOut, type Stamp, spread } from './layout';
import { findColumn, QUANTITIES } from './named-columns';
import { finishReading, refuse, say, type WeatherReading } from './reading';
import { isBlank, type NumberColumn, problemList, readNumber, splitTable } from './table';

/** Units a column may be in, as factor and offset to the house's own. */
const UNITS = {
  '°C': [1, 0],
  '°F': [1 / 1.8, -32 / 1.8],
  K: [1, -273.15],
  '%': [0.01, 0],
  share: [1, 0],
  tenths: [0.1, 0],
  oktas: [0.125, 0],
  'W/m²': [1, 0],
  'kWh/m²': [1000, 0],
  'kJ/m²': [1 / 3.6, 0],
  'm/s': [1, 0],
  'km/h': [1 / 3.6, 0],
  mph: [0.44704, 0],
  kn: [1852 / 3600, 0],
  Pa: [1, 0],
  hPa: [100, 0],
  kPa: [1000, 0],
  inHg: [3386.389, 0],
  mm: [1, 0],
  in: [25.4, 0],
} as const satisfies Record<string, readonly [number, number]>;

export type CsvUnit = keyof typeof UNITS;

/** Where in the table each quantity stands. A column by its name in the header or by its number, first is 1. */
export interface CsvMapping {
  readonly name: string;
  readonly place: Place;
  /** Offset of the file's clock from universal time [h]; standard time, no summer time. */
  readonly utcOffset_h: number;
  /** `,` `;` tab or `|`; found from the first line when left out. */
  readonly delimiter?: string;
  readonly decimalComma?: boolean;
  /** Lines before the data, the one with column names last; 0 when there are none. */
  readonly headerLines: number;
  /** One column of date and time, or one of date and one of time. */
  readonly time:
    | { readonly stamp: string | number }
    | { readonly date: string | number; readonly clock: string | number };
  /** Order of a date in figures. */
  readonly dateOrder: 'ymd' | 'mdy' | 'dmy';
  /** What of its interval a stamp marks. */
  readonly marks: 'start' | 'middle' | 'end';
  readonly columns: Partial<Record<RawColumn, { readonly column: string | number; readonly unit: CsvUnit }>>;
  /** Texts that mean "missing", apart from an empty field. */
  readonly missing?: readonly string[];
  readonly windHeight_m?: number;
}

/** Reads a logger's or anybody's table. Part of a year is taken, with a notice. */
export function readPlainCsv(text: string, mapping: CsvMapping): WeatherReading {
  const delimiter = mapping.delimiter ?? guessDelimiter(text);
  const table = splitTable(text, delimiter);
  if ('message' in table) return refuse(table);
  const { rows, lineOf } = table;
  const problems = problemList();
  const header = mapping.headerLines > 0 ? (rows[mapping.headerLines - 1] ?? []) : [];
  const headerLine = mapping.headerLines > 0 ? lineOf(mapping.headerLines - 1) : 0;
  const locate = (column: string | number): number => {
    if (typeof column === 'number') return column - 1;
    const index = findColumn(header, [column]);
    if (index < 0) problems.add(headerLine, 0, header.slice(0, 8).join(delimiter), `a column “${column}”`);
    return index;
  };
  const time = mapping.time;
  const timeAt = 'stamp' in time ? [locate(time.stamp)] : [locate(time.date), locate(time.clock)];
  const columns: [RawColumn, NumberColumn][] = [];
  for (const [name, { column, unit }] of Object.entries(mapping.columns) as [
    RawColumn,
    { column: string | number; unit: CsvUnit },
  ][]) {
    const [scale, offset] = UNITS[unit];
    const { what, low, high, missing } = QUANTITIES[name];
    // Ranges are in the house's units (humidity in %, cloud in tenths there): bring them to the file's.
    const house = name === 'humidity' ? 0.01 : name === 'cloud' ? 0.1 : 1;
    columns.push([
      name,
      {
        index: locate(column),
        what: what.replace(/ \[.*\]/, ` [${unit}]`),
        low: (low * house - offset) / scale,
        high: (high * house - offset) / scale,
        missing,
        scale,
        offset,
        decimalComma: mapping.decimalComma,
        missingTexts: ['NaN', 'NA', 'N/A', 'null', '-', '--', ...(mapping.missing ?? [])],
      },
    ]);
  }
  if (problems.list.length > 0) return refuse(...problems.list);

  const stamps: Stamp[] = [];
  const values = columns.map(() => [] as number[]);
  const needed = Math.max(...timeAt, ...columns.map(([, column]) => column.index)) + 1;
  for (let i = mapping.headerLines; i < rows.length && !problems.full(); i++) {
    const row = rows[i];
    if (isBlank(row)) continue;
    const line = lineOf(i);
    if (row.length < needed) {
      problems.add(line, row.length, `${row.length} fields`, `at least ${needed} fields`);
      continue;
    }
    const found = timeAt.map((at) => row[at].trim()).join(' ');
    const moment = readMoment(found, mapping.dateOrder);
    if (!moment) {
      problems.add(line, timeAt[0] + 1, found, `date and time in the order ${ORDERS[mapping.dateOrder]}`);
      continue;
    }
    // A stamp with its own zone overrides the file's.
    const shift = moment.zone_min === null ? 0 : mapping.utcOffset_h * 60 - moment.zone_min;
    stamps.push({ ...moment, minute: moment.minute + shift, line });
    columns.forEach(([, column], k) => {
      values[k].push(readNumber(row, line, column, problems));
    });
  }
  if (problems.list.length > 0) return refuse(...problems.list);
  const layout = layOut(stamps, false, problems);
  if (!layout || problems.list.length > 0) return refuse(...problems.list);
  const days = (layout.length * layout.step_min) / 1440;
  const notices =
    days < 364.9
      ? [
          say(
            'weather-part-of-year',
            'unsure',
            `The file covers ${Math.round(days)} days, not a year`,
            'Use it for those days; a season needs a whole year.',
          ),
        ]
      : [];
  const back = mapping.marks === 'end' ? 1 : mapping.marks === 'middle' ? 0.5 : 0;
  return finishReading({
    format: 'csv',
    convention: `stamps at the ${mapping.marks} of steps of ${layout.step_min} min`,
    rows: stamps.length,
    leftOut: layout.leftOut,
    lines: spread(
      layout,
      stamps.map((s) => s.line),
    ),
    notices,
    raw: {
      name: mapping.name,
      place: mapping.place,
      utcOffset_h: mapping.utcOffset_h,
      start_ms: layout.start_ms - mapping.utcOffset_h * 3_600_000 - back * layout.step_min * 60_000,
      step_s: layout.step_min * 60,
      length: layout.length,
      typical: layout.typical,
      sunShift_s: 0,
      windHeight_m: mapping.windHeight_m ?? 10,
      columns: rainOrNone(Object.fromEntries(columns.map(([name], k) => [name, spread(layout, values[k])]))),
    },
  });
}

const ORDERS = { ymd: 'year, month, day', mdy: 'month, day, year', dmy: 'day, month, year' };

const MOMENT =
  /^(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})[ T]+(\d{1,2}):(\d{2})(?::\d{2}(?:\.\d+)?)?\s*(AM|PM)?\s*(Z|[+-]\d{2}:?\d{2})?$/i;

/** Date and clock of a stamp, or null; `zone_min` when it names its own zone. */
function readMoment(
  text: string,
  order: CsvMapping['dateOrder'],
): (Omit<Stamp, 'line'> & { zone_min: number | null }) | null {
  const m = MOMENT.exec(text);
  if (!m) return null;
  const parts = [Number(m[1]), Number(m[2]), Number(m[3])];
  const [year, month, day] =
    order === 'ymd'
      ? parts
      : order === 'mdy'
        ? [parts[2], parts[0], parts[1]]
        : [parts[2], parts[1], parts[0]];
  let hour = Number(m[4]);
  const minute = Number(m[5]);
  const half = m[6]?.toUpperCase();
  if (half) {
    if (!(hour >= 1 && hour <= 12)) return null;
    hour = (hour % 12) + (half === 'PM' ? 12 : 0);
  }
  if (!(year >= 1900 && year <= 2200 && month >= 1 && month <= 12 && isDay(month, day))) return null;
  if (!(minute <= 59 && (hour <= 23 || (hour === 24 && minute === 0)))) return null;
  const zone = m[7];
  let zone_min: number | null = null;
  if (zone) {
    const z = /^([+-])(\d{2}):?(\d{2})$/.exec(zone);
    zone_min = z ? (z[1] === '-' ? -1 : 1) * (Number(z[2]) * 60 + Number(z[3])) : 0;
  }
  return { year, month, day, minute: hour * 60 + minute, zone_min };
}

/** The delimiter that is most often in the first lines. */
export function guessDelimiter(text: string): string {
  const head = text.slice(0, 4000);
  let best = ',';
  let most = 0;
  for (const delimiter of [';', '\t', ',', '|']) {
    const n = head.split(delimiter).length - 1;
    if (n > most) {
      best = delimiter;
      most = n;
    }
  }
  return best;
}
