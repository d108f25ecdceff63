// Builds both faces when they are stale.
import { build, install } from './lib/setup.mjs';

await install();
await build('cli');
await build('web');
