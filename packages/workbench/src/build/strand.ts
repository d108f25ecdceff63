import { fittingWay, type Joinable, joinableOf, sizeText } from '@sunlap/data/joinable';
import { splitPipe } from '@sunlap/engine/building/parts-split';
import type { InLineJoint } from '../assembly/in-line';
import type { Say } from '../flow/say';
import { type Bag, type Joints, notice, type PartKind, type PieceUse } from './bag';
import type { CompleteOptions } from './options';

/** What every part of the gathering needs to know. */
export interface Gathering {
  readonly bag: Bag;
  readonly options: CompleteOptions;
  readonly say: Say;
  /** Longest stick or coil that can be bought. */
  longest_m(pipe: string): number;
}

interface Segment {
  centre_m: number;
  takes_m: number;
  /** Its length may be changed against other flexible ones: the file does not place its corners. */
  flexible: boolean;
  inFlow: boolean;
  /** Straight run that it is part of: fittings in line with it may sit anywhere along the run. */
  run: number;
  use: PieceUse;
  path: string;
  label: string;
}

/**
 * Pipe of one size from one fitting to another, with what sits between. Centre-line lengths go in; at the end each
 * segment between fittings becomes a cut: its centre line less what sits in the fittings at both ends.
 */
export interface Strand {
  readonly pipe: Joinable;
  readonly flexible: boolean;
  add(
    length_m: number,
    piece: { use: PieceUse; path: string; label: string; flexible: boolean; inFlow?: boolean },
  ): void;
  /** A fitting in line: ends a segment and begins the next. `takes_m` is of the whole fitting. */
  inline(part: FittingSpec, count: number, path: string): void;
  end(takes_m: number): void;
}

export interface FittingSpec {
  readonly part: string;
  readonly label: string;
  readonly kind: PartKind;
  readonly joints: readonly Joints[];
  readonly dryJoints?: number;
  /** Ends over a barb, by size: each takes a clamp. */
  readonly barbs?: readonly Joints[];
  readonly takes_m: number;
  readonly known: string;
}

export function put(bag: Bag, spec: FittingSpec, count: number, path: string): void {
  if (!(count > 0)) return;
  const { part, label, kind, joints, dryJoints = 0, barbs = [], known } = spec;
  bag.fittings.push({ part, label, kind, count, path, joints, dryJoints, known });
  for (const barb of barbs)
    bag.fittings.push({
      part: `clamp-${barb.nominal}`,
      label: `Hose clamp for ${sizeText(barb.nominal)} tube`,
      kind: 'clamp',
      count: barb.count * count,
      path,
      joints: [],
      dryJoints: 0,
      known: 'standard',
    });
}

/** A joint in the water's way, for the flow study. */
export function passes(
  bag: Bag,
  kind: InLineJoint['kind'],
  count: number,
  pipe: Joinable,
  path: string,
  at: InLineJoint['at'] = 'pipe',
): void {
  const bore_m = pipe === STAND_IN ? null : pipe.pipe.bore_m;
  if (count > 0) bag.inLine.push({ kind, count, path, bore_m, at });
}

/** A change of bore in the water's way that no path of the file has, for the flow study. */
export function reduces(
  bag: Bag,
  from: Joinable,
  to: Joinable,
  path: string,
  at: InLineJoint['at'] = 'pipe',
): void {
  const [from_m, bore_m] = [from.pipe.bore_m, to.pipe.bore_m];
  if (from === STAND_IN || to === STAND_IN || Math.abs(from_m - bore_m) < 1e-4) return;
  bag.inLine.push({ kind: 'reducer', count: 1, path, bore_m, from_m, at });
}

/** A fitting's joints. */
export interface JointSet {
  joints: Joints[];
  dryJoints: number;
  barbs: Joints[];
}

export const NO_JOINTS: JointSet = { joints: [], dryJoints: 0, barbs: [] };

/** Joints of a fitting that joins several pipes. */
export const joinedSets = (...sets: readonly JointSet[]): JointSet => ({
  joints: sets.flatMap((s) => s.joints),
  dryJoints: sets.reduce((n, s) => n + s.dryJoints, 0),
  barbs: sets.flatMap((s) => s.barbs),
});

