// Runs the benches. `npm run bench -- network` runs those whose name contains it.
// A bench either prints its own ratios to a peer (a default export) or is one of the test runner's kind.
import { existsSync, readdirSync, readFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, runTool } from './lib/run.mjs';
import { install } from './lib/setup.mjs';

await install();
const wanted = process.argv[2] ?? '';
const benches = readdirSync(join(root, 'packages'))
  .map((room) => join('packages', room, 'bench'))
  .filter((folder) => existsSync(join(root, folder)))
  .flatMap((folder) => readdirSync(join(root, folder)).map((name) => join(folder, name)))
  .filter((path) => path.endsWith('.bench.ts') && path.includes(wanted))
  .sort();
if (benches.length === 0) {
  console.error(`no bench has "${wanted}" in its name`);
  process.exit(2);
}
const ofRunner = benches.filter((path) => /from 'vitest'/.test(readFileSync(join(root, path), 'utf8')));
const own = benches.filter((path) => !ofRunner.includes(path));

let failed = 0;
if (own.length > 0) {
  const { createServer } = await import('vite');
  const server = await createServer({
    root,
    configFile: false,
    logLevel: 'error',
    server: { middlewareMode: true, hmr: false, ws: false },
    optimizeDeps: { noDiscovery: true },
  });
  try {
    for (const path of own) {
      console.log(`\n${path}`);
      const module = await server.ssrLoadModule(join(root, path));
      await module.default();
    }
  } finally {
    await server.close();
  }
}
if (ofRunner.length > 0) failed = await runTool('vitest', ['bench', '--run', ...ofRunner]);
process.exit(failed);
