import { GRAVITY_MS2 } from '../numeric/constants';
import { evaluateLaws } from './link-heads';
import type { CompiledLaws } from './link-laws';
import type { Structure } from './network-structure';
import type { FrictionLaw, NetworkDescription, NetworkTee, TeeSet } from './network-types';
import { CONSTANT_TEE } from './network-types';
import { type TeeHeads, teeHeads } from './tee';
import { type TeeShape, teeShape } from './tee-coefficients';

/** Numbers of a description, ready for the solver. */
export interface Numbers {
  readonly laws: CompiledLaws;
  readonly shapes: TeeShape[];
  /** head of the header's velocity at unit mass flow, per tee [m/(kg/s)²] */
  readonly teeScale: Float64Array;
  /** constant tees as additions to the links' quadratic coefficients */
  readonly constantForward: Float64Array;
  readonly constantBackward: Float64Array;
  /** held head per node, 0 where there is none [m] */
  readonly fixed: Float64Array;
  readonly inflow: Float64Array;
  hasInflow: boolean;
}

/** Which equations are solved. */
export interface Mode {
  readonly set: TeeSet;
  readonly friction: FrictionLaw;
  readonly buoyancy: boolean;
  /** share of the tee heads that counts [–]; below 1 only on the way to a difficult solution */
  teeShare: number;
}

/** One point of the iteration: flows and heads with what the equations say of them. */
export interface Point {
  /** per open link [kg/s] */
  readonly flow: Float64Array;
  /** per unknown node over its datum, on the level of run leg 1 at a tee [m] */
  readonly head: Float64Array;
  /** heads of the laws and their slopes */
  readonly law: Float64Array;
  readonly slope: Float64Array;
  /** what each link's energy equation lacks [m] */
  readonly energy: Float64Array;
  /** what each node's mass balance lacks: inflow − outflow [kg/s] */
  readonly mass: Float64Array;
  /** per tee ∂branch/∂s1, ∂branch/∂s2, ∂run2/∂s1, ∂run2/∂s2 [m·s/kg] */
  readonly tee: Float64Array;
  /** Σ energy² */
  square: number;
  mostEnergy: number;
  worstEnergy: number;
  mostMass: number;
  worstMass: number;
  mostFlow: number;
  mostHead: number;
}

export function emptyNumbers(description: NetworkDescription, laws: CompiledLaws): Numbers {
  const { nodes, links, tees } = description;
  return {
    laws,
    shapes: new Array<TeeShape>(tees.length),
    teeScale: new Float64Array(tees.length),
    constantForward: new Float64Array(links.length),
    constantBackward: new Float64Array(links.length),
    fixed: new Float64Array(nodes.length),
    inflow: new Float64Array(nodes.length),
    hasInflow: false,
  };
}

/** Tees, held heads and inflows of a description into arrays, in place. */
export function compileTees(description: NetworkDescription, out: Numbers): void {
  const { nodes, tees, referenceDensity_kgm3: reference } = description;
  out.hasInflow = false;
  for (let n = 0; n < nodes.length; n++) {
    out.fixed[n] = nodes[n]!.fixedHead_m ?? 0;
    out.inflow[n] = nodes[n]!.inflow_kgs ?? 0;
    if (out.inflow[n] !== 0) out.hasInflow = true;
  }
  out.constantForward.fill(0);
  out.constantBackward.fill(0);
  let previous: NetworkTee | undefined;
  for (let t = 0; t < tees.length; t++) {
    const tee = tees[t]!;
    const same =
      previous !== undefined &&
      previous.branchBore_m === tee.branchBore_m &&
      previous.headerBore_m === tee.headerBore_m;
    out.shapes[t] = same ? out.shapes[t - 1]! : teeShape((tee.branchBore_m / tee.headerBore_m) ** 2);
    previous = tee;
    out.teeScale[t] = velocityHead(tee.headerBore_m, reference);
    const k = tee.constant ?? CONSTANT_TEE;
    const branch = velocityHead(tee.branchBore_m, reference);
    addConstant(description, out, tee.branch, tee.node, k.branchOut * branch, k.branchIn * branch);
    for (const leg of tee.run) {
      if (leg === null) continue;
      const scale = out.teeScale[t]!;
      addConstant(description, out, leg, tee.node, k.runOut * scale, k.runIn * scale);
    }
  }
}

/** V²/2g at unit mass flow [m/(kg/s)²]. */
export function velocityHead(bore: number, density: number): number {
  const area = (Math.PI / 4) * bore * bore;
  return 1 / (2 * GRAVITY_MS2 * density * density * area * area);
}

function addConstant(
  description: NetworkDescription,
  out: Numbers,
  link: number,
  node: number,
  leaving: number,
  entering: number,
): void {
  const away = description.links[link]!.from === node;
  out.constantForward[link] = out.constantForward[link]! + (away ? leaving : entering);
  out.constantBackward[link] = out.constantBackward[link]! + (away ? entering : leaving);
}

