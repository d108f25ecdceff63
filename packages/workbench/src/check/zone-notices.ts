import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { clockStretches, knowsTimeZone } from '../heat/local-time';

/** A clock this far from the sun's is not of that place [h]: the farthest there is, in western China, is 2.9 h. */
const MOST_H = 3;
/** A year whose clocks are looked at; their rules change by an hour at most. */
const YEAR = 2026;

/**
 * A time zone that nobody knows, or one that does not belong to the longitude: |longitude/15 − offset| over 3 h, by
 * whichever of the year's offsets is nearer. Whole days are let pass: the date line bends round islands.
 *
 * @example zoneNotices({ site: { ...site, longitude_deg: -106.6, timeZone: 'Europe/Paris' } })[0].code // 'time-zone-odd'
 */
export function zoneNotices({ site }: Pick<Project, 'site'>): Notice[] {
  const { timeZone, longitude_deg } = site;
  const path = '/site/timeZone';
  if (!knowsTimeZone(timeZone)) {
    return [
      {
        code: 'unknown-time-zone',
        severity: 'unsure',
        path,
        message: `No time zone is called “${timeZone}”; the time is taken as UTC.`,
        remedy: 'Choose the zone from the list, as America/Denver.',
      },
    ];
  }
  const off = hoursOff(timeZone, longitude_deg);
  if (!(off > MOST_H)) return [];
  const side = longitude_deg < 0 ? 'west' : 'east';
  return [
    {
      code: 'time-zone-odd',
      severity: 'unsure',
      path,
      message: `Longitude ${Math.abs(longitude_deg).toFixed(1)}° ${side} and the zone ${timeZone} do not belong together: its clock is ${off.toFixed(1)} h from the sun’s. Sun, shade, heat and the year are off by as much.`,
      remedy: 'Correct the longitude (west of Greenwich is negative), or choose the zone of the place.',
    },
  ];
}

const kept = new Map<string, number[]>();

/** Hours by which the zone's clock is away from the sun's at that longitude, at the least in a year. */
function hoursOff(timeZone: string, longitude_deg: number): number {
  let offsets = kept.get(timeZone);
  if (!offsets) {
    const year = clockStretches(timeZone, Date.UTC(YEAR, 0, 1), Date.UTC(YEAR + 1, 0, 1));
    offsets = year.map((s) => s.offset_ms / 3_600_000);
    kept.set(timeZone, offsets);
  }
  return Math.min(
    ...offsets.map((h) => {
      const apart = Math.abs(longitude_deg / 15 - h) % 24;
      return Math.min(apart, 24 - apart);
    }),
  );
}
