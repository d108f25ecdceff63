import type { Plumbing } from '@sunlap/project/schema/collector';
import { ASSUMED_ELBOWS, type AssumedFittings, assumedLoss, SAME_PLACE_M } from './assumed-pipes';
import type { Context } from './collector-context';
import { addLink, addNode, type Draft } from './draft';
import { distance_m, type PanelPoint } from './frame';
import { firstSection } from './plumbing-places';

/** A pipe that the file does not describe: the straight way, two elbows and its tees, in the header's pipe. */
export function addAssumed(
  c: Context,
  pointer: string,
  from: number,
  to: number | null,
  a: PanelPoint,
  b: PanelPoint,
  part: Plumbing,
  tees: number,
): number {
  const sectionIndex = firstSection(part, c.collector);
  const bank = c.geometry.banks[c.firstBank[sectionIndex]];
  const pipe = bank.supply?.size ?? bank.size ?? c.tables.sizes('');
  const length = Math.max(distance_m(a, b), SAME_PLACE_M);
  const node = to ?? addNode(c.draft, `${pointer}/assumed`, b.height_m);
  const fittings = { elbows: ASSUMED_ELBOWS, tees };
  addAssumedPipe(c.draft, from, node, length, pipe, fittings, pointer, 'Pipe between sections');
  c.draft.assumed.push({ path: pointer, what: 'pipe between sections', length_m: length });
  return node;
}

/** Pipe with its elbows and tees in one link. */
export function addAssumedPipe(
  draft: Draft,
  from: number,
  to: number,
  length_m: number,
  size: { bore_m: number; roughness_m: number },
  fittings: AssumedFittings,
  pointer: string,
  name: string,
  bank = -1,
): number {
  const law = {
    kind: 'pipe',
    length_m,
    bore_m: size.bore_m,
    roughness_m: size.roughness_m,
    minorLoss: assumedLoss(fittings, size.bore_m),
  } as const;
  draft.joinFittings.push({ path: pointer, ...fittings });
  return addLink(draft, from, to, law, false, 'join', pointer, name, bank);
}
