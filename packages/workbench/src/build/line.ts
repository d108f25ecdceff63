import { endToEndGap_m, type Joinable, joinableOf, sameSize, sizeText } from '@sunlap/data/joinable';
import { notice } from './bag';
import {
  coupling,
  type FittingSpec,
  type Gathering,
  joinedSets,
  jointsOn,
  passes,
  put,
  type Strand,
  startStrand,
} from './strand';

/** Water's way being plumbed: an open end of pipe, or a fitting from which the next pipe starts. */
export interface Line {
  strand: Strand | null;
  /** Pipe last in hand; null at a mouth before any pipe. */
  pipe: Joinable | null;
  /** What sits in the fitting that the next strand starts in, by its pipe. */
  start: (pipe: Joinable) => number;
  /** Tees that a junction has counted already: `teeRun` and `teeBranch` of the file name the same ones. */
  credit: number;
  /** A union is wanted in the next long pipe. */
  union?: boolean;
  /** Taps of a header end that wait for the long pipe after it, so that their tees need no longer lead-in. */
  waiting?: (() => void) | undefined;
}

export function newLine(pipe: Joinable | null = null, start: Line['start'] = () => 0, credit = 0): Line {
  return { strand: null, pipe, start, credit };
}

/** Go on in a pipe: the same one, or across a reducer, coupling or adapter. */
export function into(g: Gathering, line: Line, pipe: Joinable, path: string): Strand {
  const before = line.strand?.pipe;
  if (line.strand && before?.pipe.id === pipe.pipe.id) return line.strand;
  if (line.strand && before) {
    const joint = joinOf(g, before, pipe, path);
    line.strand.end(joint.takes_m / 2);
    put(g.bag, joint, 1, path);
    if (joint.kind === 'coupling') passes(g.bag, 'coupling', 1, pipe, path);
    line.strand = startStrand(g, pipe, joint.takes_m / 2);
  } else {
    const own = line.pipe;
    let start_m = line.start(pipe);
    if (own && own.pipe.id !== pipe.pipe.id && !sameSize(own, pipe)) {
      // the fitting is of another size: a bush or adapter in its socket
      const joint = joinOf(g, own, pipe, path);
      put(g.bag, joint, 1, path);
      start_m = line.start(own) + joint.takes_m / 2;
    }
    line.strand = startStrand(g, pipe, start_m);
  }
  line.pipe = pipe;
  return line.strand;
}

/** What joins two pipes end to end. */
export function joinOf(g: Gathering, a: Joinable, b: Joinable, path: string): FittingSpec {
  if (sameSize(a, b)) return coupling(a);
  const [big, small] = a.pipe.od_m >= b.pipe.od_m ? [a, b] : [b, a];
  const joints = joinedSets(jointsOn(a, 1), jointsOn(b, 1));
  const takes_m = endToEndGap_m(a, b);
  const sizes = `${sizeText(big.pipe.nominal, big.base)} to ${sizeText(small.pipe.nominal, small.base)}`;
  if (a.base === b.base)
    return {
      part: `reducer-${big.pipe.nominal}x${small.pipe.nominal}`,
      label: `Reducing coupling, ${sizes}`,
      kind: 'reducer',
      ...joints,
      takes_m,
      known: 'judgement',
    };
  if (a.way === 'cement' && b.way === 'cement')
    notice(g.bag, {
      code: 'build-two-systems',
      severity: 'unsure',
      path,
      message: `Here ${a.pipe.label} meets ${b.pipe.label}: no cemented fitting joins the two kinds.`,
      remedy: 'Use threaded adapters or a union of both kinds, or take both pipes from one system.',
    });
  return {
    part: `transition-${big.pipe.nominal}x${small.pipe.nominal}`,
    label: `Transition ${a.pipe.material} to ${b.pipe.material}, ${sizes}`,
    kind: 'adapter',
    ...joints,
    takes_m,
    known: 'judgement',
  };
}

/** Put the taps that wait into the pipe in hand. */
export function placeWaiting(line: Line): void {
  const place = line.waiting;
  line.waiting = undefined;
  place?.();
}

/** Close the line in a fitting. A line that never had a pipe has nothing to close. */
export function endLine(line: Line, takes: (pipe: Joinable) => number): void {
  placeWaiting(line);
  line.strand?.end(takes(line.strand.pipe));
  line.strand = null;
}

/** A fitting between two lengths of the pipe in hand. */
export function inLine(g: Gathering, line: Line, spec: (pipe: Joinable) => FittingSpec, path: string): void {
  const pipe = line.pipe ?? joinableOf('pvc-sch40-1-1/2')!;
  if (line.strand) line.strand.inline(spec(pipe), 1, path);
  else {
    const part = spec(pipe);
    put(g.bag, part, 1, path);
    const before = line.start;
    line.start = (p) => before(p) + part.takes_m;
    line.pipe = pipe;
  }
}
