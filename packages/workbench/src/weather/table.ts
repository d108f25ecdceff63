import Papa from 'papaparse';
import { MOST_PROBLEMS, problem, type ReadProblem } from './reading';

/** Rows of fields with the line each begins on. */
export interface TextTable {
  readonly rows: readonly (readonly string[])[];
  readonly lineOf: (row: number) => number;
}

/**
 * Splits text into fields (RFC 4180: quotes, doubled quotes, any line end).
 *
 * @param delimiter `,` by default
 * @returns the table, or the first problem: a quote that never closes
 */
export function splitTable(text: string, delimiter = ','): TextTable | ReadProblem {
  // A lone mark or stray carriage returns at the start are no data.
  const clean = text.charCodeAt(0) === 0xfeff ? text.slice(1) : text;
  const parsed = Papa.parse<string[]>(clean, { delimiter, skipEmptyLines: false, header: false });
  const rows = parsed.data;
  const broken = parsed.errors.find((e) => e.type === 'Quotes');
  let extra: Uint32Array | null = null;
  if (clean.includes('"')) {
    // Quoted line breaks make a row longer than a line.
    extra = new Uint32Array(rows.length + 1);
    for (let i = 0; i < rows.length; i++) {
      let breaks = 0;
      for (const field of rows[i]) if (field.includes('\n')) breaks += field.split('\n').length - 1;
      extra[i + 1] = extra[i] + breaks;
    }
  }
  const lineOf = (row: number): number => row + 1 + (extra ? extra[Math.min(row, rows.length)] : 0);
  if (broken) return problem(lineOf(broken.row ?? 0), 0, '"', 'a closing quote');
  return { rows, lineOf };
}

/** Collects what is wrong, up to a readable number. */
export interface ProblemList {
  readonly list: ReadProblem[];
  readonly full: () => boolean;
  add(line: number, column: number, found: string, expected: string): void;
}

export function problemList(): ProblemList {
  const list: ReadProblem[] = [];
  return {
    list,
    full: () => list.length >= MOST_PROBLEMS,
    add(line, column, found, expected) {
      if (list.length < MOST_PROBLEMS) list.push(problem(line, column, found, expected));
    },
  };
}

/** How to read one column of numbers. */
export interface NumberColumn {
  readonly index: number;
  readonly what: string;
  readonly low: number;
  readonly high: number;
  /** Is this value one of the source's codes for "missing"? */
  readonly missing: (value: number) => boolean;
  /** To SI. */
  readonly scale?: number;
  readonly offset?: number;
  readonly decimalComma?: boolean;
  /** Texts that mean "missing". */
  readonly missingTexts?: readonly string[];
}

/** Number of a field in SI, NaN where it is missing; a problem where it is none or out of range. */
export function readNumber(
  row: readonly string[],
  line: number,
  column: NumberColumn,
  problems: ProblemList,
): number {
  const text = (row[column.index] ?? '').trim();
  if (text === '' || column.missingTexts?.includes(text)) return Number.NaN;
  const plain = column.decimalComma ? text.replace(',', '.') : text;
  const value = strictNumber(plain);
  if (Number.isNaN(value)) {
    problems.add(line, column.index + 1, text, `a number for ${column.what}`);
    return Number.NaN;
  }
  if (column.missing(value)) return Number.NaN;
  if (!(value >= column.low && value <= column.high)) {
    problems.add(line, column.index + 1, text, `${column.what} from ${column.low} to ${column.high}`);
    return Number.NaN;
  }
  return value * (column.scale ?? 1) + (column.offset ?? 0);
}

const NUMBER = /^[+-]?(\d+\.?\d*|\.\d+)([eE][+-]?\d+)?$/;

/** A decimal number and nothing else: `0x10`, `1_000`, `Infinity` and blanks are none. */
export function strictNumber(text: string): number {
  return NUMBER.test(text) ? Number(text) : Number.NaN;
}

/** Whole number of a field, NaN and a problem where it is none or out of range. */
export function readWhole(
  row: readonly string[],
  line: number,
  index: number,
  what: string,
  low: number,
  high: number,
  problems: ProblemList,
): number {
  const text = (row[index] ?? '').trim();
  const value = strictNumber(text);
  if (Number.isInteger(value) && value >= low && value <= high) return value;
  problems.add(line, index + 1, text, `${what} from ${low} to ${high}`);
  return Number.NaN;
}

/** Is a row empty, as after the last line break? */
export function isBlank(row: readonly string[]): boolean {
  return row.every((field) => field.trim() === '');
}

/** −99, −999, −9900, −9999 and the like, for quantities of any sign. */
export function farBelow(value: number): boolean {
  return value <= -99;
}

/** The same for quantities that are never negative: any −9 too. */
export function negativeCode(value: number): boolean {
  return value <= -9;
}
