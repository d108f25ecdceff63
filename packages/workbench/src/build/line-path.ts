import { type Joinable, joinableOf } from '@sunlap/data/joinable';
import type { Fittings, Path, PathElement, PipeRun } from '@sunlap/project/schema/path';
import { inLine, into, type Line, placeWaiting } from './line';
import { parallelLines } from './partings';
import {
  coupling,
  type Gathering,
  joinableOr,
  jointsOn,
  passes,
  type Strand,
  simpleFitting,
  union,
} from './strand';
import { tapInLine } from './taps';
import { checkOf, valveOf } from './valves';

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
  if (element.kind !== 'pipe') placeWaiting(line);
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
  placeWaiting(line);
  if (line.union) {
    strand.inline(union(pipe), 1, pointer);
    passes(g.bag, 'union', 1, pipe, pointer);
  }
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
