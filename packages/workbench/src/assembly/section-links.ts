import type { Bank, HeaderEnd, Section } from '@sunlap/project/schema/collector';
import { addAssumedPipe } from './assumed-links';
import { ASSUMED_ELBOWS, bothEndsArm_m, handoverElbows, handoverShape, SAME_PLACE_M } from './assumed-pipes';
import { addBank, type BankLinks, type EndNodes } from './bank-links';
import type { Context, PartEnd } from './collector-context';
import { addNode, type Draft } from './draft';
import { bankPort, type SectionGeometry } from './geometry';
import { pathLength_m } from './heights';
import { addPath } from './path-links';
import { handoverAt } from './plumbed-ends';

/** A section between two nodes: its banks one after another, with what hands over between them. */
export function addSection(
  c: Context,
  index: number,
  geometry: SectionGeometry,
  section: Section,
  start: number,
  to: number | null,
  distance0_m: number,
): PartEnd {
  const { draft } = c;
  const lastBank = section.banks.length - 1;
  const out = to ?? addNode(draft, `${geometry.path}/outlet`, geometry.outlet.height_m);
  let arriving = portNodes(c, geometry, 0, 'supply', section.inletEnds, start);
  let distance = distance0_m;
  let enter: { link: number; sign: 1 | -1 }[] = [];
  for (let k = 0; k <= lastBank; k++) {
    const bank = section.banks[k];
    const g = geometry.banks[k];
    const place = c.firstBank[index] + k;
    const name = bank.name ?? bank.id;
    const leavingEnds = g.ends.outflow;
    const leaving =
      k === lastBank
        ? portNodes(c, geometry, k, 'gather', leavingEnds, out)
        : freshNodes(draft, geometry, k, 'gather', leavingEnds);
    const links = addBank(draft, bank, g, place, name, arriving, leaving);
    c.banks[place] = links;
    if (k === 0) enter = entrance(bank, links);
    distance += g.headerDistance_m;
    if (k < lastBank) {
      arriving = freshNodes(draft, geometry, k + 1, 'supply', geometry.banks[k + 1].ends.inflow);
      distance += addHandover(c, section, geometry, k, place, leaving, arriving);
    }
  }
  c.sections[index] = { inNode: start, outNode: out, enter };
  return { node: out, distance_m: distance, bore_m: geometry.banks[lastBank].gather?.size.bore_m ?? null };
}

/** Links that carry all the water into a section's first bank, with the sign that makes inflow positive. */
function entrance(bank: Bank, links: BankLinks): { link: number; sign: 1 | -1 }[] {
  if (links.supply.length === 0) {
    const series = bank.kind !== 'tubes' && bank.join === 'series';
    return (series ? links.units.slice(0, 1) : links.units).map((link) => ({ link, sign: 1 }));
  }
  const out: { link: number; sign: 1 | -1 }[] = [];
  const lead = links.supply[0];
  const trail = links.supply[links.supply.length - 1];
  if (lead >= 0) out.push({ link: lead, sign: 1 });
  if (trail >= 0) out.push({ link: trail, sign: -1 });
  return out;
}

/** Header ends of a section's way in or out: the node itself, or a pipe to each end when both are used. */
function portNodes(
  c: Context,
  geometry: SectionGeometry,
  k: number,
  which: 'supply' | 'gather',
  ends: readonly HeaderEnd[],
  node: number,
): EndNodes {
  const bank = geometry.banks[k];
  const header = which === 'supply' ? bank.supply : bank.gather;
  if (ends.length === 1 || !header) {
    return { first: ends.includes('first') ? node : -1, last: ends.includes('last') ? node : -1 };
  }
  const pointer = `${geometry.path}/${which === 'supply' ? 'inletEnds' : 'outletEnds'}`;
  const out = freshNodes(c.draft, geometry, k, which, ends);
  for (const end of [out.first, out.last]) {
    const [from, to] = which === 'supply' ? [node, end] : [end, node];
    addAssumedPipe(
      c.draft,
      from,
      to,
      bothEndsArm_m(header),
      header.size,
      // both arms begin or end in the one tee between them
      { elbows: ASSUMED_ELBOWS, tees: 1 },
      pointer,
      'Pipe to both header ends',
    );
  }
  return out;
}

function freshNodes(
  draft: Draft,
  geometry: SectionGeometry,
  k: number,
  which: 'supply' | 'gather',
  ends: readonly HeaderEnd[],
): EndNodes {
  const bank = geometry.banks[k];
  const at = (end: HeaderEnd): number =>
    ends.includes(end)
      ? addNode(draft, `${bank.path}/${which}/${end}`, bankPort(bank, which, end).height_m)
      : -1;
  if (which === 'supply' ? bank.supply : bank.gather) return { first: at('first'), last: at('last') };
  // without a header there is one place to join
  const node = at(ends[0]);
  return { first: node, last: node };
}

/** @returns length of the first join [m] */
function addHandover(
  c: Context,
  section: Section,
  geometry: SectionGeometry,
  step: number,
  place: number,
  leaving: EndNodes,
  arriving: EndNodes,
): number {
  const handover = handoverAt(section, step);
  const size = geometry.banks[step].gather?.size ?? geometry.banks[step].size ?? c.tables.sizes('');
  let length = 0;
  handover.joins.forEach((join, j) => {
    const pointer = `${geometry.path}/handovers/${step}/joins/${j}`;
    const from = leaving[join.from];
    const to = arriving[join.to];
    if (join.path !== undefined) {
      addPath(c.draft, join.path, c.tables, from, to, {
        pointer: `${pointer}/path`,
        way: 'through',
        distance_m: 0,
        endHeight_m: c.draft.nodes[to].elevation_m,
        bore_m: size.bore_m,
      });
      if (j === 0) length = pathLength_m(join.path);
      return;
    }
    const straight = Math.max(geometry.handovers[step][j].distance_m, SAME_PLACE_M);
    const shape = handoverShape(geometry.banks[step], geometry.banks[step + 1], join.from, join.to);
    addAssumedPipe(
      c.draft,
      from,
      to,
      straight,
      size,
      { elbows: handoverElbows(shape), tees: 0 },
      pointer,
      `Join ${step + 1} of ${section.name ?? section.id}`,
      place,
    );
    if (j === 0) length = straight;
  });
  return length;
}
