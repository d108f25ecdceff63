import table from './skies.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** A sky as a person can name it. */
export interface Sky extends Provenance {
  id: 'clear' | 'hazy' | 'thinCloud' | 'halfCloud' | 'overcast';
  words: string;
  /** Global irradiance over that of a clear sky of Linke turbidity 3, with its interval. */
  shareOfClear: number;
  low: number;
  high: number;
  /** For the clear-sky model. */
  linkeTurbidity: number;
  /** Covered share of the sky, with its interval. */
  cloud: number;
  cloudLow: number;
  cloudHigh: number;
}

export const skies: readonly Sky[] = readTable<Sky>(table.about, table.table);
export const findSky = finder(skies, (row) => row.id);
