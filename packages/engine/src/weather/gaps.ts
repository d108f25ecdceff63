import { DomainError } from '../numeric/errors';

/** How far a gap may be filled [steps of an hour]. */
export const SHORT_GAP_H = 6;
export const LONG_GAP_H = 72;

/** What became of one column's gaps. */
export interface GapFill {
  readonly filled: number;
  readonly longest: number;
  /** First step of a gap too long to fill, or −1. */
  readonly tooLong: number;
}

/**
 * Fills missing values (NaN) of one column in place: up to 6 h along a straight line, up to 72 h by the mean of
 * the same hour on the days before and after, as far as those are known. The series is taken as a ring, so that a
 * gap at New Year is like any other.
 *
 * @param values    changed in place
 * @param perDay    steps in a day
 * @param straight  false for sunlight, whose course a line would cut: every gap is filled by the days around it
 */
export function fillGaps(values: Float64Array, perDay: number, straight: boolean): GapFill {
  if (!(perDay >= 1 && Number.isInteger(perDay)))
    throw new DomainError('steps per day', perDay, 'a whole number, ≥ 1');
  const n = values.length;
  const known = new Uint8Array(n);
  for (let i = 0; i < n; i++) known[i] = Number.isNaN(values[i]) ? 0 : 1;
  if (n > 0 && !known.includes(0)) return { filled: 0, longest: 0, tooLong: -1 };
  let filled = 0;
  let longest = 0;
  let tooLong = -1;
  const anchor = known.indexOf(1);
  if (anchor < 0) return { filled: 0, longest: n, tooLong: n > 0 ? 0 : -1 };
  for (let k = 0; k < n; k++) {
    const first = (anchor + k) % n;
    if (known[first]) continue;
    let length = 1;
    while (!known[(first + length) % n]) length++;
    k += length - 1;
    if (length > (LONG_GAP_H / 24) * perDay) {
      if (tooLong < 0) tooLong = first;
      continue;
    }
    longest = Math.max(longest, length);
    filled += length;
    const before = values[(first - 1 + n) % n];
    const after = values[(first + length) % n];
    const short = length <= (SHORT_GAP_H / 24) * perDay;
    for (let j = 0; j < length; j++) {
      const line = before + ((after - before) * (j + 1)) / (length + 1);
      const alike = short && straight ? Number.NaN : sameHour(values, known, (first + j) % n, perDay);
      values[(first + j) % n] = Number.isNaN(alike) ? line : alike;
    }
  }
  return { filled, longest, tooLong };
}

/** Mean of the same hour on the nearest known day before and after, within four days; NaN when there is none. */
function sameHour(values: Float64Array, known: Uint8Array, index: number, perDay: number): number {
  const n = values.length;
  let sum = 0;
  let count = 0;
  for (const sign of [-1, 1])
    for (let day = 1; day <= 4; day++) {
      const at = (((index + sign * day * perDay) % n) + n) % n;
      if (!known[at]) continue;
      sum += values[at];
      count++;
      break;
    }
  return count > 0 ? sum / count : Number.NaN;
}
