import table from './exposure.json';
import type { Provenance } from './table';
import { finder, readTable } from './table';

/** Wind at the tubes, or 2 m over the water, over the wind at 10 m in the open. Judgement. */
export interface ExposureSetting extends Provenance {
  where: 'collector' | 'pool';
  id: string;
  label: string;
  ratio: number;
  low: number;
  high: number;
}

export const exposureSettings: readonly ExposureSetting[] = readTable<ExposureSetting>(
  table.about,
  table.table,
);
const bySetting = finder(exposureSettings, (row) => `${row.where} ${row.id}`);

/** @example findExposure('pool', 'sheltered') */
export function findExposure(where: ExposureSetting['where'], id: string): ExposureSetting | undefined {
  return bySetting(`${where} ${id}`);
}
