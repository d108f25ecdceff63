import table from './beaufort.json';
import type { Provenance } from './table';
import { readTable } from './table';

/** Wind as a person can judge it, with the speeds that the word covers. */
export interface Beaufort extends Provenance {
  force: number;
  name: string;
  words: string;
  low_ms: number;
  high_ms: number;
}

export const beaufortScale: readonly Beaufort[] = readTable<Beaufort>(table.about, table.table);
