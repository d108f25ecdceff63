import { openDB } from 'idb';

/** Weather files stay in this browser, beside the projects, by their name. */
const open = () =>
  openDB('sunlap-weather', 1, {
    upgrade(db) {
      db.createObjectStore('files');
    },
  });

export async function keepWeather(name: string, bytes: Uint8Array): Promise<void> {
  try {
    await (await open()).put('files', bytes, name);
  } catch {
    // a browser that keeps nothing still has it until the tab is closed
  }
}

export async function keptWeather(name: string): Promise<Uint8Array | null> {
  try {
    return ((await (await open()).get('files', name)) as Uint8Array | undefined) ?? null;
  } catch {
    return null;
  }
}
