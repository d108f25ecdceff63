import type { UnitSystem } from '@sunlap/project/units/kinds';

/** Hour of the day as it stands on a clock: 9:00, 17:30; with am and pm for US units. */
export function clockText(hour: number, units: UnitSystem): string {
  const minutes = Math.round(hour * 60);
  const [h, m] = [Math.floor(minutes / 60), minutes % 60];
  const past = m === 0 ? '' : `:${String(m).padStart(2, '0')}`;
  if (units !== 'us') return `${h}:${String(m).padStart(2, '0')}`;
  if (h === 24) return '12 am';
  return `${h % 12 === 0 ? 12 : h % 12}${past} ${h < 12 ? 'am' : 'pm'}`;
}

/**
 * Reads an hour of the day as people write it: `9`, `9:30`, `9.5`, `9 am`, `5 pm`, `17:00`, `noon`, `midnight`.
 *
 * @returns hour 0…24, or null
 * @example readClock('5:30 pm') // 17.5
 */
export function readClock(text: string): number | null {
  const raw = text.trim().toLowerCase().replaceAll('.m.', 'm').replace(/\s+/g, ' ');
  if (raw === 'noon') return 12;
  if (raw === 'midnight') return 24;
  const m = /^(\d{1,2})(?:[:h](\d{2})|([.,]\d+))? ?(am|pm|a|p|h|o'clock)?$/.exec(raw);
  if (m === null) return null;
  const minutes = m[2] === undefined ? 0 : Number(m[2]);
  if (minutes > 59) return null;
  let hour = Number(m[1]) + minutes / 60 + (m[3] === undefined ? 0 : Number(m[3].replace(',', '.')));
  if (m[4] === 'am' || m[4] === 'a' || m[4] === 'pm' || m[4] === 'p') {
    if (!(hour >= 1 && hour < 13)) return null;
    hour = (hour % 12) + (m[4].startsWith('p') ? 12 : 0);
  }
  return hour <= 24 ? hour : null;
}