/** Joints of a fitting on one pipe: glued, over a barb with a clamp, or pushed in. */
export function jointsOn(pipe: Joinable, count: number): JointSet {
  const own = [{ nominal: pipe.pipe.nominal, count }];
  if (pipe.way === 'cement') return { joints: own, dryJoints: 0, barbs: [] };
  return { joints: [], dryJoints: count, barbs: pipe.way === 'barb' ? own : [] };
}

/** Fitting of one size for one pipe: `elbow90-1/2`, or `barbElbow90-…` where it is not cemented. */
export function simpleFitting(
  kind: PartKind,
  pipe: Joinable,
  sockets: number,
  takes_m: number,
  word: string,
): FittingSpec {
  const { code, word: way } = fittingWay(pipe);
  return {
    part: `${code}${code && '-'}${kind}-${pipe.pipe.nominal}`,
    label: `${way ? `${way} ${word.charAt(0).toLowerCase()}${word.slice(1)}` : word}, ${sizeText(pipe.pipe.nominal, pipe.base)}`,
    kind,
    ...jointsOn(pipe, sockets),
    takes_m,
    known: pipe.known,
  };
}

export const elbow = (pipe: Joinable): FittingSpec =>
  simpleFitting('elbow90', pipe, 2, 2 * pipe.elbow_m, 'Elbow 90°');
export const equalTee = (pipe: Joinable): FittingSpec => simpleFitting('tee', pipe, 3, 0, 'Tee');
export const cap = (pipe: Joinable): FittingSpec => simpleFitting('cap', pipe, 1, 0, 'Cap');
export const coupling = (pipe: Joinable): FittingSpec =>
  simpleFitting('coupling', pipe, 2, pipe.coupling_m, 'Coupling');
export const union = (pipe: Joinable): FittingSpec => simpleFitting('union', pipe, 2, pipe.union_m, 'Union');

/** @param start_m what sits in the fitting that it begins in */
export function startStrand(g: Gathering, pipe: Joinable, start_m: number): Strand {
  const segments: Segment[] = [];
  let pending = start_m;
  const last = (): Segment | undefined => segments[segments.length - 1];
  let open = false;
  let run = 0;
  return {
    pipe,
    get flexible() {
      return open && (last()?.flexible ?? false);
    },
    add(length_m, piece) {
      const segment = last();
      if (open && segment && segment.inFlow === (piece.inFlow ?? true)) {
        segment.centre_m += length_m;
        segment.flexible ||= piece.flexible;
        return;
      }
      segments.push({ inFlow: true, ...piece, run: ++run, centre_m: length_m, takes_m: pending });
      pending = 0;
      open = true;
    },
    inline(part, count, path) {
      for (let k = 0; k < count; k++) {
        const segment = last();
        if (open && segment) {
          segment.takes_m += part.takes_m / 2;
          if (part.kind === 'elbow90') run++;
          segments.push({ ...segment, run, centre_m: 0, takes_m: part.takes_m / 2 });
        } else pending += part.takes_m;
      }
      put(g.bag, part, count, path);
    },
    end(takes_m) {
      const segment = last();
      if (!segment) return;
      segment.takes_m += takes_m;
      for (const s of segments) if (s.inFlow) g.bag.taken_m += s.takes_m;
      cutStrand(g, pipe, segments);
      open = false;
    },
  };
}

function cutStrand(g: Gathering, pipe: Joinable, segments: readonly Segment[]): void {
  const least = 2 * pipe.socket_m;
  const small = (v: number): string => g.say(v, 'diameter');
  const cuts = segments.map((s) => s.centre_m - s.takes_m);
  const flexible = segments.flatMap((s, i) => (s.flexible ? [i] : []));
  let spare = flexible.reduce((sum, i) => sum + cuts[i], 0);
  let lacking = 0;
  shareRuns(segments, cuts, least);
  segments.forEach((s, i) => {
    if (s.flexible || cuts[i] >= least - 1e-9) return;
    // long pipe beside it gives what is missing
    if (flexible.length > 0) spare -= least - cuts[i];
    else lacking += least - cuts[i];
    cuts[i] = least;
  });
  if (flexible.length > 0) {
    const each = Math.max(least, spare / flexible.length);
    lacking += each * flexible.length - spare;
    for (const i of flexible) cuts[i] = each;
  }
  if (lacking > 1e-6) {
    g.bag.grown_m += lacking;
    const n = segments.length;
    notice(g.bag, {
      code: 'build-no-room',
      severity: 'unsure',
      path: segments[0].path,
      message: `${segments[0].label}: the drawing is ${small(lacking)} too short for its fittings, which need ${n === 1 ? 'a pipe' : `${n} pipes`} of at least ${small(least)} between them. The list has the pipe that is needed.`,
      remedy: `Draw ${small(lacking)} more room here: a longer lead-in, the parts further apart, or fewer fittings.`,
    });
  }
  segments.forEach((s, i) => {
    cutPipe(g, pipe, cuts[i], 1, {
      use: s.use,
      path: s.path,
      label: s.label,
      inFlow: s.inFlow,
      onSite: s.flexible,
    });
  });
}

