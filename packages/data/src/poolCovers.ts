import type { CoverKind } from '@sunlap/engine/pool/cover';
import table from './poolCovers.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** A pool cover; a film without resistance has conductance Infinity. */
export type PoolCover = CoverKind & Provenance;

export const poolCovers: readonly PoolCover[] = readTable<PoolCover>(table.about, table.table).map((row) => ({
  ...row,
  conductance_Wm2K: row.conductance_Wm2K ?? Number.POSITIVE_INFINITY,
}));
export const findPoolCover = finder(poolCovers, (row) => row.id);
