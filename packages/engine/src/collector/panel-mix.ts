import type { ElementMaps } from './panel-element';
import type { FlowOrder } from './panel-order';
import type { PreparedPanel } from './panel-prepare';

/** Rounds through water that circles within the panel before the ring is called unsettled. */
const RING_ROUNDS = 400;

/**
 * Temperatures of all nodes from the element maps: downstream once; where water circles, again until the ring
 * settles. Nodes mix by ṁT.
 *
 * @param node_C  receives the temperatures; those of rings start from what it holds
 * @returns false when a ring did not settle
 */
export function mixNodes(
  panel: PreparedPanel,
  maps: ElementMaps,
  order: FlowOrder,
  flow_kgs: ArrayLike<number>,
  inlet_C: number,
  node_C: Float64Array,
): boolean {
  const { from, to } = panel;
  const sum = new Float64Array(node_C.length);
  const count = order.elements.length;
  const ring = order.acyclic < count;
  let settled = false;
  for (let round = 0; round < RING_ROUNDS && !settled; round += 1) {
    for (let i = 0; i < sum.length; i += 1) sum[i] = order.entering[i] * inlet_C;
    for (let k = 0; k < count; k += 1) {
      const e = order.elements[k];
      const m = flow_kgs[e];
      const up = m > 0 ? from[e] : to[e];
      // upstream of any ring, all that reaches a node has been added before an element takes from it
      const t = k < order.acyclic ? sum[up] / order.through[up] : node_C[up];
      sum[m > 0 ? to[e] : from[e]] += Math.abs(m) * (t + maps.gain[e] * (maps.target[e] - t));
    }
    let change = 0;
    for (let i = 0; i < sum.length; i += 1) {
      if (!(order.through[i] > 0)) continue;
      const t = sum[i] / order.through[i];
      change = Math.max(change, Math.abs(t - node_C[i]));
      node_C[i] = t;
    }
    settled = !ring || change < 1e-11;
  }
  return settled;
}

/**
 * A node that nothing passes is as warm as the mean of the water standing in the elements that end there, or
 * else as the inlet.
 */
export function standNodes(
  panel: PreparedPanel,
  order: FlowOrder,
  inlet_C: number,
  node_C: Float64Array,
): void {
  const ends = new Int32Array(node_C.length);
  const sum = new Float64Array(node_C.length);
  for (let e = 0; e < panel.from.length; e += 1) {
    if (panel.description.elements[e].kind === 'link') continue;
    for (const i of [panel.from[e], panel.to[e]]) {
      sum[i] += panel.water_C[e];
      ends[i] += 1;
    }
  }
  for (let i = 0; i < node_C.length; i += 1)
    if (!(order.through[i] > 0)) node_C[i] = ends[i] > 0 ? sum[i] / ends[i] : inlet_C;
}
