import table from './surfaces.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** What the tubes show to the sun. */
export interface Surface extends Provenance {
  id: string;
  label: string;
  /** Solar, at normal incidence, with its interval. */
  absorptance: number;
  low: number;
  high: number;
  /** Long-wave. */
  emittance: number;
}

export const surfaces: readonly Surface[] = readTable<Surface>(table.about, table.table);
export const findSurface = finder(surfaces, (row) => row.id);
