import { inchSizeOf } from './nominalSizes';
import type { Provenance } from './table';
import { finder, readTable } from './table';
import table from './valves.json';

export type ValveType = 'ball' | 'gate' | 'globe' | 'needle' | 'butterfly' | 'diverter' | 'check';

export interface ValveSize extends Provenance {
  type: ValveType;
  nominal: string;
  /** Size of the same valve in metric plumbing. */
  metric: string;
  /** Fully open. */
  kv_m3h: number;
}

/** Share of Kv by opening, 0 at 0 and 1 at 1. */
export interface ValveCharacteristicRow extends Provenance {
  type: ValveType;
  opening: readonly number[];
  kvShare: readonly number[];
}

export const valves: readonly ValveSize[] = readTable<ValveSize>(table.about, table.table);
export const valveCharacteristics: readonly ValveCharacteristicRow[] = readTable<ValveCharacteristicRow>(
  table.about,
  table.characteristics,
);

const bySize = finder(valves, (row) => `${row.type} ${row.nominal}`);

/** A valve in a nominal size, inch or metric. */
export function findValve(type: ValveType, nominal: string): ValveSize | undefined {
  return bySize(`${type} ${inchSizeOf(nominal) ?? ''}`);
}

/** Undefined for check valves, which have no handle. */
export const findValveCharacteristic = finder(valveCharacteristics, (row) => row.type);
