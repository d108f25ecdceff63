import type { Project } from '@sunlap/project/schema/project';
import type { BuildStudies } from '@sunlap/workbench/build/build';
import { seasonForBuild } from '@sunlap/workbench/build/season-facts';
import { seasonWeather } from '@sunlap/workbench/season/site-weather';
import type { Arguments, Option } from './args';
import type { Io } from './io';
import { noticesText } from './notices';
import { columnsOf } from './report-answer';
import { COLUMNS_OPTION, weatherAsked } from './weather-file';

/** Options of every command whose money rests on a year. */
export const YEAR_OPTIONS: Readonly<Record<string, Option>> = {
  weather: { value: 'FILE', about: 'hours of a weather file instead of the project’s climate' },
  ...COLUMNS_OPTION,
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
  const read = await weatherAsked(io, args, project);
  const weather = read?.series ?? null;
  if (read) {
    const odd = [...read.notices, ...seasonWeather(project, weather).notices];
    if (odd.length > 0) io.err(noticesText(odd, columnsOf(io)));
  }
  return {
    weather,
    ...(args.on('quick')
      ? {}
      : { season: (price: number) => seasonForBuild(project, price, weather, { band: !args.on('once') }) }),
  };
}
