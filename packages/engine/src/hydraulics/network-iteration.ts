import { firstLine } from './link-heads';
import { closeMass, emptyStep, gradientStep, newtonStep, type Step } from './network-step';
import type { Structure } from './network-structure';
import {
  emptyPoint,
  evaluate,
  heldOverDatum,
  type Mode,
  massBalance,
  type Numbers,
  type Point,
} from './network-system';
import type { ResidualKind } from './network-types';

/** Mass at each node over the total flow. */
export const MASS_TOLERANCE = 1e-10;
/** Flow change that always counts as none [kg/s]. */
const FLOW_FLOOR = 1e-15;
/** Energy residual that always counts as none [m]: rounding of heads of tens of metres. */
const HEAD_FLOOR = 1e-13;
/** Shortest step tried along a Newton direction [–]. */
const SHORTEST = 1 / 256;
/** Largest factor by which a first guess is stretched or shrunk. */
const MOST_STRETCH = 20;
/** A stretch smaller than this is left to Newton. */
const LEAST_STRETCH = 1e-3;
/** Global gradient steps from nothing. */
const GRADIENT_STEPS = 2;

/** Arrays of one structure's iteration, kept between solves. */
export interface Workspace {
  readonly structure: Structure;
  now: Point;
  next: Point;
  readonly step: Step;
}

export interface Outcome {
  converged: boolean;
  iterations: number;
  residual: number;
  kind: ResidualKind;
  /** place of the worst open link, or of the worst unknown node when `kind` is 'mass' */
  worst: number;
  /** the matrix could not be solved, or no step along the last direction made the residual fall */
  stuck: boolean;
}

export function emptyWorkspace(structure: Structure): Workspace {
  return {
    structure,
    now: emptyPoint(structure),
    next: emptyPoint(structure),
    step: emptyStep(structure),
  };
}

/** A first point from nothing: straight laws, then one step with true slopes and tee heads as sources. */
export function startFromNothing(work: Workspace, numbers: Numbers, mode: Mode): boolean {
  const { structure } = work;
  const point = work.now;
  const constant = mode.set === 'constant';
  firstLine(
    numbers.laws,
    structure.links,
    mode.friction,
    point.flow,
    point.law,
    point.slope,
    constant ? numbers.constantForward : null,
    constant ? numbers.constantBackward : null,
  );
  point.head.fill(0);
  linearise(structure, numbers, mode, point);
  if (!gradientStep(structure, point, work.step)) return false;
  move(work, numbers, mode, 1);
  stretch(work, numbers, mode);
  for (let k = 1; k < GRADIENT_STEPS; k++) {
    if (!gradientStep(structure, work.now, work.step)) return false;
    move(work, numbers, mode, 1);
  }
  return true;
}

/**
 * Stretches all flows by one factor, so that the power the links take meets the power they are given: for a
 * network between held heads the first guess of speed is then as good as forgotten. Flows that are imposed
 * have their size already.
 */
export function stretch(work: Workspace, numbers: Numbers, mode: Mode): void {
  const { now, structure } = work;
  if (numbers.hasInflow) return;
  let given = 0;
  let taken = 0;
  for (let i = 0; i < now.flow.length; i++) {
    const m = now.flow[i]!;
    const law = now.law[i]!;
    given += m * (law - now.energy[i]!);
    if (m * law > 0) taken += m * law;
    else given -= m * law;
  }
  const factor = Math.sqrt(given / taken);
  if (!(factor > 1 / MOST_STRETCH && factor < MOST_STRETCH)) return;
  if (Math.abs(factor - 1) < LEAST_STRETCH) return;
  for (let i = 0; i < now.flow.length; i++) now.flow[i] = now.flow[i]! * factor;
  evaluate(structure, numbers, mode, now);
}

/** Energy and mass at zero flow with the straight laws already in the point. */
function linearise(structure: Structure, numbers: Numbers, mode: Mode, point: Point): void {
  for (let i = 0; i < point.energy.length; i++) {
    const f = structure.fromUnknown[i]!;
    const t = structure.toUnknown[i]!;
    let e = point.law[i]!;
    if (f < 0) e -= heldOverDatum(structure, numbers, structure.from[i]!);
    if (t < 0) e += heldOverDatum(structure, numbers, structure.to[i]!);
    if (mode.buoyancy) e -= numbers.laws.buoyancy[structure.links[i]!]!;
    point.energy[i] = e;
  }
  massBalance(structure, numbers, point.flow, point.mass);
}

