import { accessSync, constants, existsSync } from 'node:fs';
import { delimiter, join } from 'node:path';
import { run } from './run.mjs';

const NAMES = ['chromium', 'chromium-browser', 'google-chrome', 'google-chrome-stable', 'chrome'];
const PLACES = [
  '/Applications/Google Chrome.app/Contents/MacOS/Google Chrome',
  '/Applications/Chromium.app/Contents/MacOS/Chromium',
  'C:\\Program Files\\Google\\Chrome\\Application\\chrome.exe',
  'C:\\Program Files (x86)\\Google\\Chrome\\Application\\chrome.exe',
];

function runnable(path) {
  try {
    accessSync(path, constants.X_OK);
    return true;
  } catch {
    return false;
  }
}

/** Path of a Chromium on this machine, or undefined. `CHROMIUM` in the environment wins. */
export function findChromium() {
  if (process.env.CHROMIUM && existsSync(process.env.CHROMIUM)) return process.env.CHROMIUM;
  const folders = (process.env.PATH ?? '').split(delimiter);
  const found = folders.flatMap((folder) => NAMES.map((name) => join(folder, name))).find(runnable);
  return found ?? PLACES.find((place) => existsSync(place));
}

/** Finds Chromium, or installs it where the system lets us; else says exactly what to install. */
export async function getChromium() {
  const there = findChromium();
  if (there) return there;
  const root = process.getuid?.() === 0;
  if (root && existsSync('/usr/bin/apt-get')) {
    console.log('Installing Chromium for the browser tests …');
    await run('apt-get', ['update', '-qq'], { quiet: true });
    await run('apt-get', ['install', '-y', '-qq', '--no-install-recommends', 'chromium'], {
      quiet: true,
      env: { DEBIAN_FRONTEND: 'noninteractive' },
    });
    const installed = findChromium();
    if (installed) return installed;
  }
  const how =
    process.platform === 'linux'
      ? 'sudo apt-get install chromium   (or your system’s package of that name)'
      : 'Chromium or Chrome, in its usual place';
  console.error(
    `The browser tests need Chromium, which is not on this machine. Install:\n  ${how}\nor name one: CHROMIUM=/path/to/chromium npm test`,
  );
  return undefined;
}
