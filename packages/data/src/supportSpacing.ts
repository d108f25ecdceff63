import table from './supportSpacing.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** Published largest spacing of supports: a ceiling, not a recommendation. */
export interface SupportSpacing extends Provenance {
  /** Pipe family. */
  family: string;
  nominal: string;
  at_C: readonly number[];
  spacing_m: readonly number[];
}

export const supportSpacings: readonly SupportSpacing[] = readTable<SupportSpacing>(table.about, table.table);
const bySize = finder(supportSpacings, (row) => `${row.family} ${row.nominal}`);

/** Undefined for families without a published table. */
export function findSupportSpacing(family: string, nominal: string): SupportSpacing | undefined {
  return bySize(`${family} ${nominal}`);
}

/**
 * Largest spacing at a temperature [m]: of the next hotter row, never between; undefined over the last row.
 * @example mostSpacing_m(row, 45) // the figure for 48.9 °C
 */
export function mostSpacing_m(row: SupportSpacing, at_C: number): number | undefined {
  const index = row.at_C.findIndex((limit) => at_C <= limit + 0.01);
  return index < 0 ? undefined : row.spacing_m[index];
}
