import { DomainError } from '@sunlap/engine/numeric/errors';

const formats = new Map<string, Intl.DateTimeFormat>();

/** Wall clock of a zone as if it were UTC [ms]. */
function wallClock_ms(utc_ms: number, timeZone: string): number {
  let format = formats.get(timeZone);
  if (!format) {
    format = new Intl.DateTimeFormat('en-US', {
      timeZone,
      hourCycle: 'h23',
      year: 'numeric',
      month: 'numeric',
      day: 'numeric',
      hour: 'numeric',
      minute: 'numeric',
      second: 'numeric',
    });
    formats.set(timeZone, format);
  }
  const part: Record<string, number> = {};
  for (const { type, value } of format.formatToParts(utc_ms)) part[type] = Number(value);
  return Date.UTC(part.year, part.month - 1, part.day, part.hour, part.minute, part.second);
}

/** Is this an IANA zone that the running system knows? */
export function knowsTimeZone(timeZone: string): boolean {
  try {
    wallClock_ms(0, timeZone);
    return true;
  } catch {
    return false;
  }
}

/**
 * Wall clock of an instant, as if it were universal time [ms]. A zone that nobody knows counts as UTC.
 *
 * @example wallClockAt(utcOf('2026-07-01T12:00', 'America/Denver'), 'America/Denver') // 12:00 as UTC
 */
export function wallClockAt(utc_ms: number, timeZone: string): number {
  return wallClock_ms(utc_ms, knowsTimeZone(timeZone) ? timeZone : 'UTC');
}

/** A stretch of time over which a zone's clock keeps its distance from universal time. */
export interface ClockStretch {
  readonly from_ms: number;
  /** Wall clock less universal time [ms]. */
  readonly offset_ms: number;
}

/** Two changes of a clock are farther apart than this: the shortest known are a month (Ramadan in Morocco). */
const PROBE_MS = 8 * 86_400_000;

/**
 * Changes of a zone's clock over a stretch of time, to the second; the first begins at `from_ms`.
 *
 * @param timeZone one that `knowsTimeZone` knows
 * @example clockStretches('America/Denver', Date.UTC(2029, 0, 1), Date.UTC(2030, 0, 1)).length // 3
 */
export function clockStretches(timeZone: string, from_ms: number, to_ms: number): ClockStretch[] {
  const offset = (t: number): number => wallClock_ms(t, timeZone) - t;
  // the clock has whole seconds
  const start = Math.floor(from_ms / 1000) * 1000;
  const out = [{ from_ms, offset_ms: offset(start) }];
  for (let a = start; a < to_ms; a += PROBE_MS) {
    let [before, after] = [a, Math.min(a + PROBE_MS, Math.ceil(to_ms / 1000) * 1000)];
    const known = out[out.length - 1].offset_ms;
    if (offset(after) === known) continue;
    while (after - before > 1000) {
      const middle = before + Math.floor((after - before) / 2000) * 1000;
      if (offset(middle) === known) before = middle;
      else after = middle;
    }
    out.push({ from_ms: after, offset_ms: offset(after) });
  }
  return out;
}

/**
 * Instant of a local wall-clock time. A zone that nobody knows counts as UTC; `check` says so. A time skipped
 * by summer time is taken as an hour later, one that comes twice as the first.
 *
 * @param at `2026-04-12T11:00`
 * @returns [ms since 1970]
 * @throws {DomainError} for a time that is not written so
 * @example utcOf('2026-07-01T12:00', 'America/Denver') // 18:00 UTC
 */
export function utcOf(at: string, timeZone: string): number {
  const match = /^(\d{4})-(\d{2})-(\d{2})T(\d{2}):(\d{2})$/.exec(at);
  if (!match) throw new DomainError('local time', at, 'as 2026-04-12T11:00');
  const [, y, mo, d, h, mi] = match.map(Number);
  const wall = Date.UTC(y, mo - 1, d, h, mi);
  if (!Number.isFinite(wall)) throw new DomainError('local time', at, 'as 2026-04-12T11:00');
  const zone = knowsTimeZone(timeZone) ? timeZone : 'UTC';
  let utc = wall;
  for (let round = 0; round < 3; round++) {
    const off = wallClock_ms(utc, zone) - wall;
    if (off === 0) break;
    utc -= off;
  }
  return utc;
}
