import type { RawColumn } from '@sunlap/engine/weather/assemble';
import type { CsvMapping, CsvUnit } from './plain-csv';
import { guessDelimiter } from './plain-csv';
import { splitTable } from './table';

/** First lines of a table, as they stand, and what its columns may be. */
export interface TablePreview {
  readonly delimiter: string;
  readonly headerLines: number;
  /** Names of the columns, or “column 3” where there are none. */
  readonly header: readonly string[];
  readonly rows: readonly (readonly string[])[];
  readonly decimalComma: boolean;
  readonly time: CsvMapping['time'];
  readonly dateOrder: CsvMapping['dateOrder'];
  readonly columns: CsvMapping['columns'];
}

/** Units that a column of a quantity may be in, the usual one first. */
export const UNITS_OF: Record<RawColumn, readonly CsvUnit[]> = {
  air_C: ['°C', '°F', 'K'],
  dewPoint_C: ['°C', '°F', 'K'],
  humidity: ['%', 'share'],
  pressure_Pa: ['hPa', 'Pa', 'kPa', 'inHg'],
  wind_ms: ['m/s', 'km/h', 'mph', 'kn'],
  global_Wm2: ['W/m²', 'kWh/m²', 'kJ/m²'],
  directNormal_Wm2: ['W/m²', 'kWh/m²', 'kJ/m²'],
  diffuse_Wm2: ['W/m²', 'kWh/m²', 'kJ/m²'],
  longWave_Wm2: ['W/m²', 'kWh/m²', 'kJ/m²'],
  cloud: ['tenths', 'oktas', '%', 'share'],
  rain_kgm2: ['mm', 'in'],
};

/** Words by which a column is known, the surest first; what is taken by an earlier quantity is not looked at again. */
const WORDS: readonly (readonly [RawColumn, RegExp])[] = [
  ['dewPoint_C', /dew|\btdp?\b|taupunkt/],
  ['humidity', /humid|\brh\b|feuchte/],
  ['longWave_Wm2', /long.?wave|infra|\bir\b|\blw/],
  ['diffuse_Wm2', /diffus|\bdhi\b|\bdif/],
  ['directNormal_Wm2', /direct|beam|\bdni\b|normal/],
  ['global_Wm2', /global|\bghi\b|solar|irradi|radiation|sun|\bsr\b/],
  ['pressure_Pa', /press|baro|\bmbar|\bhpa\b/],
  ['wind_ms', /wind.?(speed|avg|mean)|\bws|^wind/],
  ['rain_kgm2', /rain|precip/],
  ['cloud', /cloud|sky.?cover/],
  ['air_C', /air.?temp|temp.*out|outdoor|^t(emp(erature)?)?\b|temp|dry.?bulb|\bta\b/],
];

/** Columns of a weather station that look like one of these and are none: of the house, of a vane, of how it feels. */
const OTHERS = /indoor|inside|temp.?in\b|direction|\bdir\b|gust|chill|feels|heat.?index|sun.?(rise|set)|\buv/;

const UNIT_WORDS: readonly (readonly [CsvUnit, RegExp])[] = [
  ['°F', /°\s?f|\bdeg\s?f\b|\(f\)|_f\b|fahrenheit/],
  ['K', /\(k\)|kelvin/],
  ['°C', /°\s?c|\bdeg\s?c\b|\(c\)|_c\b|celsius/],
  ['kWh/m²', /kwh/],
  ['kJ/m²', /kj/],
  ['W/m²', /w\s?\/\s?m|wm-?2|w\/sq/],
  ['km/h', /km\s?\/?h|kph|kmh/],
  ['mph', /mph/],
  ['kn', /knot|\bkt|\bkn\b/],
  ['m/s', /m\s?\/\s?s|\bmps\b/],
  ['inHg', /in\s?hg/],
  ['kPa', /kpa/],
  ['hPa', /hpa|mbar|millibar/],
  ['Pa', /\bpa\b/],
  ['oktas', /okta/],
  ['tenths', /tenth/],
  ['%', /%|percent/],
  ['mm', /mm\b/],
  ['in', /\bin(ch(es)?)?\b/],
];

