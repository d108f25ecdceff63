import type { UnitSystem } from '@sunlap/project/units/kinds';

const WEEK = ['Sunday', 'Monday', 'Tuesday', 'Wednesday', 'Thursday', 'Friday', 'Saturday'];

/**
 * An hour of the local clock as it is said.
 *
 * @param clock `HH:MM`
 * @example clockWords('15:00', 'us') // '3 pm'
 */
export function clockWords(clock: string, units: UnitSystem): string {
  if (units !== 'us') return clock.replace(/^0/, '');
  const [hour, minute] = clock.split(':').map(Number);
  const past = minute === 0 ? '' : `:${String(minute).padStart(2, '0')}`;
  return `${hour % 12 === 0 ? 12 : hour % 12}${past} ${hour % 24 < 12 ? 'am' : 'pm'}`;
}

/**
 * A local moment by its weekday, as one says it of the days ahead.
 *
 * @param at `YYYY-MM-DDTHH:MM`
 * @example momentWords('2026-04-16T15:00', 'us') // 'Thursday at 3 pm'
 */
export function momentWords(at: string, units: UnitSystem): string {
  const day = new Date(`${at.slice(0, 10)}T12:00:00Z`).getUTCDay();
  return `${WEEK[day]} at ${clockWords(at.slice(11, 16), units)}`;
}
