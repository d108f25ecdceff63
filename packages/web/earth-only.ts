import type { Plugin } from 'vite';

const TABLE = /\bconst vsop = \{[\s\S]*?\n\};/;
const EARTH = /\bEarth: (\[[\s\S]*?\n {4}\])/;

/**
 * Leaves the orbits of the other planets out of astronomy-engine: the place of the sun takes the earth's alone,
 * and a table of all is never shaken apart. Fails when the package no longer looks as it did.
 */
export function earthOnly(): Plugin {
  return {
    name: 'earth-only',
    apply: 'build',
    transform: {
      filter: { id: /astronomy-engine\/esm\/astronomy\.js$/ },
      handler(code) {
        const [table] = TABLE.exec(code) ?? [];
        const [, earth] = EARTH.exec(table ?? '') ?? [];
        if (table === undefined || earth === undefined)
          this.error('no orbit of the earth in astronomy-engine');
        return code.replace(table, () => `const vsop = { Earth: ${earth} };`);
      },
    },
  };
}
