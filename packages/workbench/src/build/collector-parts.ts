import { type Joinable, joinableOf } from '@sunlap/data/joinable';
import type { Collector, Handover, HeaderEnd, Plumbing, Section } from '@sunlap/project/schema/collector';
import {
  ASSUMED_ELBOWS,
  bothEndsArm_m,
  handoverElbows,
  handoverShape,
  SAME_PLACE_M,
} from '../assembly/assumed-pipes';
import { distance_m, type PanelPoint } from '../assembly/frame';
import type { BankGeometry, PanelGeometry, SectionGeometry } from '../assembly/geometry';
import { handoverAt } from '../assembly/plumbed-ends';
import { addBankParts, type BankPorts, type EndTap } from './bank-parts';
import { endLine, into, type Line, newLine, placeWaiting } from './line';
import { addPathParts, nextPipe } from './line-path';
import { teeAway, teesOf } from './partings';
import { elbow, type Gathering, passes, reduces, type Strand, simpleFitting, union } from './strand';
import { tapInLine } from './taps';

interface Context extends Gathering {
  readonly collector: Collector;
  readonly geometry: PanelGeometry;
  readonly seen: Set<string>;
}

/**
 * Every part of the collector behind a line, as its plumbing says; the same walk as the flow study's.
 *
 * @returns the line that leaves it
 */
export function addCollectorParts(
  g: Gathering,
  collector: Collector,
  geometry: PanelGeometry,
  line: Line,
): Line {
  const c: Context = { ...g, collector, geometry, seen: new Set() };
  // a plain object: the bag is shared, not copied
  return addPart(c, collector.plumbing, '/collector/plumbing', line, null);
}

function addPart(c: Context, part: Plumbing, pointer: string, line: Line, from: PanelPoint | null): Line {
  if (part.before) addPathParts(c, line, part.before, `${pointer}/before`);
  let out = line;
  if (part.section !== undefined) out = addNamed(c, part, part.section, pointer, line, from);
  else if (part.series) out = addSeries(c, part.series, pointer, line, from);
  else if (part.parallel) out = addParallel(c, part.parallel, pointer, line, from);
  if (part.after) addPathParts(c, out, part.after, `${pointer}/after`);
  return out;
}

function addSeries(
  c: Context,
  parts: readonly Plumbing[],
  pointer: string,
  line: Line,
  from: PanelPoint | null,
): Line {
  let point = from;
  let out = line;
  parts.forEach((part, i) => {
    out = addPart(c, part, `${pointer}/series/${i}`, out, point);
    point = portPoint(c, part, 'outlet');
  });
  return out;
}

/** Where a part begins or ends; null behind pipe that the file describes. */
function portPoint(c: Context, part: Plumbing, which: 'inlet' | 'outlet'): PanelPoint | null {
  if ((which === 'inlet' ? part.before : part.after) !== undefined) return null;
  if (part.section !== undefined) {
    const i = c.collector.sections.findIndex((s) => s.id === part.section);
    return c.geometry.sections[i]?.[which] ?? null;
  }
  if (part.series) return portPoint(c, part.series[which === 'inlet' ? 0 : part.series.length - 1], which);
  if (!part.parallel) return null;
  if (part.parallel.some((p) => (which === 'inlet' ? p.before : p.after) !== undefined)) return null;
  return portPoint(c, part.parallel[0], which);
}

function addParallel(
  c: Context,
  parts: readonly Plumbing[],
  pointer: string,
  line: Line,
  from: PanelPoint | null,
): Line {
  if (parts.length === 1) return addPart(c, parts[0], `${pointer}/parallel/0`, line, portPointOf(c, parts));
  const split = parts.some((p) => p.before !== undefined) ? null : portPoint(c, parts[0], 'inlet');
  const meet = parts.some((p) => p.after !== undefined) ? null : portPoint(c, parts[0], 'outlet');
  if (from && split && distance_m(from, split) > SAME_PLACE_M)
    addAssumed(c, line, distance_m(from, split), headerPipe(c, parts[0], pointer), pointer);
  const pipe = line.pipe ?? firstPipe(c, parts[0], pointer);
  teeAway(c, line, pipe, parts.length, pointer);
  let after: Joinable | null = null;
  parts.forEach((part, i) => {
    const at = `${pointer}/parallel/${i}`;
    const own = newLine(pipe, (p) => p.elbow_m, 2);
    const out = addPart(c, part, at, own, split);
    const end = portPoint(c, part, 'outlet');
    if (i > 0 && meet && end && distance_m(meet, end) > SAME_PLACE_M)
      addAssumed(c, out, distance_m(end, meet), headerPipe(c, part, at), at);
    after ??= out.pipe;
    endLine(out, (p) => p.elbow_m);
  });
  const meeting = after ?? pipe;
  teesOf(c, meeting, parts.length - 1, pointer);
  return newLine(meeting, (p) => p.elbow_m, 1);
}

function portPointOf(c: Context, parts: readonly Plumbing[]): PanelPoint | null {
  return parts[0].before !== undefined ? null : portPoint(c, parts[0], 'inlet');
}

