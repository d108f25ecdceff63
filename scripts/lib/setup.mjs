import { createHash } from 'node:crypto';
import { existsSync, mkdirSync, readdirSync, readFileSync, utimesSync, writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { must, root } from './run.mjs';

const LEAST_NODE = [20, 19];

/** Ends with a plain message when Node is too old. */
export function checkNode() {
  const [major, minor] = process.versions.node.split('.').map(Number);
  const ok = major > LEAST_NODE[0] || (major === LEAST_NODE[0] && minor >= LEAST_NODE[1]);
  if (ok) return;
  console.error(`Sunlap needs Node ${LEAST_NODE.join('.')} or newer; this is ${process.versions.node}.`);
  process.exit(1);
}

function readJson(path) {
  try {
    return JSON.parse(readFileSync(join(root, path), 'utf8'));
  } catch {
    return undefined;
  }
}

/** True when what is installed is what the lock file says. Packages for other systems may be absent. */
function installed() {
  const wanted = readJson('package-lock.json')?.packages ?? {};
  const present = readJson('node_modules/.package-lock.json')?.packages;
  if (!present) return false;
  return Object.entries(wanted).every(([path, entry]) => {
    if (!path.includes('node_modules/')) return true;
    const there = present[path];
    if (there === undefined) return entry.optional === true || entry.peer === true;
    return entry.link === true || there.version === entry.version;
  });
}

/** Installs exactly what the lock file says, when something else or nothing is there. */
export async function install() {
  checkNode();
  if (installed()) return;
  console.log('Getting the packages that Sunlap is built from (once) …');
  await must('npm', ['ci', '--no-audit', '--no-fund', '--loglevel=error']);
}

const SKIP = new Set(['node_modules', 'dist', '.git', '.build', 'test', 'bench', 'coverage']);

function* sources(folder) {
  for (const entry of readdirSync(join(root, folder), { withFileTypes: true })) {
    const path = `${folder}/${entry.name}`;
    if (entry.isDirectory()) {
      if (!SKIP.has(entry.name)) yield* sources(path);
    } else yield path;
  }
}

/** Digest of everything that a build comes from. */
function digest(folders) {
  const hash = createHash('sha256');
  for (const folder of folders) {
    for (const path of [...sources(folder)].sort((a, b) => (a < b ? -1 : 1))) {
      hash
        .update(path)
        .update('\0')
        .update(readFileSync(join(root, path)))
        .update('\0');
    }
  }
  hash.update(readFileSync(join(root, 'package-lock.json')));
  return hash.digest('hex');
}

const CORE = [
  'packages/engine',
  'packages/data',
  'packages/project',
  'packages/drawing',
  'packages/workbench',
];

/**
 * Builds a face when its sources changed since it was last built.
 * @param {'web' | 'cli'} face
 */
export async function build(face) {
  const now = digest([...CORE, `packages/${face}`, 'examples']);
  const stamp = join(root, `.build/${face}`);
  const dist = join(root, `packages/${face}/dist`);
  if (existsSync(dist) && existsSync(stamp) && readFileSync(stamp, 'utf8') === now) {
    // files that were only touched are not newer than this
    utimesSync(stamp, new Date(), new Date());
    return;
  }
  console.log(`Building the ${face === 'web' ? 'app' : 'command line'} …`);
  const vite = await import('vite');
  await vite.build({ root: join(root, `packages/${face}`), logLevel: 'warn' });
  mkdirSync(join(root, '.build'), { recursive: true });
  writeFileSync(stamp, now);
}
