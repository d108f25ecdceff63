import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { preview } from 'vite';
import type { TestProject } from 'vitest/node';

declare module 'vitest' {
  interface ProvidedContext {
    address: string;
  }
}

const config = fileURLToPath(new URL('../../vite.config.ts', import.meta.url));
const built = fileURLToPath(new URL('../../dist/index.html', import.meta.url));

/** Serves the built app on a free port for as long as the tests run. */
export default async function serve(project: TestProject) {
  if (!existsSync(built)) throw new Error('packages/web/dist is missing: npm run build makes it');
  const server = await preview({
    configFile: config,
    preview: { port: 0, host: '127.0.0.1' },
    logLevel: 'error',
  });
  const at = server.httpServer.address();
  if (at === null || typeof at === 'string') throw new Error('the preview server gave no port');
  project.provide('address', `http://127.0.0.1:${at.port}/`);
  return () => server.close();
}
