import type { Project } from '@sunlap/project/schema/project';
import type { BuildStudies } from '@sunlap/workbench/build/build';
import { seasonForBuild } from '@sunlap/workbench/build/season-facts';
import type { Arguments, Option } from './args';
import type { Io } from './io';
import { loadWeather } from './weather-file';

/** Options of every command whose money rests on a year. */
export const YEAR_OPTIONS: Readonly<Record<string, Option>> = {
  weather: { value: 'FILE', about: 'hours of a weather file instead of the project’s climate' },
  quick: { about: 'run no year: money of the moment only' },
  once: { about: 'run the year once: its money without an interval' },
};

/**
 * How the year is run for a build's money.
 *
 * @throws {WrongInput} where the weather file is wrong
 */
export async function yearOf(
  args: Arguments,
  io: Io,
  project: Project,
): Promise<Pick<BuildStudies, 'season' | 'weather'>> {
  const path = args.text('weather');
  const weather = path === undefined ? null : (await loadWeather(io, path)).series;
  return {
    weather,
    ...(args.on('quick')
      ? {}
      : { season: (price: number) => seasonForBuild(project, price, weather, { band: !args.on('once') }) }),
  };
}
