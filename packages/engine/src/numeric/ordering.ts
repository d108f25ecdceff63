import { DomainError } from './errors';

/** Order in which a symmetric pattern is eliminated, with the fill that comes of it. */
export interface Elimination {
  /** `order[k]` = the unknown taken at step k */
  readonly order: Int32Array;
  /** `place[i]` = the step at which unknown i is taken */
  readonly place: Int32Array;
  /** the pattern of step k is `pattern[start[k]] … pattern[start[k + 1] − 1]` */
  readonly start: Int32Array;
  /** steps (not unknowns) that step k still touches, rising */
  readonly pattern: Int32Array;
}

/**
 * Minimum-degree order of a symmetric sparse pattern (Tinney & Walker 1967, scheme 2), with the fill.
 * An unknown may be told to wait until another one has been taken, so that a zero on the diagonal
 * (saddle-point systems) is never a pivot before it has been filled.
 *
 * The elimination graph is kept explicitly: right for the thin graphs of pipe networks, where fill is small.
 *
 * @param neighbours for each unknown the unknowns it shares an entry with, without itself; order and repeats free
 * @param after      `after[i]` = unknown that must be taken before i, or −1; no cycles
 * @returns order and fill pattern
 * @throws {DomainError} when `after` has a cycle
 */
export function minimumDegree(neighbours: readonly (readonly number[])[], after?: Int32Array): Elimination {
  const n = neighbours.length;
  const mark = new Int32Array(n).fill(-1);
  const adjacent: number[][] = neighbours.map((list, i) => {
    const own: number[] = [];
    for (const j of list) {
      if (j === i || mark[j] === i) continue;
      mark[j] = i;
      own.push(j);
    }
    return own;
  });
  mark.fill(-1);
  const queue = new DegreeQueue(n);
  const released: number[][] | undefined = after ? Array.from({ length: n }, () => []) : undefined;
  for (let i = 0; i < n; i++) {
    const first = after ? after[i]! : -1;
    if (first >= 0) released![first]!.push(i);
    else queue.put(i, adjacent[i]!.length);
  }
  const order = new Int32Array(n);
  const place = new Int32Array(n);
  const start = new Int32Array(n + 1);
  const taken: number[][] = [];
  for (let k = 0; k < n; k++) {
    const pivot = queue.take();
    if (pivot < 0) throw new DomainError('order of elimination', 'cycle', 'no unknown waiting for itself');
    order[k] = pivot;
    place[pivot] = k;
    const touched = adjacent[pivot]!;
    taken.push(touched);
    start[k + 1] = start[k]! + touched.length;
    for (const i of touched) {
      joinClique(adjacent[i]!, touched, i, pivot, mark);
      queue.move(i, adjacent[i]!.length);
    }
    if (released) for (const i of released[pivot]!) queue.put(i, adjacent[i]!.length);
  }
  const pattern = new Int32Array(start[n]!);
  for (let k = 0; k < n; k++) {
    const list = taken[k]!;
    for (let t = 0; t < list.length; t++) list[t] = place[list[t]!]!;
    list.sort((a, b) => a - b);
    pattern.set(list, start[k]!);
  }
  return { order, place, start, pattern };
}

/** Unknown i loses the pivot as neighbour and gains the pivot's other neighbours. */
function joinClique(
  own: number[],
  touched: readonly number[],
  i: number,
  pivot: number,
  mark: Int32Array,
): void {
  for (let t = own.length - 1; t >= 0; t--) {
    const j = own[t]!;
    if (j === pivot) {
      own[t] = own[own.length - 1]!;
      own.pop();
    } else mark[j] = i;
  }
  mark[i] = i;
  for (const j of touched) if (mark[j] !== i) own.push(j);
  // marks of this round must not be read in another round for the same i
  for (const j of own) mark[j] = -1;
  for (const j of touched) mark[j] = -1;
}

/** Unknowns by degree in linked lists; takes the smallest. */
class DegreeQueue {
  private readonly first: Int32Array;
  private readonly next: Int32Array;
  private readonly previous: Int32Array;
  private readonly degree: Int32Array;
  private lowest: number;

  constructor(n: number) {
    this.first = new Int32Array(n + 1).fill(-1);
    this.next = new Int32Array(n);
    this.previous = new Int32Array(n);
    this.degree = new Int32Array(n).fill(-1);
    this.lowest = n;
  }

  put(i: number, degree: number): void {
    const head = this.first[degree]!;
    this.next[i] = head;
    this.previous[i] = -1;
    if (head >= 0) this.previous[head] = i;
    this.first[degree] = i;
    this.degree[i] = degree;
    if (degree < this.lowest) this.lowest = degree;
  }

  /** Nothing happens to an unknown that is still waiting. */
  move(i: number, degree: number): void {
    if (this.degree[i]! < 0 || this.degree[i] === degree) return;
    this.remove(i);
    this.put(i, degree);
  }

  take(): number {
    while (this.lowest < this.first.length && this.first[this.lowest]! < 0) this.lowest++;
    if (this.lowest >= this.first.length) return -1;
    const i = this.first[this.lowest]!;
    this.remove(i);
    return i;
  }

  private remove(i: number): void {
    const before = this.previous[i]!;
    const behind = this.next[i]!;
    if (before >= 0) this.next[before] = behind;
    else this.first[this.degree[i]!] = behind;
    if (behind >= 0) this.previous[behind] = before;
    this.degree[i] = -1;
  }
}
