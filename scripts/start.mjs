// Serves the app with the example open. Sets itself up on a machine that has only Node.
import { join } from 'node:path';
import { parseArgs } from 'node:util';
import { root } from './lib/run.mjs';
import { build, install } from './lib/setup.mjs';

const { values } = parseArgs({
  options: { port: { type: 'string', default: '5180' }, host: { type: 'boolean', default: false } },
});
const port = Number(values.port);
if (!Number.isInteger(port) || port < 1 || port > 65535) {
  console.error(`--port ${values.port}: expected a whole number from 1 to 65535`);
  process.exit(2);
}

await install();
await build('web');
await build('cli');
const { preview } = await import('vite');
const server = await preview({
  root: join(root, 'packages/web'),
  logLevel: 'error',
  preview: { port, strictPort: false, host: values.host ? true : '127.0.0.1', open: false },
});
const urls = [...(server.resolvedUrls?.local ?? []), ...(server.resolvedUrls?.network ?? [])];
console.log(`\nSunlap is at ${urls.join(' and ')}\nThe example is open there. Ctrl+C stops it.`);
if (values.host) console.log('Anyone on this network can open it; nothing leaves the device that shows it.');

let stopping = false;
for (const signal of ['SIGINT', 'SIGTERM']) {
  process.on(signal, () => {
    if (stopping) process.exit(0);
    stopping = true;
    console.log('\nStopped.');
    void server.close().finally(() => process.exit(0));
    setTimeout(() => process.exit(0), 2000).unref();
  });
}
