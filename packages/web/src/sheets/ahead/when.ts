import { narrow, units } from '../../app/state';
import { clockText } from '../../shape/clock';
import { y } from '../../text/yard';

const WEEK = ['Sun', 'Mon', 'Tue', 'Wed', 'Thu', 'Fri', 'Sat'];
/** `Sun Apr 12`, or `Sun 12 Apr`. */
export function dayName(iso: string): string {
  const date = new Date(`${iso.slice(0, 10)}T12:00:00Z`);
  const [day, month] = [date.getUTCDate(), y.months[date.getUTCMonth()]];
  return `${WEEK[date.getUTCDay()]} ${units.value === 'us' ? `${month} ${day}` : `${day} ${month}`}`;
}
/** `09:30` as it stands on a clock. */
export const clockOf = (time: string) =>
  clockText(Number(time.slice(0, 2)) + Number(time.slice(3, 5)) / 60, units.value);
/** From and to; on a phone as short as it can be said. */
export const valveHours = (open: string, close: string) =>
  narrow.value
    ? `${clockOf(open)}–${clockOf(close)}`.replaceAll(':00', '').replaceAll(' ', '')
    : `${clockOf(open)} – ${clockOf(close)}`;
/** Weekday and clock. */
export const weekMoment = (at: string) => `${dayName(at).slice(0, 3)} ${clockOf(at.slice(11, 16))}`;

/** What the clock at the site says now. */
export function siteNow(timeZone: string): string {
  try {
    const parts = new Intl.DateTimeFormat('sv-SE', {
      timeZone,
      dateStyle: 'short',
      timeStyle: 'short',
    }).format(new Date());
    return parts.replace(' ', 'T');
  } catch {
    return new Date().toISOString().slice(0, 16);
  }
}