function firstPipe(c: Context, part: Plumbing, pointer: string): Joinable {
  const named = part.before ? nextPipe(c, part.before, 0, pointer) : null;
  return named ?? headerPipe(c, part, pointer);
}

/** Pipe of the first header of a part. */
function headerPipe(c: Context, part: Plumbing, pointer: string): Joinable {
  const inner = part.series ?? part.parallel;
  if (part.section === undefined && inner) return headerPipe(c, inner[0], pointer);
  const i = Math.max(
    0,
    c.collector.sections.findIndex((s) => s.id === part.section),
  );
  const bank = c.geometry.sections[i].banks[0];
  return joinableOf(bank.supply?.size.id ?? bank.size?.id ?? '') ?? joinableOf('pvc-sch40-1/2')!;
}

/** The straight way with two elbows, as the flow study takes a pipe that the file does not describe. */
function addAssumed(c: Context, line: Line, length_m: number, pipe: Joinable, path: string): void {
  const strand = into(c, line, pipe, path);
  strand.add(Math.max(length_m, SAME_PLACE_M), {
    use: 'run',
    path,
    label: 'Pipe between sections',
    flexible: true,
  });
  placeWaiting(line);
  if (line.union) {
    strand.inline(union(pipe), 1, path);
    passes(c.bag, 'union', 1, pipe, path);
  }
  line.union = false;
  strand.inline(elbow(pipe), ASSUMED_ELBOWS, path);
}

function addNamed(
  c: Context,
  part: Plumbing,
  id: string,
  pointer: string,
  line: Line,
  from: PanelPoint | null,
): Line {
  const index = c.collector.sections.findIndex((s) => s.id === id);
  if (index < 0 || c.seen.has(id)) return line;
  c.seen.add(id);
  const geometry = c.geometry.sections[index];
  if (from && part.before === undefined && distance_m(from, geometry.inlet) > SAME_PLACE_M)
    addAssumed(c, line, distance_m(from, geometry.inlet), headerPipe(c, part, pointer), pointer);
  return addSection(c, geometry, c.collector.sections[index], line);
}

function addSection(c: Context, geometry: SectionGeometry, section: Section, line: Line): Line {
  const tapAt = (bank: number, header: 'supply' | 'gather', end: HeaderEnd): EndTap[] =>
    c.collector.taps.flatMap((tap, i) =>
      tap.at.section === section.id &&
      tap.at.bank === section.banks[bank].id &&
      tap.at.header === header &&
      tap.at.end === end
        ? [{ purpose: tap.purpose, path: `/collector/taps/${i}` }]
        : [],
    );
  const ports = section.banks.map((bank, k) =>
    addBankParts(c, c.collector, bank, geometry.banks[k], (h, end) => tapAt(k, h, end)[0]),
  );
  enterHeader(
    c,
    line,
    geometry.banks[0],
    ports[0],
    'supply',
    section.inletEnds,
    `${geometry.path}/inletEnds`,
    (e) => tapAt(0, 'supply', e),
  );
  for (let k = 1; k < section.banks.length; k++)
    handoverAt(section, k - 1).joins.forEach((join, j) => {
      addHandover(c, section, geometry, k - 1, j, ports[k - 1], ports[k], [
        ...tapAt(k - 1, 'gather', join.from),
        ...tapAt(k, 'supply', join.to),
      ]);
    });
  const last = section.banks.length - 1;
  return leaveHeader(
    c,
    geometry.banks[last],
    ports[last],
    section.outletEnds,
    `${geometry.path}/outletEnds`,
    (e) => tapAt(last, 'gather', e),
  );
}

/** From the arriving line into a header, at one end or at both. */
function enterHeader(
  c: Context,
  line: Line,
  bank: BankGeometry,
  ports: BankPorts,
  which: 'supply',
  ends: readonly HeaderEnd[],
  path: string,
  taps: (end: HeaderEnd) => EndTap[],
): void {
  placeWaiting(line);
  const unique = [...new Set(ends)];
  const piece = { use: 'run' as const, path, label: 'Lead-in of the supply header', flexible: false };
  if (unique.length === 1 || !bank[which]) {
    unionBefore(c, line, path);
    for (const tap of bank[which] ? taps(unique[0]) : []) tapInLine(c, line, tap.purpose, tap.path);
    if (ports.supplyLead_m > 0)
      intoHeader(c, line, ports.supply, path, 'node').add(ports.supplyLead_m, piece);
    endLine(line, () => ports.supplyTake_m);
    return;
  }
  const header = bank[which]!;
  unionBefore(c, line, path);
  const pipe = line.pipe ?? ports.supply;
  teeAway(c, line, pipe, 2, path);
  for (const end of unique) {
    const arm = newLine(pipe, (p) => p.elbow_m);
    const strand = intoHeader(c, arm, ports.supply, path);
    strand.add(bothEndsArm_m(header), { ...piece, label: 'Pipe to both header ends', flexible: true });
    strand.inline(elbow(ports.supply), ASSUMED_ELBOWS, path);
    for (const tap of taps(end)) tapInLine(c, arm, tap.purpose, tap.path);
    strand.add(ports.supplyLead_m, piece);
    endLine(arm, () => ports.supplyTake_m);
  }
}

