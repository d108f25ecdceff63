import { acceleration } from './air-accelerate';
import {
  type AirStates,
  type Change,
  HEAD_TOLERANCE,
  mouthGap,
  runsDry,
  spaceChanges,
  tubeChanges,
} from './air-changes';
import { type ExtendedNetwork, extendNetwork, type Mouth, stepLaw, trimSolution } from './air-network';
import { inletPressure } from './air-pressure';
import { describeSpaces, describeTubes } from './air-report';
import type { AirGuess, AirLayout, AirOptions, AirSolution } from './air-types';
import { prepareNetwork } from './network';
import type { NetworkDescription, NetworkSolution, PreparedNetwork, SolveOptions } from './network-types';

/** A contradiction under this is called a tie when states repeat [m]: nothing is built to a tenth of a millimetre. */
const TIE = 1e-4;
/** How exact mouths are while states still change [m]. */
const ROUGH = 1e-3;
/** Corrections of the head steps for one set of states. */
const MOST_CORRECTIONS = 60;
/** Sets of states tried; none is tried twice, so that this only bounds the time. */
const MOST_SETS = 400;

/** A network whose part-full states can be found again and again. */
export interface PreparedAir {
  readonly description: NetworkDescription;
  readonly layout: AirLayout;
  solve(options?: AirOptions): AirSolution;
  /** Takes new numbers (another speed, another temperature) for the same nodes and links. */
  update(description: NetworkDescription): void;
}

/**
 * Finds which tubes run full, which as outfalls, and which stay dry.
 *
 * Where air can get in, the water surface is free: a tube that discharges there sees its own crown as outlet
 * head, and it runs as an outfall or not at all. Where none can get in, the header stays full as a siphon and
 * height cancels. Per tube, with step e ≥ 0, mouth pressure p, flow Q and supply head H:
 *
 *   full: e = 0, p ≥ 0      outfall: p = 0, e > 0, Q > 0      unfilled: Q = 0, H ≤ z_crown
 *
 * p is the gauge pressure under the crown inside the mouth, so that h_out = max(H_header, z_crown) is counted
 * at the tube's own velocity. A space opens when gauge pressure at its inlet falls under minus its opening
 * pressure, and closes when a full down-leg would bring it back to zero: two states with hysteresis. Air that
 * was there from the start, with no inlet or a shut one, stays until every mouth is under pressure, or until
 * the water in the down-leg sweeps it out. Losses of a part-full down-leg are counted over its whole length,
 * which is exact where states change and a little too much elsewhere.
 *
 * Active set: solve the network with the states fixed, correcting the steps until each mouth is right; then
 * change the tubes that contradict their state; when there are none, the first space that does. No set of
 * states is tried twice (on a repeat single changes are tried instead), so that the search ends; when nothing
 * new is left, it says so.
 *
 * @param description network as assembled, tubes full
 * @param layout      tubes and spaces
 * @throws {DomainError} for a layout that does not fit the network
 */
export function prepareAir(description: NetworkDescription, layout: AirLayout): PreparedAir {
  let current = close(description, layout);
  let extended = extendNetwork(current, layout);
  let plain: Solver | undefined;
  let withMouths: Solver | undefined;

  function search(options: AirOptions): AirSolution {
    const { before = 'full', hold = false, solve = {} } = options;
    const guess = options.guess ?? (typeof before === 'string' ? undefined : before.guess);
    const open = layout.spaces.map((_, s) =>
      typeof before === 'string' ? before === 'empty' : before.open[s] === true,
    );
    if (!open.includes(true)) {
      plain ??= keepSolver(current);
      const solution = plain(current, solve);
      const opens = layout.spaces.some(
        ({ inlet }) => inlet && inletPressure(current, inlet, solution, []) < -inlet.openPressure_Pa,
      );
      if (!solution.report.converged || !opens || hold) {
        const full = layout.tubes.map(() => 'full' as const);
        const states = { open, unsweepable: open, filling: full };
        return answer({ description: current, mouths: [] }, states, solution, {
          solves: 1,
          first: null,
          message: '',
        });
      }
    }
    const known = guess?.open.every((is, s) => is === open[s]) ? guess : undefined;
    const steps = Float64Array.from(known?.steps ?? layout.tubes.map(() => 0));
    let states: AirStates = {
      open,
      // an inlet that was sucked open goes on letting air in; at a start it is shut, with air behind it
      unsweepable: layout.spaces.map(
        ({ inlet }, s) => typeof before !== 'string' && open[s]! && inlet !== null,
      ),
      filling: [...(known?.filling ?? layout.tubes.map(() => 'full' as const))],
    };
    const seen = new Set([keyOf(states)]);
    let solves = 0;
    let exact = false;
    let first: AirGuess | null = null;
    const finish = (solution: NetworkSolution, message: string) =>
      answer(extended, states, solution, { solves, first, message, steps });
    for (;;) {
      const tolerance = exact ? HEAD_TOLERANCE : ROUGH;
      const { solution, settled, took } = settle(states, steps, tolerance, solve);
      solves += took;
      if (!solution.report.converged) return finish(solution, '');
      let changes = tubeChanges(extended, layout, states, steps, tolerance, solution);
      let next = together(states, steps, changes, seen);
      if (changes.length === 0) first ??= guessOf(states, steps);
      if (changes.length === 0 && !hold) {
        changes = spaceChanges(extended, layout, states, solution);
        next = singly(states, steps, changes, seen);
      }
      if (changes.length === 0 && !exact) {
        exact = true;
        continue;
      }
      if (changes.length === 0) {
        const message = settled ? '' : 'The water level at a tube that runs part-full does not settle.';
        return finish(solution, message);
      }
      next ??= singly(states, steps, changes, seen);
      if (next === null || seen.size >= MOST_SETS) {
        const off = Math.max(...changes.map((change) => change.size_m));
        const message =
          off <= TIE ? '' : `No set of part-full states agrees with itself; off by ${off.toPrecision(2)} m.`;
        return finish(solution, message);
      }
      seen.add(keyOf(next));
      states = next;
    }
  }

  /** Solves with the states fixed; steps are corrected in place. */
  function settle(states: AirStates, steps: Float64Array, tolerance: number, options: SolveOptions) {
    const faster = acceleration();
    withMouths ??= keepSolver(extended.description);
    for (let took = 1; ; took++) {
      const solution = withMouths(setStates(extended, layout, states, steps), options);
      if (!solution.report.converged) return { solution, took, settled: false };
      const gaps = new Float64Array(steps.length);
      let gap = 0;
      for (const [t, mouth] of extended.mouths.entries()) {
        if (mouth === null || states.filling[t] !== 'outfall') continue;
        const lack = mouthGap(extended, layout, t, mouth, solution);
        // a tube without water is about to change state: its step waits for the others
        if (!runsDry(layout, t, lack, tolerance, solution)) gaps[t] = Math.max(lack, -steps[t]!);
        gap = Math.max(gap, Math.abs(gaps[t]!));
      }
      if (gap <= tolerance) return { solution, took, settled: true };
      if (took >= MOST_CORRECTIONS) return { solution, took, settled: false };
      const next = faster.next(steps, gaps);
      for (let t = 0; t < steps.length; t++) steps[t] = gaps[t] === 0 ? steps[t]! : Math.max(0, next[t]!);
    }
  }

  function answer(
    { description: network, mouths }: ExtendedNetwork,
    states: AirStates,
    solution: NetworkSolution,
    search: { solves: number; first: AirGuess | null; message: string; steps?: Float64Array },
  ): AirSolution {
    const { solves, first, message, steps } = search;
    return {
      converged: message === '' && solution.report.converged,
      message: solution.report.message || message,
      solves,
      solution: trimSolution(solution, current),
      tubes: describeTubes(network, layout, mouths, states.filling, solution),
      spaces: describeSpaces(network, layout, mouths, states.open, solution),
      memory: { open: [...states.open], ...(steps ? { guess: guessOf(states, steps) } : {}) },
      first,
    };
  }

  return {
    get description() {
      return current;
    },
    layout,
    solve: (options = {}) => search(options),
    update(next) {
      current = close(next, layout);
      extended = extendNetwork(current, layout);
    },
  };
}

