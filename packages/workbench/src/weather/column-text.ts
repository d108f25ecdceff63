import type { Place } from '@sunlap/engine/sun/place';
import type { RawColumn } from '@sunlap/engine/weather/assemble';
import { nearest } from '@sunlap/project/file/explain';
import { type TablePreview, UNITS_OF } from './guess-mapping';
import { findColumn } from './named-columns';
import type { CsvMapping, CsvUnit } from './plain-csv';

/** What a quantity is called in a text of columns; the first name is the one that is written. */
const NAMES: Readonly<Record<RawColumn, readonly string[]>> = {
  air_C: ['temp', 'air', 'temperature'],
  dewPoint_C: ['dew', 'dewpoint'],
  humidity: ['humidity', 'rh'],
  pressure_Pa: ['pressure'],
  wind_ms: ['wind'],
  global_Wm2: ['sun', 'global', 'ghi', 'solar'],
  directNormal_Wm2: ['direct', 'dni'],
  diffuse_Wm2: ['diffuse', 'dhi'],
  longWave_Wm2: ['longwave'],
  cloud: ['cloud'],
  rain_kgm2: ['rain'],
};
const QUANTITY = new Map<string, RawColumn>(
  (Object.keys(NAMES) as RawColumn[]).flatMap((column) => NAMES[column].map((name) => [name, column])),
);
const OTHERS = ['time', 'date', 'clock', 'order', 'marks', 'zone', 'lat', 'lon', 'elevation'] as const;
type Other = (typeof OTHERS)[number];

/** Other ways to write a unit. */
const UNIT_TEXTS: Readonly<Record<string, CsvUnit>> = {
  C: '°C',
  F: '°F',
  'W/m2': 'W/m²',
  'kWh/m2': 'kWh/m²',
  'kJ/m2': 'kJ/m²',
};

/** Where the file is from and whose clock it keeps, as far as that is known without asking. */
export interface TablePlace {
  readonly place?: Place;
  readonly utcOffset_h?: number;
}

export type ColumnText =
  | { readonly ok: true; readonly mapping: CsvMapping }
  | { readonly ok: false; readonly message: string };

/**
 * A mapping from a typed line: `time=1, temp=Outdoor:°F, sun=4`. A column by its number or its name in the header, its
 * unit after a colon where the header does not say it. What is not named is not read; `guess` alone takes what the
 * table's head suggests. Besides: `date` and `clock` for two columns, `order` (ymd, mdy, dmy), `marks` (start, middle,
 * end of a row's time), `zone` (hours from universal time), `lat`, `lon`, `elevation` in metres.
 *
 * @param preview the table's head, as `previewTable` finds it
 * @param known   place and clock that hold where the text does not say others
 */
export function mappingFromText(
  text: string,
  preview: TablePreview,
  name: string,
  known: TablePlace = {},
): ColumnText {
  const fail = (message: string): ColumnText => ({ ok: false, message });
  const columns: { -readonly [K in RawColumn]?: { column: number; unit: CsvUnit } } = {};
  const others = new Map<Other, string>();
  const entries = text
    .split(',')
    .map((entry) => entry.trim())
    .filter((entry) => entry !== '');
  const guess = entries.some((entry) => entry.toLowerCase() === 'guess');
  if (guess) Object.assign(columns, preview.columns);
  for (const entry of entries) {
    if (entry.toLowerCase() === 'guess') continue;
    const [, key, value] = /^([^=]*)=(.*)$/.exec(entry) ?? ['', entry, ''];
    const word = key.trim().toLowerCase();
    const other = OTHERS.find((o) => o === word);
    const quantity = QUANTITY.get(word);
    if (value.trim() === '') return fail(`“${entry}”: expected a name and a column, as temp=2`);
    if (other) others.set(other, value.trim());
    else if (quantity === undefined) {
      const all = [...OTHERS, ...QUANTITY.keys()];
      const near = nearest(word, all);
      return fail(
        `“${key.trim()}”: ${near ? `did you mean ${near}? ` : ''}expected one of ${[...OTHERS, ...Object.values(NAMES).map((n) => n[0])].join(', ')}`,
      );
    } else {
      const read = columnOf(value.trim(), quantity, preview);
      if (typeof read === 'string') return fail(read);
      columns[quantity] = read;
    }
  }
  if (columns.air_C === undefined) return fail('no column of the air’s temperature; expected temp=…');
  const time = timeOf(others, preview);
  if (typeof time === 'string') return fail(time);
  const choice = <T extends string>(key: Other, allowed: readonly T[], usual: T): T | null =>
    others.has(key) ? (allowed.find((a) => a === others.get(key)?.toLowerCase()) ?? null) : usual;
  const order = choice('order', ['ymd', 'mdy', 'dmy'], preview.dateOrder);
  if (order === null) return fail(`order=${others.get('order')}: expected ymd, mdy or dmy`);
  const marks = choice('marks', ['start', 'middle', 'end'], 'start');
  if (marks === null) return fail(`marks=${others.get('marks')}: expected start, middle or end`);
  const figure = (key: Other, usual: number | undefined, least: number, most: number): number => {
    const given = others.get(key);
    const value = given === undefined ? (usual ?? Number.NaN) : Number(given.replace('−', '-'));
    return value >= least && value <= most ? value : Number.NaN;
  };
  const wanted = [
    ['lat', figure('lat', known.place?.latitude_deg, -90, 90), 'degrees north, as lat=35.1'],
    ['lon', figure('lon', known.place?.longitude_deg, -180, 180), 'degrees east, as lon=-106.6'],
    ['zone', figure('zone', known.utcOffset_h, -12, 14), 'hours from universal time, as zone=-7'],
    [
      'elevation',
      figure('elevation', known.place?.elevation_m ?? 0, -450, 6000),
      'metres over the sea, as elevation=1600',
    ],
  ] as const;
  for (const [key, value, expected] of wanted)
    if (Number.isNaN(value))
      return fail(
        `${others.has(key) ? `${key}=${others.get(key)}` : `${key} is missing`}: expected ${expected}`,
      );
  const [latitude_deg, longitude_deg, utcOffset_h, elevation_m] = wanted.map(([, value]) => value);
  return {
    ok: true,
    mapping: {
      name,
      place: { latitude_deg, longitude_deg, elevation_m },
      utcOffset_h,
      delimiter: preview.delimiter,
      decimalComma: preview.decimalComma,
      headerLines: preview.headerLines,
      time,
      dateOrder: order,
      marks,
      columns,
    },
  };
}