/** Into a header's pipe, whose other bore no path of the file tells. */
function intoHeader(
  c: Context,
  line: Line,
  pipe: Joinable,
  path: string,
  at: 'pipe' | 'node' = 'pipe',
): Strand {
  const from = line.strand?.pipe ?? line.pipe;
  const strand = into(c, line, pipe, path);
  if (from) reduces(c.bag, from, pipe, path, at);
  return strand;
}

/** A union in the long pipe that arrives at a section. */
function unionBefore(c: Context, line: Line, path: string): void {
  if (!c.options.unions || !line.strand?.flexible) return;
  line.strand.inline(union(line.strand.pipe), 1, path);
  passes(c.bag, 'union', 1, line.strand.pipe, path, 'node');
}

/** From a header into the line that leaves it. */
function leaveHeader(
  c: Context,
  bank: BankGeometry,
  ports: BankPorts,
  ends: readonly HeaderEnd[],
  path: string,
  taps: (end: HeaderEnd) => EndTap[],
): Line {
  const unique = [...new Set(ends)];
  const piece = { use: 'run' as const, path, label: 'Lead-out of the return header', flexible: false };
  const start = (): Line => {
    const line = newLine(ports.gather, () => ports.gatherTake_m);
    if (ports.gatherLead_m > 0) into(c, line, ports.gather, path).add(ports.gatherLead_m, piece);
    return line;
  };
  if (unique.length === 1 || !bank.gather) {
    const line = start();
    const own = bank.gather ? taps(unique[0]) : [];
    line.waiting = () => {
      for (const tap of own) tapInLine(c, line, tap.purpose, tap.path);
    };
    // in the long pipe that follows, so that its length comes off that
    line.union = c.options.unions && bank.gather !== null;
    return line;
  }
  for (const end of unique) {
    const arm = start();
    const strand = arm.strand!;
    for (const tap of taps(end)) tapInLine(c, arm, tap.purpose, tap.path);
    strand.add(bothEndsArm_m(bank.gather), { ...piece, label: 'Pipe to both header ends', flexible: true });
    strand.inline(elbow(ports.gather), ASSUMED_ELBOWS, path);
    endLine(arm, (p) => p.elbow_m);
  }
  teesOf(c, ports.gather, 1, path);
  return newLine(ports.gather, (p) => p.elbow_m);
}

/** Of several hand-overs at one header end the first takes its lead-in, with a tee for each of the others. */
function sharing(
  joins: readonly Handover['joins'][number][],
  j: number,
  which: 'from' | 'to',
): { first: boolean; others: number } {
  const same = joins.flatMap((join, i) => (join[which] === joins[j][which] ? [i] : []));
  return { first: same[0] === j, others: same.length - 1 };
}

function addHandover(
  c: Context,
  section: Section,
  geometry: SectionGeometry,
  step: number,
  j: number,
  from: BankPorts,
  to: BankPorts,
  taps: readonly EndTap[],
): void {
  const { joins } = handoverAt(section, step);
  const join = joins[j];
  const leaving = sharing(joins, j, 'from');
  const arriving = sharing(joins, j, 'to');
  const tee = (pipe: Joinable) => simpleFitting('tee', pipe, 3, 2 * pipe.elbow_m, 'Tee');
  const path = `${geometry.path}/handovers/${step}/joins/${j}`;
  const label = `Hand-over ${step + 1} of ${section.name ?? section.id}`;
  const line = newLine(from.gather, (p) => (leaving.first ? from.gatherTake_m : p.elbow_m));
  const piece = { use: 'handover' as const, path, label, flexible: false };
  if (leaving.first && from.gatherLead_m > 0) {
    const strand = into(c, line, from.gather, path);
    strand.add(from.gatherLead_m, piece);
    strand.inline(tee(from.gather), leaving.others, path);
  }
  if (join.path !== undefined) {
    for (const tap of taps) tapInLine(c, line, tap.purpose, tap.path);
    addPathParts(c, line, join.path, `${path}/path`);
  } else {
    const straight = Math.max(geometry.handovers[step][j].distance_m, SAME_PLACE_M);
    const shape = handoverShape(geometry.banks[step], geometry.banks[step + 1], join.from, join.to);
    const elbows = handoverElbows(shape);
    const strand = into(c, line, from.gather, path);
    strand.inline(elbow(from.gather), elbows / 2, path);
    strand.add(straight, { ...piece, flexible: shape === 'other' });
    for (const tap of taps) tapInLine(c, line, tap.purpose, tap.path);
    strand.inline(elbow(from.gather), elbows / 2, path);
  }
  if (!arriving.first) {
    endLine(line, (p) => p.elbow_m);
    return;
  }
  if (to.supplyLead_m > 0) {
    const strand = intoHeader(c, line, to.supply, path);
    strand.inline(tee(to.supply), arriving.others, path);
    strand.add(to.supplyLead_m, piece);
  } else if (to.supply.pipe.id !== line.pipe?.pipe.id) intoHeader(c, line, to.supply, path);
  endLine(line, () => to.supplyTake_m);
}
