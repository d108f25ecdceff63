import type { PreparedPanel } from '@sunlap/engine/collector/panel-prepare';

/** Share of the first residual at which mass is taken as kept, and steps at most. */
const EXACT = 1e-12;
const MOST_STEPS = 4000;

/**
 * Flows in which some elements carry what they are told and the others change as little as they can while mass
 * is kept at every node: the change along each free element is a difference of potentials, L·φ = r, solved by
 * conjugate gradients. What enters and leaves the panel stays.
 *
 * @param flow   present mass flow of each element, positive from → to [kg/s]
 * @param fixed  told mass flow by element; their net change must vanish in each connected part
 * @param stands elements that cannot carry any water, unless they are told to
 */
export function keptMass(
  panel: Pick<PreparedPanel, 'from' | 'to'> & { readonly description: { readonly nodeCount: number } },
  flow: ArrayLike<number>,
  fixed: ReadonlyMap<number, number>,
  stands: readonly boolean[],
): Float64Array {
  const { from, to } = panel;
  const nodes = panel.description.nodeCount;
  const out = Float64Array.from(flow);
  const free: number[] = [];
  // residual: what the told changes take out of each node
  const r = new Float64Array(nodes);
  for (let e = 0; e < out.length; e++) {
    const told = fixed.get(e);
    if (told === undefined) {
      if (!stands[e]) free.push(e);
      continue;
    }
    const change = told - out[e];
    out[e] = told;
    r[from[e]] -= change;
    r[to[e]] += change;
  }
  const potential = new Float64Array(nodes);
  const step = Float64Array.from(r);
  const image = new Float64Array(nodes);
  let size = dot(r, r);
  const enough = size * EXACT * EXACT;
  for (let k = 0; size > enough && size > 0 && k < MOST_STEPS; k++) {
    image.fill(0);
    for (const e of free) {
      const d = step[from[e]] - step[to[e]];
      image[from[e]] += d;
      image[to[e]] -= d;
    }
    const bend = dot(step, image);
    if (!(bend > 0)) break;
    const a = size / bend;
    for (let i = 0; i < nodes; i++) {
      potential[i] += a * step[i];
      r[i] -= a * image[i];
    }
    const next = dot(r, r);
    const b = next / size;
    for (let i = 0; i < nodes; i++) step[i] = r[i] + b * step[i];
    size = next;
  }
  for (const e of free) out[e] += potential[from[e]] - potential[to[e]];
  return out;
}

function dot(a: Float64Array, b: Float64Array): number {
  let sum = 0;
  for (let i = 0; i < a.length; i++) sum += a[i] * b[i];
  return sum;
}
