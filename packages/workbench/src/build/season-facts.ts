import { drain } from '@sunlap/engine/season/year';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import type { Interval } from '../results';
import { SeasonBand, type SeasonRival, seasonRivals } from '../season/rivals';
import { season } from '../season/season';
import { createSeasonCache, type SeasonCache, studyYear } from '../season/study';
import { type SeasonAnswer, type SeasonValues, seasonValues } from '../season/values';

export interface BuildYearOptions {
  /** Run the year again for each doubt, so that its money has an interval; some seconds more. */
  readonly band?: boolean;
  /** Asked after each of these runs; true leaves the interval out. */
  readonly stop?: () => boolean;
}

/**
 * The year for the money of a build: one run, one with a cover to compare it with, and with `band` one for each thing that
 * is not known. Its interval also has `fuelSaved_kWh`, what another heater burns less.
 *
 * @param collectorPrice of the parts list
 */
export function seasonForBuild(
  project: Project,
  collectorPrice: number,
  weather?: WeatherSeries | null,
  options: BuildYearOptions = {},
): SeasonAnswer {
  const cache = createSeasonCache();
  let compared = false;
  const answer = season(project, {
    weather: weather ?? null,
    cache,
    band: false,
    collectorPrice,
    onProgress: ({ answer: now }) => {
      compared = (now?.result.changes.length ?? 0) > 0;
    },
    stop: () => compared,
  });
  if (options.band !== true || !answer.solver.converged) return answer;
  const band = yearBand(project, answer.result, weather ?? null, cache, options.stop);
  return band === null ? answer : { ...answer, band };
}

function yearBand(
  project: Project,
  base: SeasonValues,
  weather: WeatherSeries | null,
  cache: SeasonCache,
  stop: (() => boolean) | undefined,
): Record<string, Interval> | null {
  const band = new SeasonBand(base);
  const fuel = new Map<SeasonRival['group'], Interval>();
  for (const { group, change } of seasonRivals(project)) {
    if (stop?.()) return null;
    const values = seasonValues(project, drain(studyYear(project, { weather, cache, change })));
    band.add(group, values);
    const more = fuelSaved_kWh(values) - fuelSaved_kWh(base);
    const own = fuel.get(group) ?? { low: 0, high: 0 };
    fuel.set(group, { low: Math.min(own.low, more), high: Math.max(own.high, more) });
  }
  const side = (which: keyof Interval): number =>
    Math.sqrt([...fuel.values()].reduce((sum, change) => sum + change[which] ** 2, 0));
  const saved = fuelSaved_kWh(base);
  return {
    ...band.intervals(),
    fuelSaved_kWh: { low: saved - side('low'), high: saved + side('high') },
  };
}

const fuelSaved_kWh = ({ year }: SeasonValues): number => year.fuel_kWh.without - year.fuel_kWh.with;
