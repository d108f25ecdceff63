import type { Path, PathElement } from '@sunlap/project/schema/path';

/** Length of the longest way through an element [m]. */
export function elementLength_m(element: PathElement): number {
  if (element.kind === 'pipe') return element.length_m;
  if (element.kind === 'split') return Math.max(...element.branches.map(pathLength_m));
  return 0;
}

export function pathLength_m(path: Path): number {
  let sum = 0;
  for (const element of path) sum += elementLength_m(element);
  return sum;
}

/** Height that the file gives for the end of an element; a split ends where one of its branches says. */
export function givenEndHeight_m(element: PathElement): number | undefined {
  if (element.kind === 'pipe') return element.endHeight_m;
  if (element.kind !== 'split') return undefined;
  for (const branch of element.branches) {
    const given = branch.length > 0 ? givenEndHeight_m(branch[branch.length - 1]) : undefined;
    if (given !== undefined) return given;
  }
  return undefined;
}

/** Last height that a path gives, with nothing long after it. */
export function givenPathEnd_m(path: Path): number | undefined {
  for (let i = path.length - 1; i >= 0; i--) {
    const given = givenEndHeight_m(path[i]);
    if (given !== undefined) return given;
    if (elementLength_m(path[i]) > 0) return undefined;
  }
  return undefined;
}

/**
 * Height of the end of each element. Given heights hold; between them the way climbs evenly with its length;
 * after the last known one it stays level. Where what comes after has its own height, that one wins.
 *
 * @param start_m height where the path begins [m]
 * @param end_m   height of what comes after, or null when it takes the path's
 * @example two pipes of 1 and 3 m from 0 to 2 m, no heights given: [0.5, 2]
 */
export function pathHeights_m(path: Path, start_m: number, end_m: number | null): number[] {
  const out = new Array<number>(path.length);
  let known = -1;
  let knownHeight = start_m;
  const bridge = (to: number, height: number): void => {
    let total = 0;
    for (let i = known + 1; i <= to; i++) total += elementLength_m(path[i]);
    let done = 0;
    for (let i = known + 1; i <= to; i++) {
      done += elementLength_m(path[i]);
      out[i] = total > 0 ? knownHeight + ((height - knownHeight) * done) / total : height;
    }
    known = to;
    knownHeight = height;
  };
  for (let i = 0; i < path.length; i++) {
    const given = givenEndHeight_m(path[i]);
    if (given !== undefined && (end_m === null || remaining_m(path, i) > 0)) bridge(i, given);
  }
  if (known < path.length - 1) bridge(path.length - 1, end_m ?? knownHeight);
  return out;
}

function remaining_m(path: Path, after: number): number {
  let sum = 0;
  for (let i = after + 1; i < path.length; i++) sum += elementLength_m(path[i]);
  return sum;
}
