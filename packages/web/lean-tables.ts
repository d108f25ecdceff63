import type { Plugin } from 'vite';

/** Leaves out of the data tables what their authors tell each other: title and note of a whole table. */
export function leanTables(): Plugin {
  return {
    name: 'lean-tables',
    apply: 'build',
    enforce: 'pre',
    transform: {
      filter: { id: /\/data\/src\/[^/]+\.json$/ },
      handler(code) {
        const { about, ...table } = JSON.parse(code);
        const { title: _title, note: _note, ...rest } = about ?? {};
        return { code: JSON.stringify({ about: rest, ...table }), map: null };
      },
    },
  };
}
