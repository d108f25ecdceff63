import table from './derating.json';
import type { Provenance } from './table';
import { readTable } from './table';

export interface Derating extends Provenance {
  material: string;
  at_C: number;
  /** Share of the cold rating that is left. */
  factor: number;
  /** Least and most among published tables, where they differ. */
  published?: readonly [number, number];
}

export const deratings: readonly Derating[] = readTable<Derating>(table.about, table.table);

/** Rows of a material, coolest first. Under the first no credit is taken; over the last it bears no pressure. */
export function deratingsOf(material: string): readonly Derating[] {
  return deratings.filter((row) => row.material === material);
}

/**
 * Share of the cold rating left at a temperature, linear between rows; undefined for an unknown material.
 * @example deratingFactor('PVC', 60) // 0.22
 */
export function deratingFactor(material: string, at_C: number): number | undefined {
  const rows = deratingsOf(material);
  if (rows.length === 0) return undefined;
  const next = rows.findIndex((row) => at_C <= row.at_C);
  if (next < 0) return 0;
  if (next === 0) return rows[0].factor;
  const [a, b] = [rows[next - 1], rows[next]];
  return a.factor + ((b.factor - a.factor) * (at_C - a.at_C)) / (b.at_C - a.at_C);
}
