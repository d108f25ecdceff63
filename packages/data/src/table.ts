/** How a figure is known. `judgement` and `invented` are ours and say so. */
export type Known = 'read' | 'from memory' | 'derived' | 'common practice' | 'judgement' | 'invented';

/** Where a row comes from, how it is known, and where it holds. */
export interface Provenance {
  /** Keys of references.json, separated by spaces. */
  source: string;
  known: Known;
  range: string;
  note?: string;
}

/** A table as written in JSON: column names once, one row a line, null where a row has no figure. */
export interface Columns {
  columns: readonly string[];
  rows: ReadonlyArray<readonly unknown[]>;
}

/** Provenance of a whole table, taken by each row that has none of its own. */
export interface About {
  title: string;
  source: string;
  known: string;
  range: string;
  note?: string;
}

/** Rows as records with their provenance. That they fit `Row` is checked by the tests of this package. */
export function readTable<Row>(about: About, table: Columns): ReadonlyArray<Row & Provenance> {
  return table.rows.map((cells) => {
    const own = table.columns
      .map((column, i) => [column, cells[i]] as const)
      .filter((cell) => cell[1] !== null);
    return withProvenance<Row>(about, Object.fromEntries(own));
  });
}

/** A record with the table's provenance where it has none. The note is a row's own only. */
export function withProvenance<Row>(about: About, own: object): Row & Provenance {
  const { source, known, range } = about;
  return { source, known, range, ...own } as Row & Provenance;
}

/** Looks rows up by a key; undefined for an unknown one, whatever it is. The first of equals wins. */
export function finder<Row>(
  rows: readonly Row[],
  keyOf: (row: Row) => string,
): (key: string) => Row | undefined {
  const byKey = new Map<string, Row>();
  for (const row of rows) if (!byKey.has(keyOf(row))) byKey.set(keyOf(row), row);
  return (key) => byKey.get(key);
}
