import table from './pumps.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** A generic pump: H = H0 − a·Q² at full speed. */
export interface PumpOnShelf extends Provenance {
  id: string;
  label: string;
  kind: 'single' | 'twoSpeed' | 'variable';
  /** Shaft power on its plate. */
  rated_W: number;
  shutOffHead_m: number;
  /** Flow at zero head. */
  mostFlow_m3s: number;
  /** H0 over the square of that flow. */
  coefficient_s2m5: number;
  /** Near the middle of the curve. */
  wireToWater: number;
  /** Losses that do not fall with speed. */
  driveLoad_W: number;
  /** Speeds as shares of full speed: the steps; of a variable one the least and the most. */
  speeds: readonly number[];
}

export const pumps: readonly PumpOnShelf[] = readTable<Omit<PumpOnShelf, 'coefficient_s2m5'>>(
  table.about,
  table.table,
).map((row) => ({ ...row, coefficient_s2m5: row.shutOffHead_m / row.mostFlow_m3s ** 2 }));

export const findPump = finder(pumps, (row) => row.id);