/** Takes the step at a length, evaluates there, and makes that point the current one. */
function move(work: Workspace, numbers: Numbers, mode: Mode, length: number): void {
  tryStep(work, numbers, mode, length);
  const { now } = work;
  work.now = work.next;
  work.next = now;
}

function tryStep(work: Workspace, numbers: Numbers, mode: Mode, length: number): void {
  const { now, next, step, structure } = work;
  for (let i = 0; i < now.flow.length; i++) next.flow[i] = now.flow[i]! + length * step.flow[i]!;
  for (let k = 0; k < now.head.length; k++) next.head[k] = now.head[k]! + length * step.head[k]!;
  if (length === 1) {
    massBalance(structure, numbers, next.flow, next.mass);
    closeMass(structure, next.mass, next.flow);
  }
  evaluate(structure, numbers, mode, next);
}

/**
 * Damped Newton from the current point. Constant tees leave the system symmetric, and then the gradient step
 * is the Newton step.
 *
 * @param tolerance on flow change and energy, relative
 * @param most      steps allowed
 */
export function iterate(
  work: Workspace,
  numbers: Numbers,
  mode: Mode,
  tolerance: number,
  most: number,
): Outcome {
  const { structure } = work;
  const coupled = mode.set !== 'constant' && mode.teeShare > 0 && structure.tees.tee.length > 0;
  const outcome: Outcome = {
    converged: false,
    iterations: 0,
    residual: Infinity,
    kind: 'energy',
    worst: 0,
    stuck: false,
  };
  judge(work.now, work.step, Infinity, tolerance, outcome);
  while (outcome.iterations < most) {
    const solved = coupled
      ? newtonStep(structure, work.now, work.step)
      : gradientStep(structure, work.now, work.step);
    outcome.iterations++;
    if (!solved) {
      outcome.stuck = true;
      return outcome;
    }
    const before = work.now.square;
    const loose = work.now.mostMass > MASS_TOLERANCE * work.now.mostFlow;
    let length = 1;
    tryStep(work, numbers, mode, length);
    // a step that first closes the mass balance may raise the energy residual
    while (!loose && !(work.next.square <= before * (1 - 1e-4 * length)) && !settled(work.next)) {
      length /= 2;
      if (length < SHORTEST) break;
      tryStep(work, numbers, mode, length);
    }
    if (length < SHORTEST) {
      outcome.stuck = true;
      judge(work.now, work.step, 1, tolerance, outcome);
      return outcome;
    }
    const { now } = work;
    work.now = work.next;
    work.next = now;
    judge(work.now, work.step, length, tolerance, outcome);
    if (outcome.converged) return outcome;
  }
  return outcome;
}

/** Residual at the level of rounding: it cannot be asked to fall further. */
function settled(point: Point): boolean {
  return point.mostEnergy <= 64 * Number.EPSILON * point.mostHead + HEAD_FLOOR;
}

/**
 * Says how far a point is from closing energy and mass, whatever led to it. For one that no step was taken from:
 * a change of flow is not asked for, and it never counts as converged.
 */
export function judgeUnsolved(point: Point, tolerance: number, out: Outcome): void {
  const energy = point.mostEnergy / (tolerance * point.mostHead + HEAD_FLOOR);
  const mass = point.mostMass / (MASS_TOLERANCE * point.mostFlow + FLOW_FLOOR);
  const byMass = !(mass <= energy);
  out.residual = byMass ? mass : energy;
  out.kind = byMass ? 'mass' : 'energy';
  out.worst = byMass ? point.worstMass : point.worstEnergy;
  out.converged = false;
}

/** Holds the point against the three criteria. */
function judge(point: Point, step: Step, length: number, tolerance: number, out: Outcome): void {
  let change = 0;
  let worst = 0;
  for (let i = 0; i < step.flow.length; i++) {
    const size = Math.abs(step.flow[i]!);
    if (size <= change) continue;
    change = size;
    worst = i;
  }
  if (length === Infinity) change = Infinity;
  const flow = change / (tolerance * point.mostFlow + FLOW_FLOOR);
  const energy = point.mostEnergy / (tolerance * point.mostHead + HEAD_FLOOR);
  const mass = point.mostMass / (MASS_TOLERANCE * point.mostFlow + FLOW_FLOOR);
  out.residual = flow;
  out.kind = 'flow';
  out.worst = worst;
  if (!(energy <= out.residual)) {
    out.residual = energy;
    out.kind = 'energy';
    out.worst = point.worstEnergy;
  }
  if (!(mass <= out.residual)) {
    out.residual = mass;
    out.kind = 'mass';
    out.worst = point.worstMass;
  }
  out.converged = out.residual <= 1;
}
