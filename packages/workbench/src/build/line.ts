import type { Fittings, Path, PathElement, PipeRun, Tap } from '@sunlap/project/schema/path';
import { notice } from './bag';
import { headerTee, type Joinable, joinableOf, sizeText } from './joints';
import {
  coupling,
  type FittingSpec,
  type Gathering,
  joinableOr,
  joinedSets,
  jointsOn,
  NO_JOINTS,
  put,
  type Strand,
  simpleFitting,
  startStrand,
  union,
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

const sameSize = (a: Joinable, b: Joinable): boolean =>
  a.base === b.base && a.pipe.nominal === b.pipe.nominal;

/** What joins two pipes end to end. */
export function joinOf(g: Gathering, a: Joinable, b: Joinable, path: string): FittingSpec {
  if (sameSize(a, b)) return coupling(a);
  const [big, small] = a.pipe.od_m >= b.pipe.od_m ? [a, b] : [b, a];
  const joints = joinedSets(jointsOn(a, 1), jointsOn(b, 1));
  const takes_m = Math.max(a.coupling_m, b.coupling_m) + (big.pipe.od_m - small.pipe.od_m) / 2;
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

/** Close the line in a fitting. A line that never had a pipe has nothing to close. */
export function endLine(line: Line, takes: (pipe: Joinable) => number): void {
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

/** Everything of a path, upstream first. */
export function addPathParts(g: Gathering, line: Line, path: Path, pointer: string): void {
  path.forEach((element, i) => {
    addElement(g, line, element, path, i, `${pointer}/${i}`);
  });
}

/** One element, where a place in the file holds just one; the path it stands in names the pipe that follows. */
export function addElement(
  g: Gathering,
  line: Line,
  element: PathElement,
  path: Path,
  at: number,
  pointer: string,
): void {
  switch (element.kind) {
    case 'pipe':
      addRun(g, line, element, pointer);
      return;
    case 'valve':
    case 'checkValve': {
      const pipe = ownPipe(g, element.pipe, line, path, at, pointer);
      const spec = element.kind === 'valve' ? valveOf(pipe, element.type) : checkOf(pipe);
      if (line.strand && line.strand.pipe.pipe.id !== pipe.pipe.id) into(g, line, pipe, pointer);
      line.pipe ??= pipe;
      inLine(g, line, () => ({ ...spec, label: spec.label }), pointer);
      return;
    }
    case 'device': {
      const pipe = line.pipe ?? nextPipe(g, path, at, pointer) ?? joinableOf('pvc-sch40-1-1/2')!;
      line.pipe ??= pipe;
      inLine(
        g,
        line,
        (p) => ({
          part: `device-${element.type}`,
          label: element.name,
          kind: 'device',
          ...jointsOn(p, 2),
          takes_m: 0,
          known: 'the file',
        }),
        pointer,
      );
      return;
    }
    case 'tap': {
      const pipe = line.pipe ?? nextPipe(g, path, at, pointer) ?? joinableOf('pvc-sch40-1-1/2')!;
      line.pipe ??= pipe;
      tapInLine(g, line, element.purpose, pointer);
      return;
    }
    case 'split': {
      const pipe =
        line.pipe ?? nextPipe(g, element.branches[0], 0, pointer) ?? joinableOf('pvc-sch40-1-1/2')!;
      const outs = element.branches.map((branch, b) => ({ branch, pointer: `${pointer}/branches/${b}` }));
      parallelLines(g, line, pipe, outs.length, pointer, (own, b) => {
        addPathParts(g, own, outs[b].branch, outs[b].pointer);
      });
    }
  }
}

/** Part into several lines and bring them together again: n − 1 tees each way. */
export function parallelLines(
  g: Gathering,
  line: Line,
  pipe: Joinable,
  count: number,
  pointer: string,
  each: (line: Line, index: number) => void,
): void {
  teeAway(g, line, pipe, count, pointer);
  let after: Joinable = pipe;
  for (let b = 0; b < count; b++) {
    const own = newLine(pipe, (p) => p.elbow_m, 2);
    each(own, b);
    after = own.pipe ?? pipe;
    endLine(own, (p) => p.elbow_m);
  }
  teesOf(g, after, count - 1, pointer);
  line.strand = null;
  line.pipe = after;
  line.start = (p) => p.elbow_m;
  line.credit = 1;
}

/** End a line in the first of the tees that part it. */
export function teeAway(g: Gathering, line: Line, pipe: Joinable, count: number, pointer: string): void {
  endLine(line, (p) => p.elbow_m);
  teesOf(g, pipe, count - 1, pointer);
}

/** Tees of one size in a row, with the short pipes that join them; these lie outside the flow study. */
export function teesOf(g: Gathering, pipe: Joinable, count: number, pointer: string): void {
  if (count <= 0) return;
  put(g.bag, simpleFitting('tee', pipe, 3, 0, 'Tee'), count, pointer);
  if (count > 1)
    g.bag.pieces.push({
      pipe: pipe.pipe.id,
      length_m: 2 * pipe.socket_m,
      count: count - 1,
      use: 'stub',
      path: pointer,
      label: 'Between two tees',
      inFlow: false,
      onSite: false,
    });
}

function addRun(g: Gathering, line: Line, run: PipeRun, pointer: string): void {
  const pipe = joinableOr(g, run.pipe, pointer);
  const lanes = run.parallel ?? 1;
  if (lanes > 1) {
    parallelLines(g, line, pipe, lanes, pointer, (own) => {
      addRun(g, own, { ...run, parallel: 1 }, pointer);
    });
    return;
  }
  const strand = into(g, line, pipe, pointer);
  strand.add(run.length_m, {
    use: 'run',
    path: pointer,
    label: run.name ?? run.id,
    flexible: true,
  });
  if (line.union) strand.inline(union(pipe), 1, pointer);
  line.union = false;
  for (const f of run.fittings ?? []) addRunFitting(line, strand, pipe, f, pointer);
}

function addRunFitting(
  line: Line,
  strand: Strand,
  pipe: Joinable,
  f: Fittings[number],
  pointer: string,
): void {
  switch (f.kind) {
    case 'elbow90':
      strand.inline(simpleFitting('elbow90', pipe, 2, 2 * pipe.elbow_m, 'Elbow 90°'), f.count, pointer);
      return;
    case 'elbow45':
      strand.inline(simpleFitting('elbow45', pipe, 2, 2 * pipe.elbow45_m, 'Elbow 45°'), f.count, pointer);
      return;
    case 'sweep90':
      // a long-radius bend: about twice an elbow's take-off (judgement)
      strand.inline(
        { ...simpleFitting('sweep90', pipe, 2, 4 * pipe.elbow_m, 'Sweep 90°'), known: 'judgement' },
        f.count,
        pointer,
      );
      return;
    case 'teeRun':
    case 'teeBranch': {
      const counted = Math.min(line.credit, f.count);
      line.credit -= counted;
      strand.inline(simpleFitting('tee', pipe, 3, 2 * pipe.elbow_m, 'Tee'), f.count - counted, pointer);
      return;
    }
    case 'coupling':
      strand.inline(coupling(pipe), f.count, pointer);
      return;
    case 'union':
      strand.inline(union(pipe), f.count, pointer);
      return;
    default:
      // reducers come from the sizes on both sides; entrance and exit are mouths
      return;
  }
}

function ownPipe(
  g: Gathering,
  id: string | undefined,
  line: Line,
  path: Path,
  at: number,
  pointer: string,
): Joinable {
  if (id !== undefined) return joinableOr(g, id, pointer);
  return line.pipe ?? nextPipe(g, path, at, pointer) ?? joinableOf('pvc-sch40-1-1/2')!;
}

/** First pipe that a path names from a place on. */
export function nextPipe(g: Gathering, path: Path, from: number, pointer: string): Joinable | null {
  for (let i = from; i < path.length; i++) {
    const e = path[i];
    if (e.kind === 'pipe') return joinableOr(g, e.pipe, `${pointer}/${i}`);
    if (e.kind === 'split') {
      const inner = nextPipe(g, e.branches[0], 0, pointer);
      if (inner) return inner;
    }
  }
  return null;
}

const VALVE_WORD: Record<string, string> = {
  ball: 'Ball valve',
  gate: 'Gate valve',
  globe: 'Globe valve',
  butterfly: 'Butterfly valve',
  diverter: 'Three-way diverter',
  needle: 'Needle valve',
};

export function valveOf(pipe: Joinable, type: string): FittingSpec {
  const spec = simpleFitting('valve', pipe, type === 'diverter' ? 3 : 2, 0, VALVE_WORD[type] ?? 'Valve');
  const part = type === 'diverter' ? `diverter-${pipe.pipe.nominal}` : `${type}Valve-${pipe.pipe.nominal}`;
  return { ...spec, part, kind: type === 'diverter' ? 'diverter' : 'valve' };
}

export function checkOf(pipe: Joinable): FittingSpec {
  return {
    ...simpleFitting('checkValve', pipe, 2, 0, 'Check valve'),
    part: `checkValve-${pipe.pipe.nominal}`,
  };
}

const SMALL = 'pvc-sch40-1/2';
const SMALL_METRIC = 'pvcu-pn16-20';

/** Half-inch pipe, or 20 mm, on which cocks and vents sit. */
export function smallPipe(pipe: Joinable): Joinable {
  return joinableOf(pipe.base === 'metric' || pipe.base === 'metricPe' ? SMALL_METRIC : SMALL)!;
}

const TAP_WORD: Record<Tap['purpose'], readonly [part: string, label: string]> = {
  drain: ['ballValve', 'Drain cock'],
  bleed: ['ballValve', 'Bleed cock'],
  airVent: ['airVent', 'Automatic air vent'],
  vacuumBreaker: ['vacuumBreaker', 'Vacuum breaker'],
};

/** The cock, vent or breaker with its short pipe. */
export function tapParts(g: Gathering, on: Joinable, purpose: Tap['purpose'], pointer: string): void {
  const small = smallPipe(on);
  const [part, label] = TAP_WORD[purpose];
  const cock = purpose === 'drain' || purpose === 'bleed';
  put(
    g.bag,
    {
      part: cock ? `${part}-${small.pipe.nominal}` : part,
      label: `${label}, ${sizeText(small.pipe.nominal, small.base)}`,
      kind: cock ? 'cock' : purpose === 'airVent' ? 'vent' : 'breaker',
      joints: cock ? [{ nominal: small.pipe.nominal, count: 1 }] : [],
      dryJoints: cock ? 0 : 1,
      takes_m: 0,
      known: 'standard',
    },
    1,
    pointer,
  );
  if (!cock)
    put(
      g.bag,
      {
        part: `threadAdapter-${small.pipe.nominal}`,
        label: `Threaded adapter, ${sizeText(small.pipe.nominal, small.base)}`,
        kind: 'adapter',
        joints: [{ nominal: small.pipe.nominal, count: 1 }],
        dryJoints: 0,
        takes_m: 0,
        known: 'standard',
      },
      1,
      pointer,
    );
  if (!cock && !g.bag.fittings.some((f) => f.kind === 'tape'))
    put(
      g.bag,
      {
        part: 'threadTape',
        label: 'Thread seal tape, roll',
        kind: 'tape',
        joints: [],
        takes_m: 0,
        known: 'common practice',
      },
      1,
      pointer,
    );
  g.bag.pieces.push({
    pipe: small.pipe.id,
    length_m: Math.max(0.1, 2 * small.socket_m),
    count: 1,
    use: 'branch',
    path: pointer,
    label: `${label}, short pipe`,
    inFlow: false,
    onSite: false,
  });
}

/** A tee in line whose branch takes a cock, vent or breaker. */
export function tapInLine(g: Gathering, line: Line, purpose: Tap['purpose'], pointer: string): void {
  inLine(
    g,
    line,
    (pipe) => {
      const small = smallPipe(pipe);
      const tee = headerTee(pipe, small, g.options.measured);
      const branch = tee.adapter
        ? { ...NO_JOINTS, joints: [{ nominal: tee.branchNominal, count: 1 }] }
        : jointsOn(small, 1);
      if (tee.adapter)
        put(
          g.bag,
          { ...tee.adapter, kind: 'adapter', ...jointsOn(small, 1), takes_m: 0, known: 'standard' },
          1,
          pointer,
        );
      return {
        part: tee.part,
        label: tee.label,
        kind: 'tee',
        ...joinedSets(jointsOn(pipe, 2), branch),
        takes_m: 2 * tee.run_m,
        known: tee.known,
      };
    },
    pointer,
  );
  tapParts(g, line.pipe!, purpose, pointer);
}