type Solver = (description: NetworkDescription, options: SolveOptions) => NetworkSolution;

/** Solver that keeps its analysis and starts from its last solution. */
function keepSolver(description: NetworkDescription): Solver {
  const prepared: PreparedNetwork = prepareNetwork(description);
  let last: NetworkSolution | undefined;
  return (next, options) => {
    if (next !== prepared.description) prepared.update(next);
    const solution = prepared.solve({ ...options, start: last });
    last = solution.report.converged ? solution : undefined;
    return solution;
  };
}

/** Marked tubes leave the system. */
function close(description: NetworkDescription, layout: AirLayout): NetworkDescription {
  if (!layout.tubes.some((tube) => tube.mark !== undefined)) return description;
  const links = [...description.links];
  for (const { link, mark } of layout.tubes)
    if (mark !== undefined && links[link]) links[link] = { ...links[link], closed: true };
  return { ...description, links };
}

/** The extended network in one set of states. */
function setStates(
  { description, mouths }: ExtendedNetwork,
  layout: AirLayout,
  states: AirStates,
  steps: Float64Array,
): NetworkDescription {
  const links = [...description.links];
  const set = (mouth: Mouth, t: number) => {
    const place = layout.tubes[t]!.link;
    const tube = links[place]!;
    const closed = tube.closed === true || states.filling[t] === 'unfilled';
    const step = states.filling[t] === 'outfall' ? steps[t]! : 0;
    links[place] = { ...tube, closed };
    links[mouth.step] = { ...links[mouth.step]!, closed, law: stepLaw(step, tube.law.bore_m) };
  };
  for (const [t, mouth] of mouths.entries()) if (mouth !== null) set(mouth, t);
  return { ...description, links };
}

function guessOf(states: AirStates, steps: Float64Array): AirGuess {
  return { open: [...states.open], filling: [...states.filling], steps: [...steps] };
}

function keyOf(states: AirStates): string {
  const bits = (list: readonly boolean[]) => list.map((bit) => (bit ? 1 : 0)).join('');
  return `${bits(states.open)}|${bits(states.unsweepable)}|${states.filling.map((filling) => filling[0]).join('')}`;
}

/** All changes at once, unless that was tried before. */
function together(
  states: AirStates,
  steps: Float64Array,
  changes: readonly Change[],
  seen: ReadonlySet<string>,
): AirStates | null {
  const next: AirStates = {
    open: [...states.open],
    unsweepable: [...states.unsweepable],
    filling: [...states.filling],
  };
  const trial = steps.slice();
  for (const change of changes) change.apply(next, trial);
  if (seen.has(keyOf(next))) return null;
  steps.set(trial);
  return next;
}

/** The first single change that was not tried before. */
function singly(
  states: AirStates,
  steps: Float64Array,
  changes: readonly Change[],
  seen: ReadonlySet<string>,
): AirStates | null {
  for (const change of changes) {
    const next = together(states, steps, [change], seen);
    if (next !== null) return next;
  }
  return null;
}
