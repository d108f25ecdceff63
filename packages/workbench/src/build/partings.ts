import type { Joinable } from '@sunlap/data/joinable';
import { endLine, type Line, newLine } from './line';
import { type Gathering, put, simpleFitting } from './strand';

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
