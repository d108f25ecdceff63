import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { isDay, layOut, type Stamp, spread } from './layout';
import { finishReading, refuse, type WeatherReading } from './reading';
import { negativeCode, problemList, strictNumber } from './table';

/** One fixed-width field: first and last column of the line, 1-based, as the manual has it. */
type Field = readonly [first: number, last: number];

interface FixedColumn {
  readonly at: Field;
  readonly what: string;
  readonly low: number;
  readonly high: number;
  readonly missing: (value: number) => boolean;
  readonly scale: number;
}

const watts = (at: Field, what: string): FixedColumn => ({
  at,
  what,
  low: 0,
  high: 1600,
  missing: (v) => v === 9999 || negativeCode(v),
  scale: 1,
});

/** Data elements, Marion & Urban 1995, "User's Manual for TMY2s", table 3-2 (from memory). */
const COLUMNS: Partial<Record<RawColumn, FixedColumn>> = {
  global_Wm2: watts([18, 21], 'global sunlight [W/m²]'),
  directNormal_Wm2: watts([24, 27], 'direct sunlight [W/m²]'),
  diffuse_Wm2: watts([30, 33], 'diffuse sunlight [W/m²]'),
  cloud: { at: [60, 61], what: 'sky cover [tenths]', low: 0, high: 10, missing: (v) => v === 99, scale: 0.1 },
  air_C: {
    at: [68, 71],
    what: 'dry bulb [0.1 °C]',
    low: -700,
    high: 700,
    missing: (v) => v === 9999,
    scale: 0.1,
  },
  dewPoint_C: {
    at: [74, 77],
    what: 'dew point [0.1 °C]',
    low: -800,
    high: 700,
    missing: (v) => v === 9999,
    scale: 0.1,
  },
  humidity: {
    at: [80, 82],
    what: 'relative humidity [%]',
    low: 0,
    high: 110,
    missing: (v) => v === 999,
    scale: 0.01,
  },
  pressure_Pa: {
    at: [85, 88],
    what: 'pressure [mbar]',
    low: 310,
    high: 1200,
    missing: (v) => v === 9999,
    scale: 100,
  },
  wind_ms: {
    at: [96, 98],
    what: 'wind speed [0.1 m/s]',
    low: 0,
    high: 800,
    missing: (v) => v === 999,
    scale: 0.1,
  },
};

const cut = (line: string, [first, last]: Field): string => line.slice(first - 1, last);

/**
 * Reads a TMY2 file: fixed columns, one header line with latitude and longitude in degrees and minutes, hours 1 to
 * 24 that end at their stamp, two-digit years.
 */
export function readTmy2(text: string): WeatherReading {
  const lines = text.split(/\r\n|\n|\r/);
  const problems = problemList();
  const head = lines[0] ?? '';
  const number = (at: Field, what: string, low: number, high: number): number => {
    const found = cut(head, at).trim();
    const value = strictNumber(found);
    if (!(value >= low && value <= high)) problems.add(1, at[0], found, `${what} from ${low} to ${high}`);
    return value;
  };
  const sign = (at: number, positive: string, negative: string): number => {
    const letter = head.charAt(at - 1);
    if (letter !== positive && letter !== negative) problems.add(1, at, letter, `${positive} or ${negative}`);
    return letter === negative ? -1 : 1;
  };
  const utcOffset_h = number([34, 36], 'time zone', -12, 14);
  const latitude_deg =
    sign(38, 'N', 'S') *
    (number([40, 41], 'degrees of latitude', 0, 90) + number([43, 44], 'minutes of latitude', 0, 59) / 60);
  const longitude_deg =
    sign(46, 'E', 'W') *
    (number([48, 50], 'degrees of longitude', 0, 180) + number([52, 53], 'minutes of longitude', 0, 59) / 60);
  const elevation_m = number([56, 59], 'elevation [m]', -450, 9000);
  if (problems.list.length > 0) return refuse(...problems.list);

  const stamps: Stamp[] = [];
  const columns = Object.entries(COLUMNS) as [RawColumn, FixedColumn][];
  const values = columns.map(() => [] as number[]);
  for (let i = 1; i < lines.length && !problems.full(); i++) {
    const line = lines[i];
    if (line.trim() === '') continue;
    if (line.length < 98) {
      problems.add(i + 1, line.length, `${line.length} characters`, 'at least 98 characters');
      continue;
    }
    const [year, month, day, hour] = (
      [
        [2, 3],
        [4, 5],
        [6, 7],
        [8, 9],
      ] as const
    ).map((at) => strictNumber(cut(line, at).trim()));
    if (!(month >= 1 && month <= 12 && isDay(month, day) && hour >= 1 && hour <= 24 && year >= 0)) {
      problems.add(i + 1, 2, cut(line, [2, 9]), 'year, month, day and hour 1 to 24 in columns 2 to 9');
      continue;
    }
    stamps.push({ year: year + (year < 50 ? 2000 : 1900), month, day, minute: (hour - 1) * 60, line: i + 1 });
    columns.forEach(([, column], k) => {
      const found = cut(line, column.at).trim();
      const value = strictNumber(found);
      if (Number.isNaN(value)) problems.add(i + 1, column.at[0], found, `a number for ${column.what}`);
      else if (!column.missing(value) && !(value >= column.low && value <= column.high))
        problems.add(i + 1, column.at[0], found, `${column.what} from ${column.low} to ${column.high}`);
      values[k].push(column.missing(value) ? Number.NaN : value * column.scale);
    });
  }
  if (problems.list.length > 0) return refuse(...problems.list);
  const layout = layOut(stamps, true, problems);
  if (!layout || problems.list.length > 0) return refuse(...problems.list);
  return finishReading({
    format: 'tmy2',
    convention: 'means over the hour that ends at each stamp',
    rows: stamps.length,
    leftOut: layout.leftOut,
    lines: spread(
      layout,
      stamps.map((s) => s.line),
    ),
    notices: [],
    raw: {
      name: cut(head, [8, 29]).trim().replaceAll('_', ' ') || 'unnamed place',
      place: { latitude_deg, longitude_deg, elevation_m },
      utcOffset_h,
      start_ms: layout.start_ms - utcOffset_h * 3_600_000,
      step_s: layout.step_min * 60,
      length: layout.length,
      typical: layout.typical,
      sunShift_s: 0,
      windHeight_m: 10,
      columns: Object.fromEntries(columns.map(([name], k) => [name, spread(layout, values[k])])),
    },
  });
}
