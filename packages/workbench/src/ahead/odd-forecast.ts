import type { Notice } from '@sunlap/engine/numeric/notice';
import { monthlySummary } from '@sunlap/engine/weather/monthly';
import type { Project } from '@sunlap/project/schema/project';
import { sayIn } from '../flow/say';
import { MONTH_NAMES } from '../season/month-names';
import { seasonWeather } from '../season/site-weather';
import type { ForecastDay } from './forecast';

/** A day this far from its month's mean high is rather a slip of the unit than the weather [K]; judgement. */
const FAR_K = 18;

/**
 * Looks whether a forecast is anywhere near what the climate has in that month: degrees of the other unit are
 * believed otherwise.
 *
 * @param at local time from which it counts, `2026-04-12T08:00`
 * @returns one notice for the day farthest off; none where all are near
 */
export function oddForecast(
  project: Pick<Project, 'site' | 'season' | 'units'>,
  days: readonly ForecastDay[],
  at: string,
): Notice[] {
  const months = monthlySummary(seasonWeather(project).series);
  const say = sayIn(project.units);
  let worst: { off: number; day: number; month: number } | null = null;
  days.forEach((forecast, day) => {
    const date = new Date(`${at.slice(0, 10)}T12:00Z`);
    date.setUTCDate(date.getUTCDate() + day);
    const month = date.getUTCMonth();
    const off = Math.abs(forecast.high_C - months[month].high_C);
    if (off > FAR_K && !(worst && worst.off >= off)) worst = { off, day, month };
  });
  if (worst === null) return [];
  const { day, month } = worst as { off: number; day: number; month: number };
  const high = days[day].high_C;
  const unit = project.units === 'us' ? '29C/18C' : '84F/66F';
  return [
    {
      code: 'forecast-far-from-climate',
      severity: 'unsure',
      path: '',
      message: `Day ${day + 1} of the forecast has a high of ${say(high, 'temperature')}; a day of ${MONTH_NAMES[month]} here has ${say(months[month].high_C, 'temperature')} on average.`,
      remedy: `Look whether the figures are in the right unit; the other one is written as ${unit}.`,
    },
  ];
}
