import { knowsTimeZone, utcOf, wallClockAt } from '@sunlap/workbench/heat/local-time';
import { MONTH_NAMES } from '@sunlap/workbench/season/month-names';
import { WrongInput } from './io';

const LEAST_YEAR = 1900;
const LAST_YEAR = 2199;

/** Days of a month; 29 for a February of no year. */
function daysOf(month: number, year?: number): number {
  return new Date(Date.UTC(year ?? 2024, month, 0)).getUTCDate();
}

/** Says what is wrong with a day that is written as one; undefined when there is such a day. */
function noSuchDay(month: number, day: number, year?: number): string | undefined {
  if (year !== undefined && !(year >= LEAST_YEAR && year <= LAST_YEAR))
    return `years go from ${LEAST_YEAR} to ${LAST_YEAR}`;
  if (!(month >= 1 && month <= 12)) return `there is no month ${month}; the order is year, month, day`;
  const most = daysOf(month, year);
  if (day >= 1 && day <= most) return undefined;
  return `there is no such day; ${MONTH_NAMES[month - 1]}${year === undefined ? '' : ` ${year}`} has ${most} days`;
}

/**
 * A date as it is typed.
 *
 * @param option name of the option, for the message
 * @throws {WrongInput} where it is not written as one, or there is no such day
 */
export function dateOf(text: string, option: string): string {
  const m = /^(\d{4})-(\d{2})-(\d{2})$/.exec(text);
  if (!m) throw new WrongInput(`--${option} ${text}: expected a day as 2026-04-12`);
  const wrong = noSuchDay(Number(m[2]), Number(m[3]), Number(m[1]));
  if (wrong) throw new WrongInput(`--${option} ${text}: ${wrong}`);
  return text;
}

/** A day of any year as it is typed, with or without a year in front. @throws {WrongInput} */
export function dayOfYear(text: string, option: string): string {
  const m = /^(?:(\d{4})-)?(\d{2})-(\d{2})$/.exec(text);
  if (!m)
    throw new WrongInput(`--${option} ${text}: expected a day of the year as 04-15, or a date as 2026-04-15`);
  const wrong = noSuchDay(Number(m[2]), Number(m[3]), m[1] === undefined ? undefined : Number(m[1]));
  if (wrong) throw new WrongInput(`--${option} ${text}: ${wrong}`);
  return text;
}

/** A local time as it is typed. @throws {WrongInput} */
export function timeOf(text: string, option: string): string {
  const m = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})$/.exec(text);
  if (!m) throw new WrongInput(`--${option} ${text}: expected a local time as 2026-04-12T11:00`);
  const wrong =
    noSuchDay(Number(m[2]), Number(m[3]), Number(m[1])) ??
    (Number(m[4]) > 23 || Number(m[5]) > 59 ? 'hours go from 00:00 to 23:59' : undefined);
  if (wrong) throw new WrongInput(`--${option} ${text}: ${wrong}`);
  return text;
}

/**
 * The same time where the site's clock shows it: not one that summer time skips.
 *
 * @throws {WrongInput}
 */
export function timeAtSite(at: string, option: string, timeZone: string): string {
  const shown = clockText(utcOf(at, timeZone), timeZone);
  if (shown !== at)
    throw new WrongInput(
      `--${option} ${at}: there is no such time in ${timeZone}; the clock is put forward over it. Expected a time as ${shown}`,
    );
  return at;
}

/** Wall clock of an instant in a zone, `2026-04-12T11:00`; of UTC where nobody knows the zone. */
export function clockText(utc_ms: number, timeZone: string): string {
  const zone = knowsTimeZone(timeZone) ? timeZone : 'UTC';
  return new Date(wallClockAt(utc_ms, zone)).toISOString().slice(0, 16);
}
