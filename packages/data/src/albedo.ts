import table from './albedo.json';
import type { Provenance } from './table';
import { readTable } from './table';

/** Share of sunlight that ground sends back. */
export interface Albedo extends Provenance {
  id: string;
  label: string;
  albedo: number;
  low: number;
  high: number;
}

export const albedos: readonly Albedo[] = readTable<Albedo>(table.about, table.table);
