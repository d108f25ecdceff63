#!/usr/bin/env node
// Node 20 does not run TypeScript: this starts the bundle, or says how to build it.
import { existsSync } from 'node:fs';
import { fileURLToPath } from 'node:url';
import { isStale } from './stale.mjs';

const bundle = new URL('../dist/main.mjs', import.meta.url);
if (!existsSync(bundle)) {
  console.error('The command line is not built yet. In the folder of the checkout run:  npm run build');
  process.exit(2);
}
const root = fileURLToPath(new URL('../../../', import.meta.url));
if (isStale(root, [fileURLToPath(bundle), `${root}.build/cli`]))
  console.error('sunlap: its sources are newer than what runs here. For the new ones:  npm run build');
const { main } = await import(bundle.href);
process.exitCode = await main(process.argv.slice(2));
