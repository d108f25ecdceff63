import type { Collector, Plumbing } from '@sunlap/project/schema/collector';
import { addAssumed } from './assumed-links';
import { SAME_PLACE_M } from './assumed-pipes';
import type { BankLinks } from './bank-links';
import type { Context, PartEnd, SectionLinks } from './collector-context';
import { addLink, type Draft } from './draft';
import { distance_m, type PanelPoint } from './frame';
import type { PanelGeometry } from './geometry';
import { addPath } from './path-links';
import { inletHeight_m, inletPoint, outletPoint } from './plumbing-places';
import { addSection } from './section-links';
import type { Tables } from './tables';

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

/** Where a part's water comes from, and whether a tee parts it there. */
interface Start {
  readonly point: PanelPoint;
  readonly tee: boolean;
}

const startAt = (point: PanelPoint | null, tee: boolean): Start | null => point && { point, tee };

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
