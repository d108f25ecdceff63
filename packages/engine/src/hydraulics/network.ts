import { DomainError } from '../numeric/errors';
import { headAtRest } from './link-heads';
import { compileLaws, emptyLaws } from './link-laws';
import { checkNetwork, checkNumbers, sameStructure } from './network-check';
import { emptyWorkspace, type Workspace } from './network-iteration';
import { writeSolution } from './network-report';
import { failureMessage, solveState } from './network-solve';
import { analyse } from './network-structure';
import { compileTees, emptyNumbers, type Mode, type Numbers } from './network-system';
import type { NetworkDescription, NetworkSolution, PreparedNetwork, SolveOptions } from './network-types';

/** States of the valves whose analysis is kept. */
const KEPT_STATES = 8;
/** Flow against a check valve that counts as none, over the largest flow. */
const AGAINST = 1e-9;

/**
 * Makes a network ready to be solved: checks it, lays its numbers out, and keeps the symbolic factorisation of
 * each state of its valves between solves.
 *
 * @param description the network, not changed and not copied: call `update` after changing it
 * @returns object whose `solve` gives flows and heads
 * @throws {DomainError} for a description that no network can have (dangling ends, a tee without its legs,
 *   a law outside its range)
 * @example prepareNetwork(description).solve({ tees: 'gardel' }).flow_kgs
 */
export function prepareNetwork(description: NetworkDescription): PreparedNetwork {
  let current = description;
  let numbers!: Numbers;
  let states: Workspace[] = [];

  function load(next: NetworkDescription, same: boolean): void {
    if (!same) checkNetwork(next);
    checkNumbers(next);
    const into = same ? numbers : emptyNumbers(next, emptyLaws(next.links.length));
    try {
      compileLaws(next, into.laws);
      compileTees(next, into);
    } catch (error) {
      // a law that was refused half-way leaves what was loaded before
      if (same && next !== current) {
        compileLaws(current, numbers.laws);
        compileTees(current, numbers);
      }
      throw error;
    }
    if (!same) {
      numbers = into;
      states = [];
    }
    current = next;
  }

  function stateOf(closed: Uint8Array): Workspace {
    const found = states.findIndex(({ structure }) => equal(structure.closed, closed));
    const work = found >= 0 ? states.splice(found, 1)[0]! : emptyWorkspace(analyse(current, closed));
    states.unshift(work);
    if (states.length > KEPT_STATES) states.pop();
    return work;
  }

  function solveFrom(options: SolveOptions, second: boolean): NetworkSolution {
    const mode: Mode = {
      set: options.tees ?? 'default',
      friction: options.friction ?? 'churchill',
      buoyancy: options.buoyancy ?? true,
      teeShare: 1,
    };
    const tolerance = options.tolerance ?? 1e-9;
    const most = options.maxIterations ?? 100;
    if (!(tolerance > 0 && tolerance < 1)) throw new DomainError('tolerance', tolerance, '(0, 1)');
    if (!(most >= 1)) throw new DomainError('most iterations', most, '[1, ∞)');
    const closed = numbers.laws.closed.slice();
    const seen: string[] = [];
    let iterations = 0;
    for (;;) {
      const work = stateOf(closed);
      const outcome = solveState(work, numbers, mode, tolerance, most, options.start, second);
      iterations += outcome.iterations;
      const turned = outcome.converged && turnCheckValves(numbers, work, current, closed);
      const key = turned ? closed.join('') : '';
      const cycle = turned && seen.includes(key);
      if (turned && !cycle) {
        seen.push(key);
        continue;
      }
      const message = cycle
        ? 'The check valves find no position that agrees with the flow.'
        : failureMessage(current, work, numbers, outcome);
      const { kind, worst } = outcome;
      const at = kind === 'mass' ? work.structure.nodes[worst] : work.structure.links[worst];
      const place = at === undefined ? '' : (kind === 'mass' ? current.nodes : current.links)[at]!.id;
      const report = {
        converged: message === '',
        iterations,
        residual: outcome.residual,
        residualKind: kind,
        worst: place,
        message,
      };
      return writeSolution(current, work.structure, numbers, mode, work.now, report);
    }
  }

  load(description, false);
  return {
    get description() {
      return current;
    },
    solve(options = {}) {
      const first = solveFrom(options, false);
      if (!options.twoStarts) return first;
      const second = solveFrom({ ...options, start: undefined }, true);
      if (!second.report.converged || !first.report.converged || !differ(first, second)) return first;
      return { ...first, other: second };
    },
    update(next) {
      const same = sameStructure(current, next);
      load(next, same);
      return same;
    },
  };
}

/** Shuts check valves that flow backwards, opens shut ones that are pushed forwards. */
function turnCheckValves(
  numbers: Numbers,
  work: Workspace,
  description: NetworkDescription,
  closed: Uint8Array,
): boolean {
  const { laws } = numbers;
  const { structure, now } = work;
  let turned = false;
  if (!laws.oneWay.includes(1)) return false;
  for (let i = 0; i < structure.links.length; i++) {
    const at = structure.links[i]!;
    if (laws.oneWay[at] && now.flow[i]! < -(AGAINST * now.mostFlow + 1e-12)) {
      closed[at] = 1;
      turned = true;
    }
  }
  if (turned) return true;
  const head = numbers.fixed.slice();
  for (let k = 0; k < structure.nodes.length; k++) {
    const node = structure.nodes[k]!;
    head[node] = now.head[k]! + numbers.fixed[structure.datum[node]!]!;
  }
  for (let at = 0; at < closed.length; at++) {
    if (!laws.oneWay[at] || !closed[at] || laws.closed[at]) continue;
    const { from, to } = description.links[at]!;
    if (structure.still[from] && structure.still[to]) continue;
    const push = head[from]! - head[to]! + headAtRest(laws, at) + laws.buoyancy[at]!;
    if (structure.still[from] || structure.still[to] || push <= 1e-9 * now.mostHead + 1e-12) continue;
    closed[at] = 0;
    turned = true;
  }
  return turned;
}

function equal(a: Uint8Array, b: Uint8Array): boolean {
  for (let i = 0; i < a.length; i++) if (a[i] !== b[i]) return false;
  return true;
}

/** Two solutions are different when a flow differs by more than 1e-6 of the largest, and 1e-9 kg/s. */
function differ(a: NetworkSolution, b: NetworkSolution): boolean {
  let most = 0;
  let gap = 0;
  for (let i = 0; i < a.flow_kgs.length; i++) {
    most = Math.max(most, Math.abs(a.flow_kgs[i]!));
    gap = Math.max(gap, Math.abs(a.flow_kgs[i]! - b.flow_kgs[i]!));
  }
  return gap > 1e-6 * most + 1e-9;
}
