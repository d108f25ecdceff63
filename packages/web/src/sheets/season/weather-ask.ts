import { signal } from '@preact/signals';
import type { CsvMapping } from '@sunlap/workbench/weather/plain-csv';
import { askOnce, filesRead } from './run';
import type { WeatherNotice } from './weather-found';

/** What was found in the weather file that was read last. */
export const weather = signal<WeatherNotice | null>(null);

/** Has a file read by the worker, which keeps it when it can be used. */
export async function readFile(
  name: string,
  bytes: Uint8Array,
  mapping: CsvMapping | null = null,
): Promise<WeatherNotice> {
  const reply = await askOnce('weather', (id) => ({ kind: 'weather', id, name, bytes, mapping }));
  if (reply === null) return { ok: false, name, problems: ['The reader stopped.'], mayBeTable: false };
  if (reply.found.ok) filesRead.value++;
  return reply.found;
}