export function emptyPoint(structure: Structure): Point {
  const links = structure.links.length;
  const nodes = structure.nodes.length;
  return {
    flow: new Float64Array(links),
    head: new Float64Array(nodes),
    law: new Float64Array(links),
    slope: new Float64Array(links),
    energy: new Float64Array(links),
    mass: new Float64Array(nodes),
    tee: new Float64Array(4 * structure.tees.tee.length),
    square: 0,
    mostEnergy: 0,
    worstEnergy: 0,
    mostMass: 0,
    worstMass: 0,
    mostFlow: 0,
    mostHead: 0,
  };
}

const heads: TeeHeads = { branch: 0, branch1: 0, branch2: 0, run: 0, run1: 0, run2: 0 };

/** Evaluates every equation at the point's flows and heads. */
export function evaluate(structure: Structure, numbers: Numbers, mode: Mode, point: Point): void {
  const constant = mode.set === 'constant';
  evaluateLaws(
    numbers.laws,
    structure.links,
    mode.friction,
    point.flow,
    point.law,
    point.slope,
    constant ? numbers.constantForward : null,
    constant ? numbers.constantBackward : null,
  );
  balance(structure, numbers, mode, point);
  massBalance(structure, numbers, point.flow, point.mass);
  if (!constant) addTees(structure, numbers, mode, point);
  summarise(point);
}

/** Inflow less outflow at each unknown node [kg/s]. */
export function massBalance(
  structure: Structure,
  numbers: Numbers,
  flow: Float64Array,
  mass: Float64Array,
): void {
  const { nodes, fromUnknown, toUnknown } = structure;
  for (let k = 0; k < nodes.length; k++) mass[k] = numbers.inflow[nodes[k]!]!;
  for (let i = 0; i < flow.length; i++) {
    const f = fromUnknown[i]!;
    const t = toUnknown[i]!;
    if (f >= 0) mass[f] = mass[f]! - flow[i]!;
    if (t >= 0) mass[t] = mass[t]! + flow[i]!;
  }
}

/** A held head over the datum of its part of the network [m]. */
export function heldOverDatum(structure: Structure, numbers: Numbers, node: number): number {
  return numbers.fixed[node]! - numbers.fixed[structure.datum[node]!]!;
}

/** Energy without tees. */
function balance(structure: Structure, numbers: Numbers, mode: Mode, point: Point): void {
  const { links, from, to, fromUnknown, toUnknown } = structure;
  const { head, law, energy } = point;
  let mostHead = 0;
  for (let i = 0; i < links.length; i++) {
    const f = fromUnknown[i]!;
    const t = toUnknown[i]!;
    const headFrom = f >= 0 ? head[f]! : heldOverDatum(structure, numbers, from[i]!);
    const headTo = t >= 0 ? head[t]! : heldOverDatum(structure, numbers, to[i]!);
    let e = law[i]! - headFrom + headTo;
    if (mode.buoyancy) e -= numbers.laws.buoyancy[links[i]!]!;
    energy[i] = e;
    mostHead = Math.max(mostHead, Math.abs(headFrom), Math.abs(headTo), Math.abs(law[i]!));
  }
  point.mostHead = mostHead;
}

function addTees(structure: Structure, numbers: Numbers, mode: Mode, point: Point): void {
  const { tees } = structure;
  const { flow, energy, tee } = point;
  const set = mode.set as Exclude<TeeSet, 'constant'>;
  for (let t = 0; t < tees.tee.length; t++) {
    const at = tees.tee[t]!;
    const scale = numbers.teeScale[at]! * mode.teeShare;
    const b = tees.branch[t]!;
    const r1 = tees.run1[t]!;
    const r2 = tees.run2[t]!;
    const s1 = -tees.run1Sign[t]! * flow[r1]!;
    const s2 = r2 < 0 ? 0 : -tees.run2Sign[t]! * flow[r2]!;
    teeHeads(set, numbers.shapes[at]!, s1, s2, heads);
    if (b >= 0) energy[b] = energy[b]! + tees.branchSign[t]! * scale * heads.branch;
    if (r2 >= 0) energy[r2] = energy[r2]! + tees.run2Sign[t]! * scale * heads.run;
    tee[4 * t] = scale * heads.branch1;
    tee[4 * t + 1] = scale * heads.branch2;
    tee[4 * t + 2] = scale * heads.run1;
    tee[4 * t + 3] = scale * heads.run2;
  }
}

function summarise(point: Point): void {
  const { flow, energy, mass } = point;
  let square = 0;
  let most = 0;
  let worst = 0;
  let mostFlow = 0;
  for (let i = 0; i < energy.length; i++) {
    const e = energy[i]!;
    square += e * e;
    if (!(Math.abs(e) <= most)) {
      most = Math.abs(e);
      worst = i;
    }
    mostFlow = Math.max(mostFlow, Math.abs(flow[i]!));
  }
  point.square = square;
  point.mostEnergy = most;
  point.worstEnergy = worst;
  point.mostFlow = mostFlow;
  most = 0;
  worst = 0;
  for (let k = 0; k < mass.length; k++) {
    if (Math.abs(mass[k]!) <= most) continue;
    most = Math.abs(mass[k]!);
    worst = k;
  }
  point.mostMass = most;
  point.worstMass = worst;
}
