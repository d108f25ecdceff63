import {
  iterate,
  judgeUnsolved,
  type Outcome,
  startFromNothing,
  stretch,
  type Workspace,
} from './network-iteration';
import { closeMass } from './network-step';
import { evaluate, type Mode, massBalance, type Numbers } from './network-system';
import type { NetworkDescription, SolveOptions } from './network-types';

/** Shortest advance of the tee share on the way to a difficult solution. */
const LEAST_ADVANCE = 1 / 64;

/**
 * Solves one state of the valves. From a given start or from nothing by Newton; when that stagnates, again
 * from nothing with the share of the tee heads taken from 0 to 1 in steps that grow while they succeed.
 *
 * @param second start from the other side: a solution with tees left out, flows turned round where they can be
 */
export function solveState(
  work: Workspace,
  numbers: Numbers,
  mode: Mode,
  tolerance: number,
  most: number,
  start: SolveOptions['start'],
  second: boolean,
): Outcome {
  const { structure } = work;
  if (structure.links.length === 0) return nothingOpen();
  let ready: boolean;
  if (start && start.flow_kgs.length === numbers.laws.kind.length && !second) {
    takeStart(work, numbers, mode, start);
    ready = true;
  } else {
    ready = startFromNothing(work, numbers, mode);
    if (ready && second) turnRound(work, numbers, mode);
  }
  let outcome = ready ? iterate(work, numbers, mode, tolerance, most) : undefined;
  if (outcome?.converged) return outcome;
  let spent = outcome?.iterations ?? 0;
  if (start && !second && spent < most) {
    // the old solution led nowhere: forget it
    if (startFromNothing(work, numbers, mode)) {
      outcome = iterate(work, numbers, mode, tolerance, most - spent);
      spent += outcome.iterations;
      outcome.iterations = spent;
      if (outcome.converged) return outcome;
    }
  }
  if (outcome && spent >= most) return outcome;
  return continued(work, numbers, mode, tolerance, most, spent);
}

/** Continuation in the share of the tee heads. */
function continued(
  work: Workspace,
  numbers: Numbers,
  mode: Mode,
  tolerance: number,
  most: number,
  spent: number,
): Outcome {
  mode.teeShare = 0;
  startFromNothing(work, numbers, mode);
  let used = spent;
  let share = 0;
  let advance = 0.25;
  let outcome = iterate(work, numbers, mode, 1e-6, most - used);
  used += outcome.iterations;
  const flow = work.now.flow.slice();
  const head = work.now.head.slice();
  while (outcome.converged && share < 1 && used < most) {
    flow.set(work.now.flow);
    head.set(work.now.head);
    const next = Math.min(1, share + advance);
    mode.teeShare = next;
    evaluate(work.structure, numbers, mode, work.now);
    outcome = iterate(work, numbers, mode, next === 1 ? tolerance : 1e-6, most - used);
    used += outcome.iterations;
    if (outcome.converged) {
      share = next;
      advance *= 2;
      continue;
    }
    advance /= 4;
    if (advance < LEAST_ADVANCE) break;
    work.now.flow.set(flow);
    work.now.head.set(head);
    outcome.converged = true;
  }
  if (share < 1) {
    // the last point of a partial share, held against the whole of it
    work.now.flow.set(flow);
    work.now.head.set(head);
    mode.teeShare = 1;
    evaluate(work.structure, numbers, mode, work.now);
    judgeUnsolved(work.now, tolerance, outcome);
  }
  outcome.iterations = used;
  return outcome;
}

function takeStart(
  work: Workspace,
  numbers: Numbers,
  mode: Mode,
  start: NonNullable<SolveOptions['start']>,
): void {
  const { structure, now } = work;
  for (let i = 0; i < structure.links.length; i++) now.flow[i] = start.flow_kgs[structure.links[i]!]!;
  for (let k = 0; k < structure.nodes.length; k++) {
    const node = structure.nodes[k]!;
    now.head[k] = start.head_m[node]! - numbers.fixed[structure.datum[node]!]!;
  }
  massBalance(structure, numbers, now.flow, now.mass);
  closeMass(structure, now.mass, now.flow);
  evaluate(structure, numbers, mode, now);
  stretch(work, numbers, mode);
}

/** Turns round every flow that closes a loop, the rest following from mass. */
function turnRound(work: Workspace, numbers: Numbers, mode: Mode): void {
  const { structure, now } = work;
  const tree = new Uint8Array(now.flow.length);
  for (const link of structure.parentLink) tree[link] = 1;
  for (let i = 0; i < now.flow.length; i++) if (!tree[i]) now.flow[i] = -now.flow[i]!;
  massBalance(structure, numbers, now.flow, now.mass);
  closeMass(structure, now.mass, now.flow);
  evaluate(structure, numbers, mode, now);
}

function nothingOpen(): Outcome {
  return { converged: true, iterations: 0, residual: 0, kind: 'flow', worst: 0, stuck: false };
}

/** Why there is no answer, in words; '' when there is one. */
export function failureMessage(
  description: NetworkDescription,
  work: Workspace,
  numbers: Numbers,
  outcome: Outcome,
): string {
  const { structure } = work;
  for (let n = 0; n < description.nodes.length; n++) {
    if (structure.still[n] && numbers.inflow[n] !== 0)
      return `Water is put in at ${description.nodes[n]!.id}, but no open way leads out from there.`;
  }
  if (outcome.converged) return '';
  const what = {
    flow: 'its flow still changes',
    energy: 'its energy does not close',
    mass: 'mass does not close',
  };
  const at =
    outcome.kind === 'mass'
      ? description.nodes[structure.nodes[outcome.worst]!]!.id
      : description.links[structure.links[outcome.worst]!]!.id;
  return `No solution after ${outcome.iterations} steps; worst at ${at}: ${what[outcome.kind]} (${outcome.residual.toExponential(1)} times the tolerance).`;
}
