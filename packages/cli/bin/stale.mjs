import { readdirSync, statSync } from 'node:fs';
import { join } from 'node:path';

/** Packages whose sources the bundle is made of. */
const PACKAGES = ['engine', 'data', 'project', 'drawing', 'workbench', 'cli'];

/**
 * Is there a source in the checkout that was changed after the bundle was built? Times only, some milliseconds; an
 * installed program has no sources, and none is newer.
 *
 * @param {string} root  folder of the checkout
 * @param {readonly string[]} built  files of which the newest says when it was built, or was found to be up to date
 */
export function isStale(root, built) {
  let time = 0;
  for (const path of built) time = Math.max(time, timeOf(path));
  return PACKAGES.some((name) => anyNewer(join(root, 'packages', name, 'src'), time));
}

function timeOf(path) {
  return statSync(path, { throwIfNoEntry: false })?.mtimeMs ?? 0;
}

function anyNewer(folder, time) {
  let entries;
  try {
    entries = readdirSync(folder, { withFileTypes: true });
  } catch {
    return false;
  }
  return entries.some((entry) => {
    const path = join(folder, entry.name);
    return entry.isDirectory() ? anyNewer(path, time) : timeOf(path) > time;
  });
}
