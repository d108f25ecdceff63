import table from './scald.json';
import type { Provenance } from './table';
import { readTable } from './table';

export interface Scald extends Provenance {
  at_C: number;
  /** Time to second- and third-degree burns, adults. */
  secondDegree_s: number;
  thirdDegree_s: number;
}

export const scalds: readonly Scald[] = readTable<Scald>(table.about, table.table);

/** The row at or next above a temperature, the last one beyond it; undefined under 43 °C. */
export function findScald(water_C: number): Scald | undefined {
  if (!(water_C >= 43)) return undefined;
  return scalds.find((row) => row.at_C >= water_C) ?? scalds[scalds.length - 1];
}
