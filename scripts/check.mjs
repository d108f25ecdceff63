// Types, fences, style and lock file.
import { readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, runTool } from './lib/run.mjs';
import { install } from './lib/setup.mjs';

await install();
let failed = 0;
const step = async (name, args) => {
  console.log(`· ${[name, ...args].join(' ')}`);
  if ((await runTool(name, args)) !== 0) failed++;
};

for (const config of ['core', 'cli', 'web', 'test']) await step('tsc', ['-p', `tsconfig.${config}.json`]);
await step('biome', ['check', '--error-on-warnings', '.']);
await step('oxlint', ['--type-aware']);

const complain = (text) => {
  console.error(text);
  failed++;
};

const lock = readFileSync(join(root, 'package-lock.json'), 'utf8');
if (/"resolved": "https?:/.test(lock)) {
  complain('package-lock.json holds download addresses; .npmrc omits them, so install with it in force.');
}

/** Arrows between the rooms point down only, and across rooms only by package name. */
const MAY_USE = {
  engine: [],
  data: ['engine'],
  project: ['engine', 'data'],
  drawing: ['engine'],
  workbench: ['engine', 'data', 'project', 'drawing'],
  cli: ['engine', 'data', 'project', 'drawing', 'workbench'],
  web: ['engine', 'data', 'project', 'drawing', 'workbench'],
};
function* files(folder) {
  for (const entry of readdirSync(folder, { withFileTypes: true })) {
    const path = join(folder, entry.name);
    if (entry.isDirectory()) yield* files(path);
    else if (/\.tsx?$/.test(entry.name)) yield path;
  }
}
for (const [room, allowed] of Object.entries(MAY_USE)) {
  for (const file of files(join(root, 'packages', room, 'src'))) {
    const source = readFileSync(file, 'utf8');
    for (const [, target] of source.matchAll(/(?:from|import)\s*\(?['"]([^'"]+)['"]/g)) {
      const [, other] = /^@sunlap\/([a-z]+)/.exec(target) ?? [];
      if (other && other !== room && !allowed.includes(other))
        complain(`${file}: ${room} must not use ${other}`);
      if (/^(\.\.\/)+(engine|data|project|drawing|workbench|cli|web)\/src/.test(target)) {
        complain(`${file}: reach another room by its package name, not ${target}`);
      }
      if (room === 'engine' && /^zod/.test(target)) complain(`${file}: no Zod in the engine`);
    }
  }
}

console.log(failed === 0 ? 'Checks are clean.' : `${failed} check${failed > 1 ? 's' : ''} failed.`);
process.exit(failed === 0 ? 0 : 1);
