// Everything: computing core, command line, and the app in a real browser.
import { existsSync } from 'node:fs';
import { join } from 'node:path';
import { getChromium } from './lib/chromium.mjs';
import { root, runTool } from './lib/run.mjs';
import { build, install } from './lib/setup.mjs';

await install();
await build('cli');
const unit = await runTool('vitest', ['run']);
if (unit !== 0) process.exit(unit);

const chromium = await getChromium();
if (!chromium) process.exit(1);
await build('web');
const e2e = 'packages/web/vitest.e2e.config.ts';
if (!existsSync(join(root, e2e))) {
  console.error(`${e2e} is missing`);
  process.exit(1);
}
process.exit(await runTool('vitest', ['run', '--config', e2e], { env: { CHROMIUM: chromium } }));
