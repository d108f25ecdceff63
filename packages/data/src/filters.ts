import table from './filters.json';
import type { Provenance } from './table';
import { readTable } from './table';

/** A clean filter with its valve. */
export interface FilterOnShelf extends Provenance {
  id: string;
  kind: 'sand' | 'cartridge' | 'diatomite';
  label: string;
  /** Flow at which the clean drop is given. */
  flow_m3s: number;
  cleanDrop_Pa: number;
  /** Share of the drop that goes with µ·Q; the rest goes with ρ·Q². */
  viscousShare: number;
  /** Rise of the drop at which it is cleaned. */
  cleanAtRise_Pa: number;
}

export const filters: readonly FilterOnShelf[] = readTable<FilterOnShelf>(table.about, table.table);
