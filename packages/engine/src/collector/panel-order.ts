/** Elements in the order the water meets them. */
export interface FlowOrder {
  /** Places of elements that carry water: upstream before downstream, those in a ring last. */
  readonly elements: Int32Array;
  /** How many of them come before any ring. */
  readonly acyclic: number;
  /** Water that enters a node from outside the panel [kg/s]. */
  readonly entering: Float64Array;
  /** Water that leaves the panel at a node [kg/s]. */
  readonly leaving: Float64Array;
  /** Sum of what reaches a node, from elements and from outside [kg/s]. */
  readonly through: Float64Array;
}

/**
 * Sorts elements by flow (Kahn 1962) and finds where water enters and leaves. Flow driven by a pump has no
 * rings; flow driven by density differences at night may, and those elements are listed last.
 *
 * @param nodeCount  [–]
 * @param from       node of each element
 * @param to         node of each element
 * @param flow_kgs   mass flow of each element, positive from → to
 */
export function flowOrder(
  nodeCount: number,
  from: Int32Array,
  to: Int32Array,
  flow_kgs: ArrayLike<number>,
): FlowOrder {
  const n = from.length;
  const inflow = new Float64Array(nodeCount);
  const outflow = new Float64Array(nodeCount);
  const waiting = new Int32Array(nodeCount);
  const start = new Int32Array(nodeCount + 1);
  let carrying = 0;
  for (let e = 0; e < n; e += 1) {
    const m = flow_kgs[e];
    if (m === 0) continue;
    const up = m > 0 ? from[e] : to[e];
    const down = m > 0 ? to[e] : from[e];
    outflow[up] += Math.abs(m);
    inflow[down] += Math.abs(m);
    waiting[down] += 1;
    start[up + 1] += 1;
    carrying += 1;
  }
  for (let i = 0; i < nodeCount; i += 1) start[i + 1] += start[i];
  const leavingElements = new Int32Array(carrying);
  const next = start.slice();
  for (let e = 0; e < n; e += 1) {
    const m = flow_kgs[e];
    if (m === 0) continue;
    const up = m > 0 ? from[e] : to[e];
    leavingElements[next[up]] = e;
    next[up] += 1;
  }
  const order = new Int32Array(carrying);
  const taken = new Uint8Array(n);
  let count = 0;
  const ready: number[] = [];
  for (let i = 0; i < nodeCount; i += 1) if (waiting[i] === 0) ready.push(i);
  while (ready.length > 0) {
    const node = ready.pop() as number;
    for (let k = start[node]; k < start[node + 1]; k += 1) {
      const e = leavingElements[k];
      order[count] = e;
      count += 1;
      taken[e] = 1;
      const down = flow_kgs[e] > 0 ? to[e] : from[e];
      waiting[down] -= 1;
      if (waiting[down] === 0) ready.push(down);
    }
  }
  const acyclic = count;
  for (let e = 0; e < n; e += 1) {
    if (flow_kgs[e] === 0 || taken[e]) continue;
    order[count] = e;
    count += 1;
  }
  const entering = new Float64Array(nodeCount);
  const leaving = new Float64Array(nodeCount);
  const through = new Float64Array(nodeCount);
  for (let i = 0; i < nodeCount; i += 1) {
    entering[i] = Math.max(0, outflow[i] - inflow[i]);
    leaving[i] = Math.max(0, inflow[i] - outflow[i]);
    through[i] = inflow[i] + entering[i];
  }
  return { elements: order, acyclic, entering, leaving, through };
}
