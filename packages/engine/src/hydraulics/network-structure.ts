import { minimumDegree } from '../numeric/ordering';
import { type SparseCholesky, sparseCholesky } from '../numeric/sparse-cholesky';
import { type SparseLu, sparseLu } from '../numeric/sparse-lu';
import type { NetworkDescription } from './network-types';

/**
 * What is open and connected in one state of the valves, and the factorisations analysed for it. Links are
 * counted anew (only open ones with a way to a fixed head), and so are nodes (only those solved for).
 */
export interface Structure {
  /** per link of the description, 1 when out of the system: what this structure is for */
  readonly closed: Uint8Array;
  /** open links, by place in the description */
  readonly links: Int32Array;
  /** nodes solved for, by place in the description, outward from the fixed heads */
  readonly nodes: Int32Array;
  /** ends of open links as places in the description */
  readonly from: Int32Array;
  readonly to: Int32Array;
  /** the same as unknowns, −1 for a fixed head */
  readonly fromUnknown: Int32Array;
  readonly toUnknown: Int32Array;
  /** per unknown node the open link that leads towards a fixed head, and the unknown it leads to (−1: fixed) */
  readonly parentLink: Int32Array;
  readonly parentNode: Int32Array;
  /** per node of the description, 1 when no open way leads to a fixed head */
  readonly still: Uint8Array;
  /**
   * Per node of the description, the fixed-head node its part of the network is measured from (−1 in still
   * water): heads are small differences where flow is, whatever the height of the whole.
   */
  readonly datum: Int32Array;
  readonly tees: TeeLegs;
  cholesky(): CholeskyPlan;
  lu(): LuPlan;
}

/** Tees with at least one open run leg. Legs as open links, −1 when shut or capped; leg 1 is always open. */
export interface TeeLegs {
  /** place in the description's tees */
  readonly tee: Int32Array;
  readonly branch: Int32Array;
  readonly run1: Int32Array;
  readonly run2: Int32Array;
  /** +1 when the leg's `from` end is at the tee, −1 when its `to` end is */
  readonly branchSign: Int8Array;
  readonly run1Sign: Int8Array;
  readonly run2Sign: Int8Array;
}

/** Node matrix AᵀD⁻¹A: where each link's entries go. */
export interface CholeskyPlan {
  readonly matrix: SparseCholesky;
  readonly fromFrom: Int32Array;
  readonly toTo: Int32Array;
  /** −1 when an end is fixed */
  readonly fromTo: Int32Array;
}

/** Whole matrix [D A; Aᵀ 0]: the constant part, and where the changing entries go. */
export interface LuPlan {
  readonly matrix: SparseLu;
  readonly constant: Float64Array;
  readonly diagonal: Int32Array;
  /** per tee: row branch × columns run1, run2; row run2 × columns run1, run2; −1 when the leg is shut */
  readonly tee: Int32Array;
}

/**
 * @param description the network
 * @param closed      per link, 1 when out of the system
 */
export function analyse(description: NetworkDescription, closed: Uint8Array): Structure {
  const { nodes, links } = description;
  const reach = reachFromFixed(description, closed);
  const unknown = new Int32Array(nodes.length).fill(-1);
  for (let k = 0; k < reach.order.length; k++) unknown[reach.order[k]!] = k;
  const openAt = new Int32Array(links.length).fill(-1);
  let open = 0;
  for (let i = 0; i < links.length; i++) if (!closed[i] && !reach.still[links[i]!.from]) openAt[i] = open++;
  const linkList = new Int32Array(open);
  const from = new Int32Array(open);
  const to = new Int32Array(open);
  const fromUnknown = new Int32Array(open);
  const toUnknown = new Int32Array(open);
  for (let i = 0; i < links.length; i++) {
    const at = openAt[i]!;
    if (at < 0) continue;
    const link = links[i]!;
    linkList[at] = i;
    from[at] = link.from;
    to[at] = link.to;
    fromUnknown[at] = unknown[link.from]!;
    toUnknown[at] = unknown[link.to]!;
  }
  const count = reach.order.length;
  const parentLink = new Int32Array(count);
  const parentNode = new Int32Array(count);
  for (let k = 0; k < count; k++) {
    const link = links[reach.parent[k]!]!;
    parentLink[k] = openAt[reach.parent[k]!]!;
    parentNode[k] = unknown[link.from === reach.order[k] ? link.to : link.from]!;
  }
  const partial = {
    closed: closed.slice(),
    links: linkList,
    nodes: Int32Array.from(reach.order),
    from,
    to,
    fromUnknown,
    toUnknown,
    parentLink,
    parentNode,
    still: reach.still,
    datum: reach.datum,
    tees: teeLegs(description, openAt),
  };
  let cholesky: CholeskyPlan | undefined;
  let lu: LuPlan | undefined;
  return {
    ...partial,
    cholesky: () => (cholesky ??= planCholesky(partial)),
    lu: () => (lu ??= planLu(partial)),
  };
}

type Layout = Omit<Structure, 'cholesky' | 'lu'>;

