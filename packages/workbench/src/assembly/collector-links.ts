import type { Bank, Collector, HeaderEnd, Plumbing, Section } from '@sunlap/project/schema/collector';
import {
  ASSUMED_ELBOWS,
  type AssumedFittings,
  assumedLoss,
  bothEndsArm_m,
  handoverElbows,
  handoverShape,
  SAME_PLACE_M,
} from './assumed-pipes';
import { addBank, type BankLinks, type EndNodes } from './bank-links';
import { addLink, addNode, type Draft } from './draft';
import { distance_m, type PanelPoint } from './frame';
import { bankPort, type PanelGeometry, type SectionGeometry } from './geometry';
import { pathLength_m } from './heights';
import { addPath } from './path-links';
import { handoverAt } from './plumbed-ends';
import type { Tables } from './tables';

export interface SectionLinks {
  readonly inNode: number;
  readonly outNode: number;
  /** Links by which water enters, signed so that inflow is positive. */
  readonly enter: readonly { link: number; sign: 1 | -1 }[];
}

/** What the recursion needs to know. */
interface Context {
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

export interface CollectorLinks {
  readonly outNode: number;
  readonly banks: readonly BankLinks[];
  readonly sections: readonly SectionLinks[];
  /** Longest way through, hand-overs and pipes included [m]. */
  readonly length_m: number;
  /** Of the header or pipe by which water leaves; null when nothing is plumbed. */
  readonly bore_m: number | null;
}

/**
 * Put the collector behind a node, as its plumbing says.
 *
 * @param inNode where the feed ends
 * @param distance_m from the suction mouth to there
 */
export function addCollector(
  draft: Draft,
  collector: Collector,
  geometry: PanelGeometry,
  tables: Tables,
  inNode: number,
  distance_m: number,
): CollectorLinks {
  const firstBank: number[] = [];
  let n = 0;
  for (const s of collector.sections) {
    firstBank.push(n);
    n += s.banks.length;
  }
  const context: Context = {
    draft,
    collector,
    geometry,
    tables,
    banks: new Array<BankLinks>(n),
    sections: new Array<SectionLinks>(collector.sections.length),
    firstBank,
    seen: new Set(),
  };
  const end = addPart(context, collector.plumbing, '/collector/plumbing', inNode, null, null, distance_m);
  return {
    outNode: end.node,
    banks: context.banks,
    sections: context.sections,
    length_m: end.distance_m - distance_m,
    bore_m: end.bore_m,
  };
}

/** Where the collector's first way in lies; null when pipe comes before it or nothing is plumbed. */
export function inletPoint(part: Plumbing, collector: Collector, geometry: PanelGeometry): PanelPoint | null {
  if (part.before !== undefined) return null;
  if (part.section !== undefined) return sectionOf(part.section, collector, geometry)?.inlet ?? null;
  if (part.series) return inletPoint(part.series[0], collector, geometry);
  if (part.parallel?.some((p) => p.before !== undefined)) return null;
  return part.parallel ? inletPoint(part.parallel[0], collector, geometry) : null;
}

function outletPoint(part: Plumbing, collector: Collector, geometry: PanelGeometry): PanelPoint | null {
  if (part.after !== undefined) return null;
  if (part.section !== undefined) return sectionOf(part.section, collector, geometry)?.outlet ?? null;
  if (part.series) return outletPoint(part.series[part.series.length - 1], collector, geometry);
  if (part.parallel?.some((p) => p.after !== undefined)) return null;
  return part.parallel ? outletPoint(part.parallel[0], collector, geometry) : null;
}

/** Height at which water enters the first section of a part, whatever comes before. */
export function inletHeight_m(part: Plumbing, collector: Collector, geometry: PanelGeometry): number | null {
  if (part.section !== undefined) return sectionOf(part.section, collector, geometry)?.inlet.height_m ?? null;
  const inner = part.series ?? part.parallel;
  return inner ? inletHeight_m(inner[0], collector, geometry) : null;
}

function sectionOf(id: string, collector: Collector, geometry: PanelGeometry): SectionGeometry | undefined {
  return geometry.sections[collector.sections.findIndex((s) => s.id === id)];
}

/** Where a part's water comes from, and whether a tee parts it there. */
interface Start {
  readonly point: PanelPoint;
  readonly tee: boolean;
}

const startAt = (point: PanelPoint | null, tee: boolean): Start | null => point && { point, tee };

interface PartEnd {
  node: number;
  distance_m: number;
  bore_m: number | null;
}

function addPart(
  c: Context,
  part: Plumbing,
  pointer: string,
  start: number,
  startPoint: Start | null,
  to: number | null,
  distance0_m: number,
): PartEnd {
  const { draft } = c;
  let node = start;
  let distance = distance0_m;
  if (part.before !== undefined && part.before.length > 0) {
    const end = addPath(draft, part.before, c.tables, node, null, {
      pointer: `${pointer}/before`,
      way: 'through',
      distance_m: distance,
      endHeight_m: inletHeight_m(part, c.collector, c.geometry),
      bore_m: null,
    });
    node = end.node;
    distance = end.distance_m;
  }
  const inner = (inTo: number | null): PartEnd => {
    if (part.section !== undefined)
      return addNamedSection(c, part, pointer, node, startPoint, inTo, distance);
    if (part.series) return addSeries(c, part.series, pointer, node, startPoint, inTo, distance);
    if (part.parallel) return addParallel(c, part.parallel, pointer, node, startPoint, inTo, distance);
    return passThrough(draft, pointer, node, inTo, distance);
  };
  if (part.after === undefined || part.after.length === 0) return inner(to);
  const end = inner(null);
  const behind = addPath(draft, part.after, c.tables, end.node, to, {
    pointer: `${pointer}/after`,
    way: 'through',
    distance_m: end.distance_m,
    endHeight_m: to === null ? null : draft.nodes[to].elevation_m,
    bore_m: end.bore_m,
  });
  return behind;
}

function passThrough(
  draft: Draft,
  pointer: string,
  node: number,
  to: number | null,
  distance_m: number,
): PartEnd {
  if (to === null || to === node) return { node, distance_m, bore_m: null };
  addLink(
    draft,
    node,
    to,
    { kind: 'fitting', bore_m: 0.05, coefficient: 1e-3 },
    false,
    'join',
    pointer,
    pointer,
  );
  return { node: to, distance_m, bore_m: null };
}

function addSeries(
  c: Context,
  parts: readonly Plumbing[],
  pointer: string,
  start: number,
  startPoint: Start | null,
  to: number | null,
  distance0_m: number,
): PartEnd {
  let end: PartEnd = { node: start, distance_m: distance0_m, bore_m: null };
  let point = startPoint;
  for (let i = 0; i < parts.length; i++) {
    const target = i === parts.length - 1 ? to : null;
    end = addPart(c, parts[i], `${pointer}/series/${i}`, end.node, point, target, end.distance_m);
    point = startAt(outletPoint(parts[i], c.collector, c.geometry), false);
  }
  return end;
}

function addParallel(
  c: Context,
  parts: readonly Plumbing[],
  pointer: string,
  arriving: number,
  startPoint: Start | null,
  to: number | null,
  distance0_m: number,
): PartEnd {
  const splitPoint = parts.some((p) => p.before !== undefined)
    ? null
    : startAt(inletPoint(parts[0], c.collector, c.geometry), parts.length > 1);
  const meet = parts.some((p) => p.after !== undefined)
    ? null
    : outletPoint(parts[0], c.collector, c.geometry);
  let start = arriving;
  if (startPoint && splitPoint && distance_m(startPoint.point, splitPoint.point) > SAME_PLACE_M) {
    const tees = startPoint.tee ? 1 : 0;
    start = addAssumed(c, pointer, start, null, startPoint.point, splitPoint.point, parts[0], tees);
  }
  let node = to;
  let distance = distance0_m;
  let bore: number | null = null;
  for (let i = 0; i < parts.length; i++) {
    const at = `${pointer}/parallel/${i}`;
    const own = outletPoint(parts[i], c.collector, c.geometry);
    const apart = node !== null && meet !== null && own !== null && distance_m(meet, own) > SAME_PLACE_M;
    let end = addPart(c, parts[i], at, start, splitPoint, apart ? null : node, distance0_m);
    if (apart && node !== null)
      end = { ...end, node: addAssumed(c, at, end.node, node, own!, meet!, parts[i], 1) };
    node ??= end.node;
    bore ??= end.bore_m;
    distance = Math.max(distance, end.distance_m);
  }
  return { node: node ?? start, distance_m: distance, bore_m: bore };
}

/** A pipe that the file does not describe: the straight way, two elbows and its tees, in the header's pipe. */
function addAssumed(
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

function addAssumedPipe(
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

function firstSection(part: Plumbing, collector: Collector): number {
  if (part.section !== undefined)
    return Math.max(
      0,
      collector.sections.findIndex((s) => s.id === part.section),
    );
  const inner = part.series ?? part.parallel;
  return inner ? firstSection(inner[0], collector) : 0;
}

function addNamedSection(
  c: Context,
  part: Plumbing,
  pointer: string,
  start: number,
  startPoint: Start | null,
  to: number | null,
  distance0_m: number,
): PartEnd {
  const index = c.collector.sections.findIndex((s) => s.id === part.section);
  // a name that no section has, or one plumbed twice: water passes straight on, and `check` says so
  if (index < 0 || c.seen.has(part.section!)) return passThrough(c.draft, pointer, start, to, distance0_m);
  c.seen.add(part.section!);
  const geometry = c.geometry.sections[index];
  let node = start;
  if (startPoint && part.before === undefined && distance_m(startPoint.point, geometry.inlet) > SAME_PLACE_M)
    node = addAssumed(
      c,
      pointer,
      start,
      null,
      startPoint.point,
      geometry.inlet,
      part,
      startPoint.tee ? 1 : 0,
    );
  return addSection(c, index, geometry, c.collector.sections[index], node, to, distance0_m);
}

function addSection(
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
