import { DomainError } from '../numeric/errors';

/** When something is on: months, hours of the local day (may run over midnight), days of the week. */
export interface Schedule {
  /** Twelve entries, January first. */
  readonly months: readonly boolean[];
  /** By the local clock [h], 0…24; from 20 to 8 runs through the night; from = to is all day. */
  readonly from_h: number;
  readonly to_h: number;
  /** Seven entries, Monday first; every day when left out. */
  readonly weekdays?: readonly boolean[];
}

/**
 * Share of an interval during which a schedule is on.
 *
 * @param schedule  when
 * @param month     0 = January, of the interval's middle
 * @param weekday   0 = Monday, of the interval's middle
 * @param start_h   local hour at the interval's start [h], 0…24
 * @param length_h  [h], (0, 24]
 * @returns [–], 0…1
 * @throws {DomainError} outside those ranges
 * @example scheduleShare({ months: Array(12).fill(true), from_h: 20, to_h: 8 }, 0, 0, 7.5, 1) // 0.5
 */
export function scheduleShare(
  schedule: Schedule,
  month: number,
  weekday: number,
  start_h: number,
  length_h: number,
): number {
  const { months, from_h, to_h, weekdays } = schedule;
  if (months.length !== 12) throw new DomainError('months of a schedule', months.length, '12 entries');
  if (weekdays && weekdays.length !== 7)
    throw new DomainError('weekdays of a schedule', weekdays.length, '7 entries');
  checkHour(from_h);
  checkHour(to_h);
  checkHour(start_h);
  if (!(length_h > 0 && length_h <= 24)) throw new DomainError('interval', length_h, '(0, 24] h');
  if (months[month] === undefined) throw new DomainError('month', month, '0…11');
  if (!months[month] || (weekdays && !weekdays[weekday])) return 0;
  const on = to_h > from_h ? to_h - from_h : to_h + 24 - from_h;
  if (on >= 24) return 1;
  let overlap = 0;
  for (let day = -24; day <= 24; day += 24) {
    const a = Math.max(start_h, from_h + day);
    const b = Math.min(start_h + length_h, from_h + day + on);
    overlap += Math.max(0, b - a);
  }
  return Math.min(1, overlap / length_h);
}

function checkHour(hour: number): void {
  if (!(hour >= 0 && hour <= 24)) throw new DomainError('hour of the day', hour, '[0, 24] h');
}
