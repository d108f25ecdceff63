import type { Structure } from './network-structure';
import type { Point } from './network-system';

/**
 * A slope in the matrix is at least this share of the largest: a link without any loss would leave a zero
 * pivot. It is in the matrix only, never in the equations, so it costs no accuracy.
 */
const LEAST_SLOPE = 1e-9;

/** Change of flows and heads that a linear solve asks for. */
export interface Step {
  readonly flow: Float64Array;
  readonly head: Float64Array;
  /** both, flows first: right-hand side and solution of the whole system */
  readonly whole: Float64Array;
}

export function emptyStep(structure: Structure): Step {
  const n = structure.links.length;
  const whole = new Float64Array(n + structure.nodes.length);
  return { whole, flow: whole.subarray(0, n), head: whole.subarray(n) };
}

function leastSlope(slope: Float64Array): number {
  let most = 0;
  for (let i = 0; i < slope.length; i++) if (slope[i]! > most) most = slope[i]!;
  return most > 0 ? most * LEAST_SLOPE : 1;
}

/**
 * Step of the global gradient algorithm (Todini & Pilati 1988): flows are eliminated by D⁻¹, heads follow from
 * the symmetric positive definite AᵀD⁻¹A. Exact Newton when no tee couples flows; else tee heads count as
 * sources.
 *
 * @returns false when the matrix could not be factored
 */
export function gradientStep(structure: Structure, point: Point, step: Step): boolean {
  const { matrix, fromFrom, toTo, fromTo } = structure.cholesky();
  const { fromUnknown, toUnknown } = structure;
  const { energy, slope, mass } = point;
  const { values } = matrix;
  const { flow, head } = step;
  const least = leastSlope(slope);
  values.fill(0);
  head.set(mass);
  for (let i = 0; i < energy.length; i++) {
    const conductance = 1 / Math.max(slope[i]!, least);
    flow[i] = conductance;
    const push = conductance * energy[i]!;
    const f = fromUnknown[i]!;
    const t = toUnknown[i]!;
    if (f >= 0) {
      values[fromFrom[i]!]! += conductance;
      head[f]! += push;
    }
    if (t >= 0) {
      values[toTo[i]!]! += conductance;
      head[t]! -= push;
      if (f >= 0) values[fromTo[i]!]! -= conductance;
    }
  }
  if (!matrix.factor()) return false;
  matrix.solve(head);
  for (let i = 0; i < energy.length; i++) {
    const f = fromUnknown[i]!;
    const t = toUnknown[i]!;
    flow[i] = flow[i]! * ((f >= 0 ? head[f]! : 0) - (t >= 0 ? head[t]! : 0) - energy[i]!);
  }
  return true;
}

/**
 * Newton step on the whole system [D A; Aᵀ 0] with the derivatives of the tees, D not symmetric.
 *
 * @returns false when the step is not finite
 */
export function newtonStep(structure: Structure, point: Point, step: Step): boolean {
  const plan = structure.lu();
  const { tees } = structure;
  const { values } = plan.matrix;
  const n = structure.links.length;
  const least = leastSlope(point.slope);
  values.set(plan.constant);
  for (let i = 0; i < n; i++) {
    const slope = point.slope[i]!;
    values[plan.diagonal[i]!] = Math.max(slope, least);
    step.whole[i] = -point.energy[i]!;
  }
  // s = −sign·m at every leg, and energy counts sign·head: entry (i, j) gets −sign_i·sign_j·∂T_i/∂s_j
  for (let t = 0; t < tees.tee.length; t++) {
    const s1 = tees.run1Sign[t]!;
    const s2 = tees.run2Sign[t]!;
    const sb = tees.branchSign[t]!;
    add(values, plan.tee[4 * t]!, -sb * s1 * point.tee[4 * t]!);
    add(values, plan.tee[4 * t + 1]!, -sb * s2 * point.tee[4 * t + 1]!);
    add(values, plan.tee[4 * t + 2]!, -s2 * s1 * point.tee[4 * t + 2]!);
    add(values, plan.tee[4 * t + 3]!, -point.tee[4 * t + 3]!);
  }
  for (let k = 0; k < point.mass.length; k++) step.whole[n + k] = -point.mass[k]!;
  plan.matrix.factor(least * 1e-3);
  plan.matrix.solve(step.whole);
  for (let i = 0; i < step.whole.length; i++) if (!Number.isFinite(step.whole[i])) return false;
  return true;
}

function add(values: Float64Array, at: number, value: number): void {
  if (at >= 0) values[at] = values[at]! + value;
}

/**
 * Closes the mass balance to the last bit: from the ends of the tree inwards, what a node lacks is taken from
 * the link towards the fixed head.
 */
export function closeMass(structure: Structure, mass: Float64Array, flow: Float64Array): void {
  const { nodes, parentLink, parentNode, toUnknown } = structure;
  for (let k = nodes.length - 1; k >= 0; k--) {
    const lack = mass[k]!;
    if (lack === 0) continue;
    const link = parentLink[k]!;
    // more out of the node, less into it
    flow[link] = flow[link]! + (toUnknown[link] === k ? -lack : lack);
    mass[k] = 0;
    const parent = parentNode[k]!;
    if (parent >= 0) mass[parent] = mass[parent]! + lack;
  }
}
