// Writes docs/project-1.schema.json from the format. A test says when it is stale.
import { writeFileSync } from 'node:fs';
import { join } from 'node:path';
import { root, runTool } from './lib/run.mjs';
import { install } from './lib/setup.mjs';

await install();
const { createServer } = await import('vite');
const server = await createServer({
  root,
  configFile: false,
  logLevel: 'error',
  server: { middlewareMode: true, hmr: false, ws: false },
  optimizeDeps: { noDiscovery: true },
});
try {
  const { projectJsonSchema } = await server.ssrLoadModule(
    join(root, 'packages/project/src/file/json-schema.ts'),
  );
  const path = join(root, 'docs/project-1.schema.json');
  writeFileSync(path, `${JSON.stringify(projectJsonSchema(), null, 2)}\n`);
  await runTool('biome', ['format', '--write', path], { quiet: true });
} finally {
  await server.close();
}