/** Breadth first from the fixed heads through open links. */
function reachFromFixed(description: NetworkDescription, closed: Uint8Array) {
  const { nodes, links } = description;
  const start = new Int32Array(nodes.length + 1);
  for (let i = 0; i < links.length; i++) {
    if (closed[i]) continue;
    start[links[i]!.from + 1]!++;
    start[links[i]!.to + 1]!++;
  }
  for (let n = 0; n < nodes.length; n++) start[n + 1] = start[n + 1]! + start[n]!;
  const incident = new Int32Array(start[nodes.length]!);
  const next = start.slice();
  for (let i = 0; i < links.length; i++) {
    if (closed[i]) continue;
    incident[next[links[i]!.from]!++] = i;
    incident[next[links[i]!.to]!++] = i;
  }
  const still = new Uint8Array(nodes.length).fill(1);
  const datum = new Int32Array(nodes.length).fill(-1);
  const order: number[] = [];
  const parent: number[] = [];
  const queue: number[] = [];
  for (let seed = 0; seed < nodes.length; seed++) {
    if (nodes[seed]!.fixedHead_m === undefined || !still[seed]) continue;
    still[seed] = 0;
    datum[seed] = seed;
    queue.push(seed);
    for (let q = queue.length - 1; q < queue.length; q++) {
      const n = queue[q]!;
      for (let t = start[n]!; t < start[n + 1]!; t++) {
        const link = links[incident[t]!]!;
        const other = link.from === n ? link.to : link.from;
        if (!still[other]) continue;
        still[other] = 0;
        datum[other] = seed;
        queue.push(other);
        if (nodes[other]!.fixedHead_m !== undefined) continue;
        order.push(other);
        parent.push(incident[t]!);
      }
    }
  }
  return { still, datum, order, parent };
}

function teeLegs(description: NetworkDescription, openAt: Int32Array): TeeLegs {
  const { links } = description;
  const rows: number[][] = [];
  description.tees.forEach((tee, t) => {
    const sign = (i: number) => (links[i]!.from === tee.node ? 1 : -1);
    const runs = tee.run.filter((i): i is number => i !== null && openAt[i]! >= 0);
    if (runs.length === 0) return;
    const [first, second] = runs;
    rows.push([
      t,
      openAt[tee.branch]!,
      openAt[first!]!,
      second === undefined ? -1 : openAt[second]!,
      sign(tee.branch),
      sign(first!),
      second === undefined ? 1 : sign(second),
    ]);
  });
  const column = (c: number) => rows.map((row) => row[c]!);
  return {
    tee: Int32Array.from(column(0)),
    branch: Int32Array.from(column(1)),
    run1: Int32Array.from(column(2)),
    run2: Int32Array.from(column(3)),
    branchSign: Int8Array.from(column(4)),
    run1Sign: Int8Array.from(column(5)),
    run2Sign: Int8Array.from(column(6)),
  };
}

function planCholesky(layout: Layout): CholeskyPlan {
  const { fromUnknown, toUnknown } = layout;
  const n = fromUnknown.length;
  const neighbours: number[][] = [];
  for (let k = 0; k < layout.nodes.length; k++) neighbours.push([]);
  for (let i = 0; i < n; i++) {
    const f = fromUnknown[i]!;
    const t = toUnknown[i]!;
    if (f < 0 || t < 0) continue;
    neighbours[f]!.push(t);
    neighbours[t]!.push(f);
  }
  const matrix = sparseCholesky(minimumDegree(neighbours));
  const fromFrom = new Int32Array(n);
  const toTo = new Int32Array(n);
  const fromTo = new Int32Array(n);
  for (let i = 0; i < n; i++) {
    const f = fromUnknown[i]!;
    const t = toUnknown[i]!;
    fromFrom[i] = f < 0 ? -1 : matrix.position(f, f);
    toTo[i] = t < 0 ? -1 : matrix.position(t, t);
    fromTo[i] = f < 0 || t < 0 ? -1 : matrix.position(f, t);
  }
  return { matrix, fromFrom, toTo, fromTo };
}

function planLu(layout: Layout): LuPlan {
  const { fromUnknown, toUnknown, tees } = layout;
  const n = fromUnknown.length;
  const size = n + layout.nodes.length;
  const neighbours: number[][] = [];
  for (let k = 0; k < size; k++) neighbours.push([]);
  const join = (a: number, b: number) => {
    if (a < 0 || b < 0) return;
    neighbours[a]!.push(b);
    neighbours[b]!.push(a);
  };
  const node = (unknown: number) => (unknown < 0 ? -1 : n + unknown);
  for (let i = 0; i < n; i++) {
    join(i, node(fromUnknown[i]!));
    join(i, node(toUnknown[i]!));
  }
  for (let t = 0; t < tees.tee.length; t++) {
    join(tees.branch[t]!, tees.run1[t]!);
    join(tees.branch[t]!, tees.run2[t]!);
    join(tees.run1[t]!, tees.run2[t]!);
  }
  // a node's diagonal is empty until the link that leads from it to a fixed head has been taken
  const after = new Int32Array(size).fill(-1);
  for (let k = 0; k < layout.nodes.length; k++) after[n + k] = layout.parentLink[k]!;
  const matrix = sparseLu(minimumDegree(neighbours, after));
  const constant = new Float64Array(matrix.values.length);
  const put = (i: number, j: number, value: number) => {
    constant[matrix.position(i, j)] = value;
    constant[matrix.position(j, i)] = value;
  };
  for (let i = 0; i < n; i++) {
    if (fromUnknown[i]! >= 0) put(i, n + fromUnknown[i]!, -1);
    if (toUnknown[i]! >= 0) put(i, n + toUnknown[i]!, 1);
  }
  const place = (i: number, j: number) => (i < 0 || j < 0 ? -1 : matrix.position(i, j));
  const tee = new Int32Array(4 * tees.tee.length);
  for (let t = 0; t < tees.tee.length; t++) {
    tee[4 * t] = place(tees.branch[t]!, tees.run1[t]!);
    tee[4 * t + 1] = place(tees.branch[t]!, tees.run2[t]!);
    tee[4 * t + 2] = place(tees.run2[t]!, tees.run1[t]!);
    tee[4 * t + 3] = place(tees.run2[t]!, tees.run2[t]!);
  }
  const diagonal = new Int32Array(n);
  for (let i = 0; i < n; i++) diagonal[i] = matrix.position(i, i);
  return { matrix, constant, diagonal, tee };
}
