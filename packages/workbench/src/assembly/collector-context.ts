import type { Collector } from '@sunlap/project/schema/collector';
import type { BankLinks } from './bank-links';
import type { Draft } from './draft';
import type { PanelGeometry } from './geometry';
import type { Tables } from './tables';

/** Where a section begins and ends in the network. */
export interface SectionLinks {
  readonly inNode: number;
  readonly outNode: number;
  /** Links by which water enters, signed so that inflow is positive. */
  readonly enter: readonly { link: number; sign: 1 | -1 }[];
}

/** What the walk through the collector needs to know. */
export interface Context {
  readonly draft: Draft;
  readonly collector: Collector;
  readonly geometry: PanelGeometry;
  readonly tables: Tables;
  readonly banks: BankLinks[];
  readonly sections: SectionLinks[];
  /** Place of each section's first bank in the geometry's list. */
  readonly firstBank: readonly number[];
  readonly seen: Set<string>;
}

/** Where a part ends. */
export interface PartEnd {
  node: number;
  distance_m: number;
  bore_m: number | null;
}