/** Within a straight run a long piece gives a short one its length: the fitting between them moves along. */
function shareRuns(segments: readonly Segment[], cuts: number[], least: number): void {
  segments.forEach((short, i) => {
    if (short.flexible) return;
    segments.forEach((long, k) => {
      if (long.flexible || long.run !== short.run || long.inFlow !== short.inFlow) return;
      const given = Math.min(least - cuts[i], cuts[k] - least);
      if (!(given > 0)) return;
      cuts[i] += given;
      cuts[k] -= given;
    });
  });
}

/** A pipe, in several pieces with couplings where the stock is too short. */
export function cutPipe(
  g: Gathering,
  pipe: Joinable,
  length_m: number,
  count: number,
  about: { use: PieceUse; path: string; label: string; inFlow: boolean; onSite: boolean },
  options: { supports_m?: readonly number[]; stagger_m?: number } = {},
): void {
  const stock = g.longest_m(pipe.pipe.id);
  const { join } = g.options;
  if (length_m <= stock + 1e-9 || join === 'none') {
    if (length_m > stock + 1e-9)
      notice(g.bag, {
        code: 'build-longer-than-stock',
        severity: 'damage',
        path: about.path,
        message: `${about.label} is ${g.say(length_m, 'length')}, the longest ${pipe.pipe.label} that can be had is ${g.say(stock, 'length')}, and joining is switched off.`,
        remedy: `Allow couplings or bell ends, shorten it to ${g.say(stock, 'length')}, or name a longer stock length with its price.`,
      });
    g.bag.pieces.push({ pipe: pipe.pipe.id, length_m, count, ...about });
    return;
  }
  const bell = join === 'bell' && pipe.way === 'cement';
  const gap = bell ? 0 : pipe.coupling_m;
  const least = Math.min(2 * pipe.socket_m, stock / 2);
  // neighbours start with a shorter stick, so that their joints do not lie in one line
  const halves = options.stagger_m ? [Math.ceil(count / 2), Math.floor(count / 2)] : [count];
  halves.forEach((n, k) => {
    if (n === 0) return;
    const made = splitPipe(length_m, stock, gap, least, {
      supports_m: options.supports_m,
      shift_m: k * (options.stagger_m ?? 0),
    });
    for (const cut of made.cuts_m)
      g.bag.pieces.push({ pipe: pipe.pipe.id, length_m: cut, count: n, ...about });
    const joints = made.joints_m.length * n;
    if (about.inFlow) {
      g.bag.taken_m += gap * joints;
      passes(g.bag, 'coupling', joints, pipe, about.path);
    }
    if (bell)
      put(
        g.bag,
        {
          part: `bellEnd-${pipe.pipe.nominal}`,
          label: `Bell end on the stick, ${sizeText(pipe.pipe.nominal, pipe.base)}`,
          kind: 'coupling',
          ...jointsOn(pipe, 1),
          takes_m: 0,
          known: pipe.known,
        },
        joints,
        about.path,
      );
    else put(g.bag, coupling(pipe), joints, about.path);
  });
}

/** A pipe's joints; a designation that no table has is named once and stands as half-inch schedule 40. */
export function joinableOr(g: Gathering, id: string, path: string): Joinable {
  const found = joinableOf(id);
  if (found) return found;
  notice(g.bag, {
    code: 'build-unknown-pipe',
    severity: 'unsure',
    path,
    message: `No table knows the pipe “${id}”; its parts are counted as for half-inch schedule 40.`,
    remedy: 'Choose a pipe of the table.',
  });
  return STAND_IN;
}

/** For a designation that no table has: its own bore is not known here. */
const STAND_IN: Joinable = { ...joinableOf('pvc-sch40-1/2')!, known: 'stand-in' };
