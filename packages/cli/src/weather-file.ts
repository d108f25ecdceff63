import { readWeather } from '@sunlap/workbench/weather/read-weather';
import type { WeatherReading } from '@sunlap/workbench/weather/reading';
import { type Io, WrongInput } from './io';

const LARGEST_BYTES = 64 * 1024 * 1024;

/** Reads a weather file of any format known. @throws {WrongInput} with line and column of what is wrong */
export async function loadWeather(io: Io, path: string): Promise<Extract<WeatherReading, { ok: true }>> {
  const size = await io.size(path);
  if (typeof size !== 'number') throw new WrongInput(`${path}: ${size.reason}; expected a weather file`);
  if (size > LARGEST_BYTES)
    throw new WrongInput(`${path}: ${(size / 1e6).toFixed(0)} MB; expected a weather file of at most 64 MB`);
  const read = readWeather(await io.read(path));
  if (!read.ok) throw new WrongInput(read.problems.map((p) => `${path}: ${p.message}`).join('\n'));
  return read;
}
