import { LARGEST_FILE, textOfBytes } from './bytes';
import { readEpw } from './epw';
import { readNsrdb } from './nsrdb';
import { type CsvMapping, readPlainCsv } from './plain-csv';
import { type PvgisOptions, readPvgisCsv, readPvgisJson } from './pvgis';
import { problem, refuse, type WeatherFormat, type WeatherReading } from './reading';
import { readTmy2 } from './tmy2';
import { readTmy3 } from './tmy3';

export interface ReadWeatherOptions extends PvgisOptions {
  /** How to read a plain table; also makes any text be read as one. */
  readonly mapping?: CsvMapping;
}

/** Which format a text is in, by its first lines; null when it is none of the known ones. */
export function detectFormat(text: string): WeatherFormat | null {
  const head = text.slice(0, 4000).replace(/^\uFEFF/, '');
  const lines = head.split(/\r\n|\n|\r/);
  if (/^\s*\{/.test(head)) return 'pvgis-json';
  if (/^\s*LOCATION\s*,/i.test(head)) return 'epw';
  if (/^"?Date( \(MM\/DD\/YYYY\))?"?,"?Time/i.test(lines[1] ?? '')) return 'tmy3';
  if (/^Latitude \(decimal degrees\)/i.test(head)) return 'pvgis-csv';
  if (/^Year,Month,Day,Hour/i.test(lines[2] ?? '') && /Latitude/i.test(lines[0])) return 'nsrdb';
  if (/^.{36} [NS] [ \d]\d [ \d]\d [EW] /.test(lines[0])) return 'tmy2';
  return null;
}

/**
 * Reads weather from the bytes or text of a file, whatever of the known formats it is in.
 *
 * @returns a full series with what was found, or every problem with line and column. Never throws at a file.
 */
export function readWeather(file: Uint8Array | string, options: ReadWeatherOptions = {}): WeatherReading {
  if (file.length > LARGEST_FILE)
    return refuse(
      problem(0, 0, `${Math.round(file.length / 1048576)} MB`, 'a weather file of at most 64 MB'),
    );
  const text = typeof file === 'string' ? file : textOfBytes(file);
  if (text.trim() === '') return refuse(problem(0, 0, '', 'a weather file'));
  const zero = text.indexOf('\0');
  if (zero >= 0)
    return refuse(
      problem(
        text.slice(0, zero).split('\n').length,
        0,
        'bytes that are no text',
        'a text file (UTF-8, UTF-16 or Latin-1)',
      ),
    );
  if (options.mapping) return readPlainCsv(text, options.mapping);
  switch (detectFormat(text)) {
    case 'epw':
      return readEpw(text);
    case 'tmy3':
      return readTmy3(text);
    case 'tmy2':
      return readTmy2(text);
    case 'pvgis-csv':
      return readPvgisCsv(text, options);
    case 'pvgis-json':
      return readPvgisJson(text, options);
    case 'nsrdb':
      return readNsrdb(text);
    default:
      return refuse(
        problem(
          1,
          0,
          text.slice(0, 40).split('\n')[0],
          'EPW, TMY3, TMY2, PVGIS, NSRDB, or a table with its columns named',
        ),
      );
  }
}
