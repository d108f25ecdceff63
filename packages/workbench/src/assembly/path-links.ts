import { FITTING_LOSS } from '@sunlap/engine/hydraulics/fitting-loss';
import type { Path, PathElement, PipeRun } from '@sunlap/project/schema/path';
import { addLink, addNode, type Draft, type PieceDraft } from './draft';
import { elementLength_m, pathHeights_m } from './heights';
import { checkValveLoss, runLoss, standingKv_m3h } from './losses';
import type { PipeSizes } from './sizes';
import type { Tables } from './tables';

/** Where a path stands in the loop. */
export interface PathPlace {
  readonly pointer: string;
  readonly way: PieceDraft['way'];
  /** Distance from the suction mouth to its start [m]. */
  readonly distance_m: number;
  readonly endHeight_m: number | null;
  /** Bore that arrives; null at a mouth. */
  readonly bore_m: number | null;
  /** True: a mouth in the pool lies before it, which costs its entrance. */
  readonly fromPool?: boolean;
  readonly toOutlet?: boolean;
}

/** Where a path ends. */
export interface PathEnd {
  readonly node: number;
  readonly height_m: number;
  readonly distance_m: number;
  readonly bore_m: number;
  /** Last link, for a tee at the far end; −1 when the path is empty. */
  readonly lastLink: number;
}

/** 1-1/2 in schedule 40, where nothing in sight gives a bore. */
export const DEFAULT_BORE_M = 0.0409;
/** A joint that costs almost nothing, where two places are one but two nodes are needed. */
const LOSSLESS = 1e-3;

/**
 * Put a path's links behind a node. Taps and nothing-in-betweens make no link. With `to`, the path ends there.
 *
 * @returns where it ends; the start itself when it is empty and no end was asked for
 */
export function addPath(
  draft: Draft,
  path: Path,
  tables: Tables,
  start: number,
  to: number | null,
  place: PathPlace,
): PathEnd {
  const startHeight = draft.nodes[start].elevation_m;
  const heights = pathHeights_m(path, startHeight, place.endHeight_m);
  let lastMaking = -1;
  for (let i = 0; i < path.length; i++) if (path[i].kind !== 'tap') lastMaking = i;
  let node = start;
  let bore = place.bore_m;
  let distance = place.distance_m;
  let height = startHeight;
  let lastLink = -1;
  let meeting: Meeting | null = null;
  let mouth = place.fromPool === true && !path.some((e) => hasEntrance(e));

  for (let i = 0; i < path.length; i++) {
    const element = path[i];
    const pointer = `${place.pointer}/${i}`;
    if (element.kind === 'tap') {
      draft.taps.push({
        id: element.id,
        path: pointer,
        node,
        purpose: element.purpose,
        open: element.open ?? false,
        opensAt_Pa: element.opensAt_Pa ?? 0,
        height_m: height,
        bank: -1,
      });
      continue;
    }
    const target = i === lastMaking && to !== null ? to : addNode(draft, pointer, heights[i]);
    const ownBore = boreOf(element, tables.sizes) ?? bore ?? nextBore(path, i, tables.sizes);
    const nextDistance = distance + elementLength_m(element);
    const first = draft.links.length;
    if (element.kind === 'pipe') {
      lastLink = addRun(draft, element, tables.sizes, node, target, pointer, {
        before_m: bore,
        mouth,
        skipExit: place.toOutlet === true && i === lastMaking,
      });
      mouth = false;
    } else if (element.kind === 'split') {
      lastLink = -1;
      meeting = addSplit(
        draft,
        element,
        tables,
        node,
        target,
        heights[i],
        pointer,
        place.way,
        distance,
        bore,
      );
    } else {
      lastLink = addFitting(draft, element, tables, node, target, ownBore, pointer);
    }
    if (element.kind !== 'split') {
      if (meeting) addTee(draft, node, meeting.branch, [meeting.run, first]);
      meeting = null;
      const lanes = element.kind === 'pipe' ? (element.parallel ?? 1) : 1;
      const links: number[] = [];
      for (let l = first; l < draft.links.length; l += lanes) links.push(l);
      draft.pieces.push({
        id: element.id,
        name: draft.infos[first].name,
        path: pointer,
        kind: element.kind,
        way: place.way,
        start_m: distance,
        end_m: nextDistance,
        links,
        lanes,
        fromNode: node,
        toNode: target,
      });
    }
    node = target;
    bore = ownBore;
    distance = nextDistance;
    height = heights[i];
  }
  if (lastMaking < 0 && to !== null && to !== start) {
    const own = bore ?? DEFAULT_BORE_M;
    lastLink = addLink(
      draft,
      start,
      to,
      { kind: 'fitting', bore_m: own, coefficient: mouth ? FITTING_LOSS.entranceSharp : LOSSLESS },
      false,
      'join',
      place.pointer,
      place.pointer,
    );
    node = to;
  }
  return { node, height_m: height, distance_m: distance, bore_m: bore ?? DEFAULT_BORE_M, lastLink };
}

function hasEntrance(element: PathElement): boolean {
  return element.kind === 'pipe' && (element.fittings?.some((f) => f.kind === 'entrance') ?? false);
}

