import type { WeatherSeries } from '@sunlap/engine/weather/series';
import { localMoment, stepStart_ms } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { MONTH_NAMES } from '../season/month-names';
import { seasonWeather } from '../season/site-weather';

/** What building and owning takes from the weather of a year. */
export interface WeatherFacts {
  readonly place: string;
  /** Mean air by month [°C]. */
  readonly air_C: readonly number[];
  /** First and last day with frost, autumn to spring, as `--10-21`; null where the year has none. */
  readonly firstFrost: string | null;
  readonly lastFrost: string | null;
  readonly coldest_C: number;
}

/**
 * Frost and monthly air of the project's climate: one year of hours, read or made from the climate's table.
 *
 * @param given hours of a file; the project's climate when absent
 */
export function weatherFacts(
  project: Pick<Project, 'site' | 'season'>,
  given?: WeatherSeries | null,
): WeatherFacts {
  const { series } = seasonWeather(project, given);
  const sum = new Float64Array(12);
  const count = new Float64Array(12);
  // the year is looked at from midsummer to midsummer, so that a winter is whole
  const midsummer = project.site.latitude_deg >= 0 ? 6 : 0;
  let first: { rank: number; day: string } | null = null;
  let last: { rank: number; day: string } | null = null;
  let coldest = Number.POSITIVE_INFINITY;
  for (let i = 0; i < series.length; i++) {
    const air = series.air_C[i];
    const { month, day } = localMoment(stepStart_ms(series, i), series.utcOffset_h);
    sum[month] += air;
    count[month]++;
    if (air < coldest) coldest = air;
    if (air > 0) continue;
    const rank = ((month - midsummer + 12) % 12) * 31 + day;
    const text = `${String(month + 1).padStart(2, '0')}-${String(day).padStart(2, '0')}`;
    if (!first || rank < first.rank) first = { rank, day: text };
    if (!last || rank > last.rank) last = { rank, day: text };
  }
  return {
    place: series.name,
    air_C: Array.from(sum, (s, m) => (count[m] > 0 ? s / count[m] : 15)),
    firstFrost: first?.day ?? null,
    lastFrost: last?.day ?? null,
    coldest_C: coldest,
  };
}

/** `10-21` → `21 October`. */
export function dayWords(day: string): string {
  const [month, date] = day.split('-').map(Number);
  return `${date} ${MONTH_NAMES[month - 1]}`;
}
