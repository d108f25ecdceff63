import { NOMINAL_YEAR, YEAR_DAYS } from '@sunlap/engine/weather/normals';
import type { ProblemList } from './table';

const MINUTES_PER_DAY = 1440;

/** The stamp of one row, local to the file's own clock. */
export interface Stamp {
  readonly year: number;
  /** 1…12 */
  readonly month: number;
  /** 1…31 */
  readonly day: number;
  /** Start of the row's interval, minutes after midnight; may lie outside 0…1440. */
  readonly minute: number;
  readonly line: number;
}

/** Where each row goes in an unbroken run of steps. */
export interface Layout {
  /** Start of the first step on the file's clock, as if it were universal time [ms]. */
  readonly start_ms: number;
  readonly step_min: number;
  readonly length: number;
  readonly typical: boolean;
  /** Step of each row; −1 for one left out. */
  readonly stepOf: Int32Array;
  readonly leftOut: number;
}

const DAYS_IN = [31, 29, 31, 30, 31, 30, 31, 31, 30, 31, 30, 31];

/** Is there such a day? 29 February counts in every year here; typical years carry it along. */
export function isDay(month: number, day: number): boolean {
  return day >= 1 && day <= (DAYS_IN[month - 1] ?? 0);
}

/**
 * Lays rows out in equal steps. Months of different years, or a leap year without its 29 February, are a typical
 * year and laid on 2001 (29 February left out); else the rows keep their dates.
 *
 * @param wholeYear refuse what is not a whole year
 */
export function layOut(stamps: readonly Stamp[], wholeYear: boolean, problems: ProblemList): Layout | null {
  if (stamps.length < 24) {
    problems.add(stamps.at(-1)?.line ?? 0, 0, `${stamps.length} rows`, 'at least a day of rows');
    return null;
  }
  const step_min = commonStep(stamps);
  if (!(step_min >= 1 && step_min <= 180 && MINUTES_PER_DAY % step_min === 0)) {
    problems.add(
      stamps[1].line,
      0,
      `${step_min} min`,
      'rows in equal steps of at most three hours that divide a day',
    );
    return null;
  }
  const typical = isTypical(stamps);
  const perDay = MINUTES_PER_DAY / step_min;
  const stepOf = new Int32Array(stamps.length).fill(-1);
  const lineOf = new Map<number, number>();
  const base = Date.UTC(NOMINAL_YEAR, 0, 1);
  const phase = mod(stamps[0].minute, step_min);
  let leftOut = 0;
  const absolute = stamps.map((s) => {
    const year = typical ? NOMINAL_YEAR : s.year;
    if (typical && s.month === 2 && s.day === 29) return Number.NaN;
    return Date.UTC(year, s.month - 1, s.day) / 60_000 + s.minute - phase;
  });
  // A typical year is a ring: what lies before its first or after its last midnight goes round.
  const known = absolute.filter((m) => !Number.isNaN(m));
  const from = typical ? base / 60_000 : known.reduce((a, b) => Math.min(a, b), Infinity);
  const to = known.reduce((a, b) => Math.max(a, b), -Infinity);
  const length = typical ? YEAR_DAYS * perDay : Math.round((to - from) / step_min) + 1;
  if (length > 20 * stamps.length + 366 * perDay) {
    problems.add(stamps[0].line, 0, `${Math.round(length / perDay)} days`, 'rows that follow each other');
    return null;
  }
  for (let i = 0; i < stamps.length; i++) {
    if (Number.isNaN(absolute[i])) {
      leftOut++;
      continue;
    }
    const exact = (absolute[i] - from) / step_min;
    const step = typical ? mod(Math.round(exact), length) : Math.round(exact);
    if (Math.abs(exact - Math.round(exact)) > 0.01) {
      problems.add(stamps[i].line, 0, clock(stamps[i]), `a step of ${step_min} min from the row before`);
      continue;
    }
    const before = lineOf.get(step);
    if (before !== undefined) {
      problems.add(stamps[i].line, 0, clock(stamps[i]), `an hour that line ${before} does not have already`);
      continue;
    }
    lineOf.set(step, stamps[i].line);
    stepOf[i] = step;
  }
  if (wholeYear && problems.list.length === 0) {
    const missing = YEAR_DAYS * perDay - lineOf.size;
    if (missing > 31 * perDay) {
      const last = stamps[stamps.length - 1];
      problems.add(
        last.line,
        0,
        `${Math.round(lineOf.size / perDay)} days, ending ${clock(last)}`,
        'a whole year',
      );
    }
  }
  return { start_ms: (from + phase) * 60_000, step_min, length, typical, stepOf, leftOut };
}

function clock(s: Stamp): string {
  const minute = mod(Math.round(s.minute), MINUTES_PER_DAY);
  const two = (n: number): string => String(n).padStart(2, '0');
  return `${s.year}-${two(s.month)}-${two(s.day)} ${two(Math.floor(minute / 60))}:${two(minute % 60)}`;
}

function mod(a: number, b: number): number {
  return ((a % b) + b) % b;
}

/** Most common distance between neighbouring rows [min]. */
function commonStep(stamps: readonly Stamp[]): number {
  const count = new Map<number, number>();
  for (let i = 1; i < stamps.length; i++) {
    const a = stamps[i - 1];
    const b = stamps[i];
    const d =
      Date.UTC(b.year, b.month - 1, b.day) / 60_000 +
      b.minute -
      Date.UTC(a.year, a.month - 1, a.day) / 60_000 -
      a.minute;
    if (d > 0 && d <= MINUTES_PER_DAY) count.set(d, (count.get(d) ?? 0) + 1);
  }
  let best = Number.NaN;
  let most = 0;
  for (const [d, n] of count)
    if (n > most) {
      best = d;
      most = n;
    }
  return best;
}

function isTypical(stamps: readonly Stamp[]): boolean {
  let jumps = false;
  let leap = false;
  const months = new Set<number>();
  for (let i = 0; i < stamps.length; i++) {
    const s = stamps[i];
    months.add(s.month);
    if (s.month === 2 && s.day === 29) leap = true;
    if (i === 0) continue;
    const before = stamps[i - 1];
    // From one month to the next the year changes otherwise than from December to January.
    if (s.year !== before.year && !(before.month === 12 && s.month === 1 && s.year === before.year + 1))
      jumps = true;
  }
  const year = stamps[0].year;
  const isLeap = year % 4 === 0 && (year % 100 !== 0 || year % 400 === 0);
  return jumps || (months.size === 12 && isLeap && !leap && stamps.at(-1)?.year === year);
}

/** Spreads the rows' values over the steps, NaN where there is no row. */
export function spread(layout: Layout, values: ArrayLike<number>): Float64Array {
  const out = new Float64Array(layout.length).fill(Number.NaN);
  for (let i = 0; i < layout.stepOf.length; i++) if (layout.stepOf[i] >= 0) out[layout.stepOf[i]] = values[i];
  return out;
}
