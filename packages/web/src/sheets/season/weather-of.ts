import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { readWeather } from '@sunlap/workbench/weather/read-weather';
import { keptWeather } from './weather-store';

const series = new Map<string, WeatherSeries>();

/** A file that was just read stands in place of an older one under its name. */
export function rememberWeather(name: string, read: WeatherSeries): void {
  series.set(name, read);
}

/** The hours of the file that a project's climate names, as this browser keeps it; null where it is no file, or not here. */
export async function weatherOf(project: Project): Promise<WeatherSeries | null> {
  const climate = project.season?.climate;
  if (climate?.kind !== 'file') return null;
  const known = series.get(climate.name);
  if (known !== undefined) return known;
  const kept = await keptWeather(climate.name);
  if (kept === null) return null;
  const reading = readWeather(kept.bytes, kept.mapping === null ? {} : { mapping: kept.mapping });
  if (!reading.ok) return null;
  series.set(climate.name, reading.series);
  return reading.series;
}