const DATE = /^(\d{1,4})[-/.](\d{1,2})[-/.](\d{1,4})/;
const CLOCK = /^\d{1,2}:\d{2}/;
const FIRST_ROWS = 400;

/**
 * Looks at the head of a table and says what its columns may be. Nothing is decided: the person sees the rows and
 * names the columns.
 *
 * @returns null where there is no table: fewer than two columns
 */
export function previewTable(text: string): TablePreview | null {
  const head = text
    .slice(0, 60_000)
    .split(/\r\n|\n|\r/)
    .slice(0, FIRST_ROWS)
    .join('\n');
  const delimiter = guessDelimiter(head);
  const table = splitTable(head, delimiter);
  if ('message' in table) return null;
  const rows = table.rows.filter((row) => row.some((field) => field.trim() !== ''));
  const isData = (row: readonly string[]): boolean => row.some((field) => DATE.test(field.trim()));
  const first = table.rows.findIndex(isData);
  if (first < 0 || table.rows[first].length < 2) return null;
  const names = first > 0 ? table.rows[first - 1] : [];
  const width = table.rows[first].length;
  const header = Array.from({ length: width }, (_, k) => names[k]?.trim() || `column ${k + 1}`);
  const data = rows.filter(isData);
  const decimalComma =
    delimiter !== ',' && data.slice(0, 40).some((row) => row.some((f) => /^-?\d+,\d+$/.test(f.trim())));
  const dateAt = Math.max(
    0,
    table.rows[first].findIndex((field) => DATE.test(field.trim())),
  );
  const clockAt = table.rows[first].findIndex((field, k) => k !== dateAt && CLOCK.test(field.trim()));
  const whole = /[ T]\d{1,2}:\d{2}/.test(table.rows[first][dateAt]);
  return {
    delimiter,
    headerLines: first,
    header,
    rows: data.slice(0, 6),
    decimalComma,
    time: whole || clockAt < 0 ? { stamp: dateAt + 1 } : { date: dateAt + 1, clock: clockAt + 1 },
    dateOrder: orderOf(data.map((row) => row[dateAt] ?? '')),
    columns: columnsOf(header, [dateAt, whole ? -1 : clockAt]),
  };
}

/** Order of a date in figures: a year in front, else the day is what goes over twelve, or what changes more often. */
function orderOf(dates: readonly string[]): CsvMapping['dateOrder'] {
  const [first, second] = [new Set<number>(), new Set<number>()];
  for (const text of dates) {
    const m = DATE.exec(text.trim());
    if (m === null) continue;
    if (m[1].length === 4) return 'ymd';
    first.add(Number(m[1]));
    second.add(Number(m[2]));
  }
  if (Math.max(...second) > 12) return 'mdy';
  return Math.max(...first) > 12 || first.size > second.size ? 'dmy' : 'mdy';
}

function columnsOf(header: readonly string[], taken: readonly number[]): CsvMapping['columns'] {
  const left = new Set(header.keys());
  for (const k of taken) left.delete(k);
  header.forEach((name, k) => {
    if (OTHERS.test(name.toLowerCase())) left.delete(k);
  });
  const out: CsvMapping['columns'] = {};
  for (const [name, words] of WORDS) {
    const at = [...left].find((k) => words.test(header[k].toLowerCase()));
    if (at === undefined) continue;
    left.delete(at);
    const said = UNIT_WORDS.find(
      ([unit, sign]) => UNITS_OF[name].includes(unit) && sign.test(header[at].toLowerCase()),
    );
    out[name] = { column: at + 1, unit: said?.[0] ?? UNITS_OF[name][0] };
  }
  return out;
}
