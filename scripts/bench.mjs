// Runs the benches and prints their ratios. `npm run bench -- network` runs those whose name contains it.
import { readdirSync } from 'node:fs';
import { join } from 'node:path';
import { root } from './lib/run.mjs';
import { install } from './lib/setup.mjs';

await install();
const wanted = process.argv[2] ?? '';
const { createServer } = await import('vite');
const server = await createServer({
  root,
  configFile: false,
  logLevel: 'error',
  server: { middlewareMode: true, hmr: false, ws: false },
  optimizeDeps: { noDiscovery: true },
});
try {
  for (const room of ['engine', 'workbench', 'web']) {
    const folder = join(root, 'packages', room, 'bench');
    let names = [];
    try {
      names = readdirSync(folder).filter((name) => name.endsWith('.bench.ts') && name.includes(wanted));
    } catch {
      continue;
    }
    for (const name of names.sort()) {
      console.log(`\n${room}/${name}`);
      const module = await server.ssrLoadModule(join(folder, name));
      await module.default?.();
    }
  }
} finally {
  await server.close();
}
