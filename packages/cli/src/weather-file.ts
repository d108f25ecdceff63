import type { Project } from '@sunlap/project/schema/project';
import type { Site } from '@sunlap/project/schema/site';
import { standardOffset_h } from '@sunlap/workbench/season/site-weather';
import { LARGEST_FILE, textOfBytes } from '@sunlap/workbench/weather/bytes';
import { columnsAsText, mappingFromText } from '@sunlap/workbench/weather/column-text';
import { previewTable } from '@sunlap/workbench/weather/guess-mapping';
import { detectFormat, readWeather } from '@sunlap/workbench/weather/read-weather';
import type { WeatherReading } from '@sunlap/workbench/weather/reading';
import type { Arguments, Option } from './args';
import { type Io, WrongInput } from './io';

/** How the columns of a plain table are named. */
export const COLUMNS_OPTION: Readonly<Record<string, Option>> = {
  columns: {
    value: '"time=1, temp=3:°F, …"',
    about:
      'read the weather file as a plain table: time or date and clock, temp, dew, humidity, wind, sun, direct, diffuse, pressure, cloud, rain, each by number or name of its column, unit after a colon; order, marks, zone, lat, lon, elevation; “guess” takes what the head suggests',
  },
};

/**
 * Reads a weather file of any format known, or a plain table whose columns the person names.
 *
 * @param site place and clock of a table that says none; of the project
 * @throws {WrongInput} with line and column of what is wrong
 */
export async function loadWeather(
  io: Io,
  args: Arguments,
  path: string,
  site?: Site,
): Promise<Extract<WeatherReading, { ok: true }>> {
  const size = await io.size(path);
  if (typeof size !== 'number') throw new WrongInput(`${path}: ${size.reason}; expected a weather file`);
  if (size > LARGEST_FILE)
    throw new WrongInput(`${path}: ${(size / 1e6).toFixed(0)} MB; expected a weather file of at most 64 MB`);
  const bytes = await io.read(path);
  const columns = args.text('columns');
  const read =
    columns === undefined ? readWeather(bytes) : readTable(textOfBytes(bytes), columns, path, site);
  if (read.ok) return read;
  const hint = columns === undefined ? tableHint(textOfBytes(bytes)) : '';
  throw new WrongInput(read.problems.map((p) => `${path}: ${p.message}`).join('\n') + hint);
}

/** The weather file that a command with a project was given; undefined without one. @throws {WrongInput} */
export async function weatherAsked(
  io: Io,
  args: Arguments,
  project: Project,
): Promise<Extract<WeatherReading, { ok: true }> | undefined> {
  const path = args.text('weather');
  if (path !== undefined) return loadWeather(io, args, path, project.site);
  if (args.text('columns') !== undefined)
    throw new WrongInput('--columns without --weather; expected --weather FILE beside it');
  return undefined;
}

function readTable(text: string, columns: string, path: string, site?: Site): WeatherReading {
  const preview = previewTable(text);
  if (preview === null)
    throw new WrongInput(`${path}: expected a table of at least two columns with a date in every row`);
  const name = path.split(/[\\/]/).at(-1) ?? path;
  const known = site ? { place: site, utcOffset_h: standardOffset_h(site.timeZone) } : {};
  const made = mappingFromText(columns, preview, name, known);
  if (!made.ok) throw new WrongInput(`--columns: ${made.message}`);
  return readWeather(text, { mapping: made.mapping });
}

/** What to write to have a plain table read; nothing where it is none. */
function tableHint(text: string): string {
  if (detectFormat(text) !== null) return '';
  const preview = previewTable(text);
  if (preview === null) return '';
  const list = preview.header.map((name, i) => `${i + 1} ${name}`).join(', ');
  return `\nIt is a table with the columns ${list}. Name them, as --columns "${columnsAsText(preview)}"`;
}
