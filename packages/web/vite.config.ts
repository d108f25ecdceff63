import { fileURLToPath } from 'node:url';
import { defineConfig } from 'vite';
import { VitePWA } from 'vite-plugin-pwa';
import { earthOnly } from './earth-only.js';
import { firstLoad } from './first-load.js';
import { leanTables } from './lean-tables.js';
import { sharedWorkers } from './shared-workers.js';

export default defineConfig({
  root: fileURLToPath(new URL('.', import.meta.url)),
  base: './',
  oxc: { jsx: { runtime: 'automatic', importSource: 'preact' } },
  worker: { format: 'es' },
  plugins: [
    sharedWorkers(),
    earthOnly(),
    leanTables(),
    firstLoad(),
    // registered in main.tsx, so that no script stands in the page itself; nothing of it in development
    VitePWA({
      injectRegister: false,
      // a newer version waits until every tab is closed: parts that are fetched later stay those of the page
      registerType: 'prompt',
      manifest: {
        name: 'Sunlap',
        short_name: 'Sunlap',
        description: 'A workbench for your own solar pool heater.',
        start_url: './',
        scope: './',
        display: 'standalone',
        background_color: '#f5f2ea',
        theme_color: '#f5f2ea',
        icons: [{ src: 'icon.svg', sizes: 'any', type: 'image/svg+xml', purpose: 'any' }],
      },
      workbox: {
        globPatterns: ['**/*.{html,js,css,woff2,svg,json}'],
        // The integer solver is large: kept once it was asked for, not fetched before.
        runtimeCaching: [
          {
            urlPattern: /\.wasm$/,
            handler: 'CacheFirst',
            options: { cacheName: 'solver', expiration: { maxEntries: 2 } },
          },
        ],
        maximumFileSizeToCacheInBytes: 6_000_000,
        cleanupOutdatedCaches: true,
        clientsClaim: true,
      },
    }),
  ],
  build: {
    outDir: 'dist',
    emptyOutDir: true,
    target: 'es2022',
    assetsInlineLimit: 0,
  },
});
