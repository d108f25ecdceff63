import table from './devices.json';
import type { Provenance } from './table';
import { readTable } from './table';

/** Something else in line that takes pressure. */
export interface DeviceOnShelf extends Provenance {
  id: string;
  type: 'heater' | 'chlorinator' | 'feeder' | 'flowMeter' | 'strainer' | 'other';
  label: string;
  nominal: string;
  kv_m3h: number;
  /** Least flow at which it works, where it has one. */
  minFlow_m3s?: number;
}

export const devices: readonly DeviceOnShelf[] = readTable<DeviceOnShelf>(table.about, table.table);
