import type { NetworkSolution, SolveOptions } from './network-types';

/**
 * Air in a network of water: what an assembly layer adds to a network description so that part-full states
 * can be found. Lists are by place, as in the network.
 */

/** A place where air can get in or out while water runs. */
export interface AirInlet {
  readonly kind: 'openOutlet' | 'bleed' | 'vacuumBreaker';
  /** place of the node in the network where it sits */
  readonly node: number;
  /** its own height over the pool's surface [m] */
  readonly elevation_m: number;
  /** it opens when gauge pressure falls under minus this [Pa], ≥ 0; 0 for an open hole */
  readonly openPressure_Pa: number;
}

/** The inside of a header (or a high point of a pipe) that may hold air; all tubes that end in it see it. */
export interface AirSpace {
  readonly id: string;
  /** null: no air can get in while water runs, and what is in from the start leaves only with the water */
  readonly inlet: AirInlet | null;
  /**
   * The pipe by which water leaves: it sweeps air out when it is fast enough. Angle of its fall from `from` to
   * `to` under the horizontal, > 0 falls [°]. Null: nothing is known to sweep it.
   */
  readonly downLeg: { readonly link: number; readonly angle_deg: number } | null;
}

/** A tube (or a pipe over a high point) that discharges into such a space. */
export interface AirTube {
  /** place of its link */
  readonly link: number;
  /** end at which water leaves */
  readonly discharge: 'from' | 'to';
  /** highest point of the water's way through it: crown of the bore at the discharge, or a hump before it [m] */
  readonly crown_m: number;
  /** place of its space; null where no part of it can hold air */
  readonly space: number | null;
  /** name of the path it belongs to, e.g. a section */
  readonly path: string;
  /** known not to flow */
  readonly mark?: 'blocked' | 'airBound';
}

export interface AirLayout {
  readonly tubes: readonly AirTube[];
  readonly spaces: readonly AirSpace[];
}

/**
 * `full`: water to the crown. `outfall`: water runs out over the crown into air. `unfilled`: the head before it
 * does not reach its crown. `airBound`: the same, with air that has no way out. `blocked`: shut.
 */
export type TubeState = 'full' | 'outfall' | 'unfilled' | 'airBound' | 'blocked';

/** Why a tube is not full. */
export type AirCause = 'none' | 'openOutlet' | 'bleed' | 'vacuumBreaker' | 'trappedAir' | 'marked';

export interface AirTubeResult {
  readonly state: TubeState;
  readonly cause: AirCause;
  /** gauge pressure of the water under the crown at the discharge [Pa]; 0 in an outfall, null without water */
  readonly mouthPressure_Pa: number | null;
  /** head that the water before an unfilled or air-bound tube lacks to its crown [m]; 0 otherwise */
  readonly missingLift_m: number;
}

export interface AirSpaceResult {
  readonly id: string;
  /** true: it holds air */
  readonly open: boolean;
  /**
   * Gauge pressure at the inlet [Pa]; null without one. While the space is open: what a full down-leg would
   * have there, negative as long as it cannot fill again.
   */
  readonly inletPressure_Pa: number | null;
  /** how far that is from opening (space closed) or from closing (space open) [Pa], ≥ 0; null without an inlet */
  readonly margin_Pa: number | null;
}

/** What is remembered from one moment to the next. */
export interface AirMemory {
  /** which spaces hold air: this decides what comes next */
  readonly open: readonly boolean[];
  /** how its tubes ran: a place for the search to start from, which only saves time */
  readonly guess?: AirGuess;
}

/** How tubes ran while certain spaces held air. */
export interface AirGuess {
  readonly open: readonly boolean[];
  readonly filling: readonly ('full' | 'outfall' | 'unfilled')[];
  /** head steps at the mouths [m] */
  readonly steps: readonly number[];
}

export interface AirOptions {
  readonly solve?: SolveOptions;
  /** 'full' (running, the default), 'empty' (starting: every space holds air), or what was before */
  readonly before?: 'full' | 'empty' | AirMemory;
  /** where to start the search, e.g. `first` of a solution at a neighbouring speed; it only saves time */
  readonly guess?: AirGuess;
  /** true: spaces stay as `before` says, whatever the pressure; for showing both states of a vacuum breaker */
  readonly hold?: boolean;
}

export interface AirSolution {
  /** false: no consistent set of states was found, or the network did not converge; `message` says which */
  readonly converged: boolean;
  readonly message: string;
  /** number of network solutions it took */
  readonly solves: number;
  /** of the network as described, without the aids of the search */
  readonly solution: NetworkSolution;
  /** in the order of the layout's tubes */
  readonly tubes: readonly AirTubeResult[];
  readonly spaces: readonly AirSpaceResult[];
  readonly memory: AirMemory;
  /** how the tubes ran before the first space opened or filled; null when no space held air */
  readonly first: AirGuess | null;
}
