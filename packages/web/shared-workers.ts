import { dirname, resolve } from 'node:path';
import type { Plugin, Rolldown } from 'vite';

const MADE = /new Worker\(new URL\('(\.[^']+)', import\.meta\.url\)/g;

type Bundle = Rolldown.OutputBundle;

/** Files of everything that these entries import, whether at once or later. */
function reached(bundle: Bundle, entries: ReadonlySet<string>): Set<string> {
  const waiting = Object.values(bundle)
    .filter((c) => c.type === 'chunk' && c.facadeModuleId !== null && entries.has(c.facadeModuleId))
    .map((c) => c.fileName);
  const seen = new Set<string>();
  for (let file = waiting.pop(); file !== undefined; file = waiting.pop()) {
    const chunk = bundle[file];
    if (seen.has(file) || chunk?.type !== 'chunk') continue;
    seen.add(file);
    waiting.push(...chunk.imports, ...chunk.dynamicImports);
  }
  return seen;
}

/**
 * Builds workers as entries of the page's own bundle. Vite bundles each worker by itself, so that what page and
 * workers share would be fetched once for each of them. In development workers stay as Vite serves them.
 */
export function sharedWorkers(): Plugin {
  const entries = new Set<string>();
  let inWorkers = new Set<string>();
  return {
    name: 'shared-workers',
    apply: 'build',
    enforce: 'pre',
    config: () => ({
      build: {
        modulePreload: {
          polyfill: false,
          // links in the page's head fetch ahead; a worker has none
          resolveDependencies: (_, deps, { hostId, hostType }) =>
            hostType === 'js' && inWorkers.has(hostId) ? [] : deps,
        },
      },
    }),
    transform(code, id) {
      if (id.includes('vite/preload-helper')) return code.replaceAll('window.', 'globalThis.');
      if (!code.includes('new Worker(')) return null;
      return code.replaceAll(MADE, (_, path: string) => {
        const entry = resolve(dirname(id), path);
        entries.add(entry);
        return `new Worker(import.meta.ROLLUP_FILE_URL_${this.emitFile({ type: 'chunk', id: entry })}`;
      });
    },
    generateBundle(_, bundle) {
      inWorkers = reached(bundle, entries);
    },
  };
}