/** Bore of the pipe that an element is made of or for. */
function boreOf(element: PathElement, sizes: PipeSizes): number | null {
  if (element.kind === 'pipe') return sizes(element.pipe).bore_m;
  if (element.kind === 'valve' || element.kind === 'checkValve') {
    return element.pipe === undefined ? null : sizes(element.pipe).bore_m;
  }
  return null;
}

/** First bore that a path names after a place in it. */
export function nextBore(path: Path, from: number, sizes: PipeSizes): number {
  for (let i = from; i < path.length; i++) {
    const element = path[i];
    const own = boreOf(element, sizes);
    if (own !== null) return own;
    if (element.kind === 'split') return nextBore(element.branches[0], 0, sizes);
  }
  return DEFAULT_BORE_M;
}

function addFitting(
  draft: Draft,
  element: Exclude<PathElement, { kind: 'pipe' | 'split' | 'tap' }>,
  tables: Tables,
  from: number,
  to: number,
  bore_m: number,
  pointer: string,
): number {
  const name = element.name ?? element.id;
  if (element.kind === 'valve') {
    const kv_m3h = standingKv_m3h(element, bore_m, tables);
    return addLink(draft, from, to, { kind: 'valve', bore_m, kv_m3h }, kv_m3h === 0, 'valve', pointer, name);
  }
  if (element.kind === 'checkValve') {
    const coefficient = checkValveLoss(element, bore_m, tables);
    const law = { kind: 'checkValve', bore_m, coefficient } as const;
    return addLink(draft, from, to, law, false, 'checkValve', pointer, name);
  }
  const law = {
    kind: 'device',
    bore_m,
    ratedLoss_Pa: element.loss.drop_Pa,
    ratedFlow_m3s: element.loss.flow_m3s,
  } as const;
  return addLink(draft, from, to, law, false, 'device', pointer, name);
}

interface RunEnds {
  before_m: number | null;
  mouth: boolean;
  skipExit: boolean;
}

/** A run's links: one per stretch of its profile and per lane; lanes meet at every point of the profile. */
function addRun(
  draft: Draft,
  run: PipeRun,
  sizes: PipeSizes,
  from: number,
  to: number,
  pointer: string,
  ends: RunEnds,
): number {
  const size = sizes(run.pipe);
  const k =
    runLoss(run, size.bore_m, ends.before_m, ends.skipExit) + (ends.mouth ? FITTING_LOSS.entranceSharp : 0);
  const lanes = run.parallel ?? 1;
  const name = run.name ?? run.id;
  const stretch = (a: number, b: number, share: number): number => {
    const law = {
      kind: 'pipe',
      length_m: run.length_m * share,
      bore_m: size.bore_m,
      roughness_m: size.roughness_m,
      minorLoss: k * share,
    } as const;
    let last = -1;
    for (let lane = 0; lane < lanes; lane++) {
      last = addLink(draft, a, b, law, false, 'pipe', pointer, name, -1, -1, lanes);
    }
    return last;
  };
  const points = run.profile?.filter((p) => p.at_m > 0 && p.at_m < run.length_m) ?? [];
  if (points.length === 0) return stretch(from, to, 1);
  let node = from;
  let done = 0;
  for (const p of [...points].sort((a, b) => a.at_m - b.at_m)) {
    if (!(p.at_m > done)) continue;
    const next = addNode(draft, `${pointer}@${p.at_m}`, p.height_m);
    stretch(node, next, (p.at_m - done) / run.length_m);
    node = next;
    done = p.at_m;
  }
  return stretch(node, to, (run.length_m - done) / run.length_m);
}

/** Last links of a split's two branches, for the tee in which they meet. */
interface Meeting {
  branch: number;
  run: number;
}

/** Branches that part and meet again; a named tee puts its losses on the second branch and the run. */
function addSplit(
  draft: Draft,
  split: Extract<PathElement, { kind: 'split' }>,
  tables: Tables,
  from: number,
  to: number,
  endHeight_m: number,
  pointer: string,
  way: PieceDraft['way'],
  distance_m: number,
  bore_m: number | null,
): Meeting | null {
  const before = draft.links.length - 1;
  const first: number[] = [];
  const last: number[] = [];
  for (let b = 0; b < split.branches.length; b++) {
    first.push(draft.links.length);
    const end = addPath(draft, split.branches[b], tables, from, to, {
      pointer: `${pointer}/branches/${b}`,
      way,
      distance_m,
      endHeight_m,
      bore_m,
    });
    last.push(end.lastLink);
  }
  if (split.tee !== true || split.branches.length !== 2 || bore_m === null) return null;
  const arriving = before >= 0 && draft.links[before].to === from ? before : -1;
  addTee(draft, from, first[1], [arriving, first[0]]);
  return { branch: last[1], run: last[0] };
}

/** A plain tee, when each leg is one link at its node and the branch is no wider than the run. */
function addTee(draft: Draft, node: number, branch: number, run: readonly [number, number]): void {
  if (branch < 0 || run[0] < 0 || run[1] < 0) return;
  for (const leg of [branch, ...run]) {
    const link = draft.links[leg];
    if (link === undefined || (link.from !== node && link.to !== node)) return;
  }
  const branchBore_m = draft.links[branch].law.bore_m;
  const headerBore_m = draft.links[run[0]].law.bore_m;
  if (branchBore_m <= headerBore_m) draft.tees.push({ node, branch, run, branchBore_m, headerBore_m });
}
