import { defineConfig } from 'vitest/config';

export default defineConfig({
  test: {
    include: ['packages/*/test/**/*.test.{ts,tsx}'],
    exclude: ['**/node_modules/**', 'packages/web/test/e2e/**'],
    testTimeout: 60_000,
  },
});
