import table from './prices.json';
import type { Provenance } from './table';
import { readTable } from './table';

/** A demo price in US dollars of January 2026, invented and rounded. */
export interface DemoPrice extends Provenance {
  /** Pipe id, or part and size such as `tee-1/2`, `reducingTee-1x1/2`. */
  id: string;
  label?: string;
  per: 'stick' | 'coil' | 'each' | 'bag' | 'can' | 'kWh';
  price: number;
  /** Length of a stick or coil. */
  stock_m?: number;
  /** Pieces in a bag. */
  packOf?: number;
}

/** Day the demo prices stand for. */
export const DEMO_PRICES_AS_OF = '2026-01-15';

export const demoPrices: readonly DemoPrice[] = readTable<DemoPrice>(table.about, table.table);

/** Every way a part is sold. */
export function demoPricesOf(id: string): readonly DemoPrice[] {
  return demoPrices.filter((row) => row.id === id);
}
