import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vitest/config';

/** The built app in a real Chromium, as a person would use it. Build first; `CHROMIUM` may name the browser. */
export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  test: {
    include: ['test/e2e/**/*.e2e.ts'],
    globalSetup: ['test/e2e/serve.ts'],
    fileParallelism: false,
    // A browser on a machine with other work may be looked at while an answer is still dimmed.
    retry: 2,
    testTimeout: 90_000,
    hookTimeout: 90_000,
  },
});
