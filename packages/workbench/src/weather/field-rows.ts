import type { ReadProblem } from './reading';
import { type NumberColumn, type ProblemList, splitTable, strictNumber } from './table';

/** Fields of one row. */
export interface FieldRow {
  readonly length: number;
  /** Without blanks round it; empty where there is no such field. */
  text(index: number): string;
  /** NaN where the field is no decimal number. */
  number(index: number): number;
  isBlank(): boolean;
}

/** Rows of a comma-separated text, looked at one by one. */
export interface FieldRows {
  readonly count: number;
  /** The row at a place: always the same object, turned to that row. */
  row(index: number): FieldRow;
  /** The same as a list, for a header. */
  list(index: number): readonly string[];
  readonly lineOf: (index: number) => number;
}

const COMMA = 44;
const DOT = 46;
const ZERO = 48;
/** Whole numbers below 2⁵³ over powers of ten up to 10²² are exact, and so is their quotient (Clinger 1990). */
const MOST_DIGITS = 15;
const TENS = Array.from({ length: MOST_DIGITS + 1 }, (_, k) => 10 ** k);

/**
 * Rows of a long table without a string for every field: numbers are read where they stand. A text with quotes goes
 * the usual way.
 *
 * @returns the rows, or the first problem: a quote that never closes
 */
export function fieldRows(text: string): FieldRows | ReadProblem {
  if (text.includes('"')) return quotedRows(text);
  const start = text.charCodeAt(0) === 0xfeff ? 1 : 0;
  const end = text.indexOf('\n', start) >= 0 ? '\n' : '\r';
  const starts: number[] = [start];
  for (let at = text.indexOf(end, start); at >= 0; at = text.indexOf(end, at + 1)) starts.push(at + 1);
  const row = new PlainRow(text);
  const endOf = (index: number): number => (index + 1 < starts.length ? starts[index + 1] - 1 : text.length);
  return {
    count: starts.length,
    row: (index) => row.turn(starts[index], endOf(index)),
    list: (index) => (index < starts.length ? text.slice(starts[index], endOf(index)).split(',') : []),
    lineOf: (index) => index + 1,
  };
}

function quotedRows(text: string): FieldRows | ReadProblem {
  const table = splitTable(text);
  if ('message' in table) return table;
  const { rows, lineOf } = table;
  return {
    count: rows.length,
    row: (index) => {
      const fields = rows[index];
      return {
        length: fields.length,
        text: (k) => (fields[k] ?? '').trim(),
        number: (k) => strictNumber((fields[k] ?? '').trim()),
        isBlank: () => fields.every((f) => f.trim() === ''),
      };
    },
    list: (index) => rows[index] ?? [],
    lineOf,
  };
}

class PlainRow implements FieldRow {
  length = 0;
  private from = 0;
  /** Where each field ends. */
  private ends = new Int32Array(64);

  constructor(private readonly source: string) {}

  turn(from: number, to: number): this {
    this.from = from;
    let n = 0;
    for (let at = from; at <= to; at++) {
      if (at < to && this.source.charCodeAt(at) !== COMMA) continue;
      if (n === this.ends.length) {
        const more = new Int32Array(2 * n);
        more.set(this.ends);
        this.ends = more;
      }
      this.ends[n++] = at;
    }
    this.length = n;
    return this;
  }

  text(index: number): string {
    if (index >= this.length) return '';
    return this.source.slice(this.startOf(index), this.ends[index]).trim();
  }

  number(index: number): number {
    if (index >= this.length) return Number.NaN;
    const { source } = this;
    let at = this.startOf(index);
    let to = this.ends[index];
    while (at < to && source.charCodeAt(at) <= 32) at++;
    while (to > at && source.charCodeAt(to - 1) <= 32) to--;
    const sign = source.charCodeAt(at);
    const first = sign === 45 || sign === 43 ? at + 1 : at;
    let whole = 0;
    let digits = 0;
    let point = -1;
    for (let k = first; k < to; k++) {
      const digit = source.charCodeAt(k) - ZERO;
      if (digit >= 0 && digit <= 9) {
        whole = 10 * whole + digit;
        digits++;
      } else if (digit === DOT - ZERO && point < 0) point = k;
      else return strictNumber(this.text(index));
    }
    if (digits === 0 || digits > MOST_DIGITS) return strictNumber(this.text(index));
    const value = point < 0 ? whole : whole / TENS[to - point - 1];
    return sign === 45 ? -value : value;
  }

  isBlank(): boolean {
    for (let at = this.from; at < this.ends[this.length - 1]; at++) {
      const c = this.source.charCodeAt(at);
      if (c === COMMA || c <= 32) continue;
      return (
        c > 126 &&
        this.source
          .slice(this.from, this.ends[this.length - 1])
          .replaceAll(',', '')
          .trim() === ''
      );
    }
    return true;
  }

  private startOf(index: number): number {
    return index === 0 ? this.from : this.ends[index - 1] + 1;
  }
}

/** As `readNumber`, of a row of {@link FieldRows}. */
export function fieldNumber(
  row: FieldRow,
  line: number,
  column: NumberColumn,
  problems: ProblemList,
): number {
  const value = row.number(column.index);
  if (Number.isNaN(value)) {
    const text = row.text(column.index);
    if (text !== '') problems.add(line, column.index + 1, text, `a number for ${column.what}`);
    return Number.NaN;
  }
  if (column.missing(value)) return Number.NaN;
  if (value >= column.low && value <= column.high) return value * (column.scale ?? 1) + (column.offset ?? 0);
  problems.add(
    line,
    column.index + 1,
    row.text(column.index),
    `${column.what} from ${column.low} to ${column.high}`,
  );
  return Number.NaN;
}

/** As `readWhole`, of a row of {@link FieldRows}. */
export function fieldWhole(
  row: FieldRow,
  line: number,
  index: number,
  what: string,
  low: number,
  high: number,
  problems: ProblemList,
): number {
  const value = row.number(index);
  if (Number.isInteger(value) && value >= low && value <= high) return value;
  problems.add(line, index + 1, row.text(index), `${what} from ${low} to ${high}`);
  return Number.NaN;
}
