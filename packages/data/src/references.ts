import table from './references.json';
import { finder } from './table';

/** A publication that docstrings and tables cite by key. Details from memory. */
export interface Reference {
  key: string;
  authors: string;
  year: number;
  title: string;
  where: string;
}

export const references: readonly Reference[] = table.rows;
export const findReference = finder(references, (row) => row.key);
