import type { AssembledNetwork } from './network';

/** Links of the tubes of the bank at a JSON pointer; empty when there is none. */
export function unitLinksAt(assembled: AssembledNetwork, path: string): readonly number[] {
  const place = assembled.geometry.banks.findIndex((b) => b.path === path);
  return assembled.banks[place]?.units ?? [];
}