/** The line that `mappingFromText` reads, for what the table's head suggests. */
export function columnsAsText(preview: TablePreview): string {
  const time =
    'stamp' in preview.time
      ? [`time=${preview.time.stamp}`]
      : [`date=${preview.time.date}`, `clock=${preview.time.clock}`];
  const columns = (Object.keys(NAMES) as RawColumn[]).flatMap((name) => {
    const found = preview.columns[name];
    return found ? [`${NAMES[name][0]}=${found.column}:${found.unit}`] : [];
  });
  return [...time, ...columns].join(', ');
}

function columnOf(
  value: string,
  quantity: RawColumn,
  preview: TablePreview,
): { column: number; unit: CsvUnit } | string {
  const whole = placeOf(value, preview);
  const parted = whole === null ? /^(.*?)\s*:\s*([^:]+)$/.exec(value) : null;
  const column = whole ?? (parted ? placeOf(parted[1], preview) : null);
  if (column === null) return noColumn(parted?.[1] ?? value, preview);
  const units = UNITS_OF[quantity];
  if (parted) {
    const unit = Object.hasOwn(UNIT_TEXTS, parted[2]) ? UNIT_TEXTS[parted[2]] : parted[2];
    const found = units.find((u) => u.toLowerCase() === unit.toLowerCase());
    return found ? { column, unit: found } : `“${parted[2]}”: expected a unit of ${units.join(', ')}`;
  }
  const guessed = Object.values(preview.columns).find((c) => c.column === column);
  const unit = units.find((u) => u === guessed?.unit);
  return { column, unit: unit ?? units[0] };
}

/** Number of a column, from 1, by its number or its name; null where there is none. */
function placeOf(text: string, preview: TablePreview): number | null {
  const named = findColumn(preview.header, [text]);
  if (named >= 0) return named + 1;
  const number = /^\d+$/.test(text) ? Number(text) : 0;
  return number >= 1 && number <= preview.header.length ? number : null;
}

function noColumn(text: string, preview: TablePreview): string {
  const list = preview.header.map((name, i) => `${i + 1} ${name}`).join(', ');
  return `“${text}” is no column; the table has ${list}`;
}

function timeOf(others: ReadonlyMap<Other, string>, preview: TablePreview): CsvMapping['time'] | string {
  const [stamp, date, clock] = (['time', 'date', 'clock'] as const).map((key) => others.get(key));
  if (stamp === undefined && date === undefined && clock === undefined) return preview.time;
  if (stamp !== undefined && (date !== undefined || clock !== undefined))
    return 'time beside date and clock; expected one column of both, or one of each';
  if (stamp !== undefined) {
    const at = placeOf(stamp, preview);
    return at === null ? noColumn(stamp, preview) : { stamp: at };
  }
  if (date === undefined || clock === undefined) return 'expected both date=… and clock=…';
  const [d, c] = [placeOf(date, preview), placeOf(clock, preview)];
  if (d === null) return noColumn(date, preview);
  return c === null ? noColumn(clock, preview) : { date: d, clock: c };
}
