import { GRAVITY_MS2 } from '../numeric/constants';
import { evaluateLaws } from './link-heads';
import type { Structure } from './network-structure';
import { type Mode, type Numbers, type Point, velocityHead } from './network-system';
import {
  CONSTANT_TEE,
  type NetworkDescription,
  type NetworkSolution,
  type SolverReport,
} from './network-types';
import { combinedLeg, type TeeHeads, teeHeads } from './tee';

const heads: TeeHeads = { branch: 0, branch1: 0, branch2: 0, run: 0, run1: 0, run2: 0 };
const one = {
  place: new Int32Array(1),
  flow: new Float64Array(1),
  head: new Float64Array(1),
  slope: new Float64Array(1),
};

/** Turns the last point into what the caller reads: heads of nodes, pressures at link ends. */
export function writeSolution(
  description: NetworkDescription,
  structure: Structure,
  numbers: Numbers,
  mode: Mode,
  point: Point,
  report: SolverReport,
): NetworkSolution {
  const links = description.links.length;
  const { laws } = numbers;
  const solution = {
    report,
    flow_kgs: new Float64Array(links),
    head_m: numbers.fixed.slice(),
    fromPressure_Pa: new Float64Array(links),
    toPressure_Pa: new Float64Array(links),
    velocity_ms: new Float64Array(links),
    reynolds: new Float64Array(links),
    headLoss_m: new Float64Array(links),
    fromTeeLoss_m: new Float64Array(links),
    toTeeLoss_m: new Float64Array(links),
    shut: structure.closed.slice(),
    still: structure.still.slice(),
  };
  for (let k = 0; k < structure.nodes.length; k++) {
    const node = structure.nodes[k]!;
    solution.head_m[node] = point.head[k]! + numbers.fixed[structure.datum[node]!]!;
  }
  for (let i = 0; i < structure.links.length; i++) {
    const at = structure.links[i]!;
    const m = point.flow[i]!;
    solution.flow_kgs[at] = m;
    solution.headLoss_m[at] = point.law[i]!;
    solution.velocity_ms[at] = m * laws.speed[at]!;
    solution.reynolds[at] = Math.abs(m) * laws.reynolds[at]!;
  }
  if (mode.set === 'constant') constantLosses(description, structure, numbers, mode, point, solution);
  else splitLosses(description, structure, numbers, mode, point, solution);
  pressures(description, solution);
  return solution;
}

/** Tee losses at link ends, and the node's head on the level of the combined leg. */
function splitLosses(
  description: NetworkDescription,
  structure: Structure,
  numbers: Numbers,
  mode: Mode,
  point: Point,
  out: NetworkSolution,
): void {
  if (mode.set === 'constant') return;
  const { tees } = structure;
  for (let t = 0; t < tees.tee.length; t++) {
    const at = tees.tee[t]!;
    const b = tees.branch[t]!;
    const r1 = tees.run1[t]!;
    const r2 = tees.run2[t]!;
    const s1 = -tees.run1Sign[t]! * point.flow[r1]!;
    const s2 = r2 < 0 ? 0 : -tees.run2Sign[t]! * point.flow[r2]!;
    teeHeads(mode.set, numbers.shapes[at]!, s1, s2, heads);
    const scale = numbers.teeScale[at]! * mode.teeShare;
    const combined = combinedLeg(s1, s2);
    const level = scale * (combined === 0 ? heads.branch : combined === 1 ? 0 : heads.run);
    const node = description.tees[at]!.node;
    if (description.nodes[node]!.fixedHead_m === undefined) out.head_m[node] = out.head_m[node]! - level;
    const shift = description.nodes[node]!.fixedHead_m === undefined ? level : 0;
    put(structure.links, out, b, tees.branchSign[t]!, scale * heads.branch - shift);
    put(structure.links, out, r1, tees.run1Sign[t]!, -shift);
    put(structure.links, out, r2, tees.run2Sign[t]!, scale * heads.run - shift);
  }
}

/** `outward`: head lost from the node to the leg's end. */
function put(links: Int32Array, out: NetworkSolution, leg: number, sign: number, outward: number): void {
  if (leg < 0) return;
  if (sign > 0) out.fromTeeLoss_m[links[leg]!] = outward;
  else out.toTeeLoss_m[links[leg]!] = -outward;
}

/** Constant tees were solved as part of the links' laws; here they are taken out again. */
function constantLosses(
  description: NetworkDescription,
  structure: Structure,
  numbers: Numbers,
  mode: Mode,
  point: Point,
  out: NetworkSolution,
): void {
  for (const tee of description.tees) {
    const k = tee.constant ?? CONSTANT_TEE;
    const branch = velocityHead(tee.branchBore_m, description.referenceDensity_kgm3);
    const header = velocityHead(tee.headerBore_m, description.referenceDensity_kgm3);
    for (const [leg, leaving, entering, scale] of [
      [tee.branch, k.branchOut, k.branchIn, branch],
      [tee.run[0], k.runOut, k.runIn, header],
      [tee.run[1], k.runOut, k.runIn, header],
    ] as const) {
      if (leg === null) continue;
      const m = out.flow_kgs[leg]!;
      const away = description.links[leg]!.from === tee.node;
      const loss = (away === m > 0 ? leaving : entering) * scale * m * Math.abs(m);
      if (away) out.fromTeeLoss_m[leg] = loss;
      else out.toTeeLoss_m[leg] = loss;
    }
  }
  for (let i = 0; i < structure.links.length; i++) {
    const at = structure.links[i]!;
    if (out.fromTeeLoss_m[at] === 0 && out.toTeeLoss_m[at] === 0) continue;
    one.place[0] = at;
    one.flow[0] = point.flow[i]!;
    evaluateLaws(numbers.laws, one.place, mode.friction, one.flow, one.head, one.slope, null, null);
    out.headLoss_m[at] = one.head[0]!;
    // creeping flow loses less than K·V²/2g: the ends share what the law really took
    const share = (point.law[i]! - one.head[0]!) / (out.fromTeeLoss_m[at]! + out.toTeeLoss_m[at]!);
    out.fromTeeLoss_m[at] = out.fromTeeLoss_m[at]! * share;
    out.toTeeLoss_m[at] = out.toTeeLoss_m[at]! * share;
  }
}

/** Static gauge pressure p = ρ g (H − z) − ½ρV² just inside both ends of every link. */
function pressures(description: NetworkDescription, out: NetworkSolution): void {
  const { nodes, links, referenceDensity_kgm3: density } = description;
  const weight = density * GRAVITY_MS2;
  for (let i = 0; i < links.length; i++) {
    const link = links[i]!;
    const v = out.velocity_ms[i]!;
    const dynamic = 0.5 * (link.density_kgm3 ?? density) * v * v;
    const from = out.head_m[link.from]! - out.fromTeeLoss_m[i]! - nodes[link.from]!.elevation_m;
    let to = out.head_m[link.to]! + out.toTeeLoss_m[i]! - nodes[link.to]!.elevation_m;
    if (link.law.kind === 'outlet') to += out.headLoss_m[i]!;
    out.fromPressure_Pa[i] = weight * from - dynamic;
    out.toPressure_Pa[i] = weight * to - dynamic;
  }
}
