import table from './backings.json';
import type { Provenance } from './table';
import { readTable } from './table';

/** What lies behind the tubes. */
export interface Backing extends Provenance {
  id: string;
  kind: 'none' | 'board' | 'roof' | 'ground' | 'membrane';
  label: string;
  /** Of sunlight, with its interval. */
  reflectance: number;
  low: number;
  high: number;
  /** Long-wave. */
  emittance: number;
  /** Conductance from its face to what is behind it; judgement. */
  backLoss_Wm2K: number;
}

export const backings: readonly Backing[] = readTable<Backing>(table.about, table.table);
