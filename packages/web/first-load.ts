import { fileURLToPath } from 'node:url';
import type { Plugin } from 'vite';

const at = (path: string) => fileURLToPath(new URL(`./src/${path}`, import.meta.url));
const PAGE = at('main.tsx');
const SHEET = at('sheets/collector/CollectorSheet.tsx');
const QUICK = at('compute/quick.ts');
const IN_WORKER = /worker\.ts$/;

/**
 * Joins what the first answer takes into few files. Left to itself the bundler makes one of every set of modules
 * that the same entries share: some forty, many of a few lines, and small files pack badly.
 */
export function firstLoad(): Plugin {
  let groupOf = new Map<string, string>();
  return {
    name: 'first-load',
    apply: 'build',
    config: () => ({
      build: {
        rolldownOptions: {
          output: {
            codeSplitting: {
              includeDependenciesRecursively: false,
              groups: [{ debugName: 'first-load', name: (id) => groupOf.get(id) ?? null }],
            },
          },
        },
      },
    }),
    buildEnd() {
      /** Everything that this module imports, at once or, where asked, later. */
      const imported = (entry: string, later = false): Set<string> => {
        const seen = new Set<string>();
        const waiting = [entry];
        for (let id = waiting.pop(); id !== undefined; id = waiting.pop()) {
          if (seen.has(id)) continue;
          seen.add(id);
          const info = this.getModuleInfo(id);
          waiting.push(...(info?.importedIds ?? []), ...(later ? (info?.dynamicallyImportedIds ?? []) : []));
        }
        return seen;
      };
      const [page, sheet, quick] = [PAGE, SHEET, QUICK].map((id) => imported(id));
      const workers = [...this.getModuleIds()].filter((id) => IN_WORKER.test(id));
      const working = new Set(workers.flatMap((id) => [...imported(id, true)]));
      groupOf = new Map();
      for (const id of new Set([...page, ...sheet, ...quick])) {
        const shown = page.has(id) || sheet.has(id);
        if (working.has(id)) groupOf.set(id, shown ? 'common' : 'quick');
        else if (page.has(id)) groupOf.set(id, 'page');
        else groupOf.set(id, 'sheet');
      }
      // entries stay files of their own
      for (const id of [PAGE, SHEET, QUICK]) groupOf.delete(id);
    },
  };
}
