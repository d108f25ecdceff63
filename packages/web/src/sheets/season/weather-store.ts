import type { CsvMapping } from '@sunlap/workbench/weather/plain-csv';
import { openDB } from 'idb';

/** Weather files stay in this browser, beside the projects, by their name. */
const open = () =>
  openDB('sunlap-weather', 1, {
    upgrade(db) {
      db.createObjectStore('files');
    },
  });

/** A weather file, and for a plain table what its columns are. */
export interface KeptWeather {
  bytes: Uint8Array;
  mapping: CsvMapping | null;
}

export async function keepWeather(name: string, kept: KeptWeather): Promise<void> {
  try {
    await (await open()).put('files', kept, name);
  } catch {
    // a browser that keeps nothing still has it until the tab is closed
  }
}

export async function keptWeather(name: string): Promise<KeptWeather | null> {
  try {
    const found = (await (await open()).get('files', name)) as Uint8Array | KeptWeather | undefined;
    // files of before tables were taken are bytes alone
    return found instanceof Uint8Array ? { bytes: found, mapping: null } : (found ?? null);
  } catch {
    return null;
  }
}
