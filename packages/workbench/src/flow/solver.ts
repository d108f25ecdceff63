import { inletPressure, relievedPressures } from '@sunlap/engine/hydraulics/air-pressure';
import { type PreparedAir, prepareAir } from '@sunlap/engine/hydraulics/air-states';
import type { AirLayout, AirOptions, AirSolution } from '@sunlap/engine/hydraulics/air-types';
import { airClearing } from '@sunlap/engine/hydraulics/clearing';
import { prepareNetwork } from '@sunlap/engine/hydraulics/network';
import type {
  NetworkDescription,
  NetworkSolution,
  PreparedNetwork,
  SolveOptions,
} from '@sunlap/engine/hydraulics/network-types';
import { GRAVITY_MS2 } from '@sunlap/engine/numeric/constants';
import type { AssembledNetwork } from '../assembly/network';
import type { LoopAir } from './air-layout';

/** Flows and heads of the loop, with part-full states where air can get in. */
export interface LoopSolution {
  /** Pressures with air let in where it enters. */
  readonly network: NetworkSolution;
  readonly air: AirSolution | null;
  /** Links of the air solution's tubes, in its order. */
  readonly airTubes: readonly number[];
  readonly converged: boolean;
  readonly message: string;
}

/** Keeps what was analysed from one solve to the next, as long as the layout stays. */
export interface LoopSolver {
  solve(assembled: AssembledNetwork, layout: LoopAir, options?: SolveOptions, air?: AirOptions): LoopSolution;
}

/** Rounds of correction for typed suction shares; each brings about two digits. */
const SHARE_ROUNDS = 12;
const SHARE_TOLERANCE = 1e-7;
/** Less than this in every tube is still water [kg/s]. */
const STILL_KGS = 1e-9;

/**
 * A solver that remembers: factorisations of the layout, the last solution to start from, throttles that held
 * the typed shares. One for each place that changes by itself, e.g. one for the panel being dragged.
 */
export function createLoopSolver(): LoopSolver {
  let plain: PreparedNetwork | null = null;
  let plainStart: NetworkSolution | undefined;
  let air: { prepared: PreparedAir; layout: AirLayout } | null = null;

  function solvePlain(description: NetworkDescription, options: SolveOptions): NetworkSolution {
    if (plain === null) plain = prepareNetwork(description);
    else if (!plain.update(description)) plainStart = undefined;
    const start = options.start ?? plainStart;
    let solution = plain.solve({ ...options, start });
    // an old solution can be a bad place to start from after a large change
    if (!solution.report.converged && start) solution = plain.solve({ ...options, start: undefined });
    plainStart = solution.report.converged ? solution : undefined;
    return solution;
  }

  function solveOnce(
    description: NetworkDescription,
    given: LoopAir,
    options: SolveOptions,
    airOptions: AirOptions | undefined,
  ): LoopSolution {
    let full: NetworkSolution | null = null;
    let layout: AirLayout = given;
    if (airOptions === undefined) {
      full = solvePlain(description, options);
      const { converged, message } = full.report;
      layout = withClimbing(description, given, full);
      if (!converged || !airEnters(description, layout, full)) {
        return { network: full, air: null, airTubes: [], converged, message };
      }
    }
    if (
      air === null ||
      !sameLayout(air.layout, layout) ||
      air.prepared.description.links.length !== description.links.length
    ) {
      air = { prepared: prepareAir(description, layout), layout };
    } else {
      air.prepared.update(description);
    }
    const solved = air.prepared.solve({ ...airOptions, solve: options });
    // states that do not settle say nothing about flows: the loop taken as full is the better picture
    if (!solved.converged && full) {
      return { network: full, air: null, airTubes: [], converged: false, message: solved.message };
    }
    return {
      // below open air a down-leg counted as full would stand under suction that the air has relieved
      network: relievedPressures(description, layout, solved),
      air: solved,
      airTubes: layout.tubes.map((t) => t.link),
      converged: solved.converged,
      message: solved.message,
    };
  }

  return {
    solve(assembled, layout, options = {}, airOptions) {
      let description = assembled.description;
      let found = solveOnce(description, layout, options, airOptions);
      if (!assembled.throttled) return found;
      const throttle = assembled.suctions.map(() => 0);
      for (let round = 0; round < SHARE_ROUNDS && found.converged; round++) {
        if (!balance(assembled, found.network, throttle)) return found;
        description = throttled(assembled, throttle);
        found = solveOnce(description, layout, options, airOptions);
      }
      return found;
    },
  };
}

/** Air climbs a return with a mouth in the air when water, were it full, would leave too slowly to hold it back. */
function withClimbing(description: NetworkDescription, layout: LoopAir, full: NetworkSolution): AirLayout {
  if (!layout.climbing.some((inlet) => inlet !== null)) return layout;
  const spaces = layout.spaces.map((space, s) => {
    const inlet = layout.climbing[s];
    const leg = space.downLeg;
    if (!inlet || !leg) return space;
    const bore = description.links[leg.link].law.bore_m;
    const { grade } = airClearing(full.velocity_ms[leg.link], bore, leg.angle_deg);
    return grade === 'holds' ? { ...space, inlet } : space;
  });
  return { tubes: layout.tubes, spaces };
}

/** Would any place that lets air in do so, were everything full? Still water is left as it stands. */
function airEnters(description: NetworkDescription, layout: AirLayout, full: NetworkSolution): boolean {
  const most = layout.tubes.reduce((m, t) => Math.max(m, Math.abs(full.flow_kgs[t.link])), 0);
  if (!(most > STILL_KGS)) return false;
  return layout.spaces.some(
    ({ inlet }) => inlet !== null && inletPressure(description, inlet, full, []) < -inlet.openPressure_Pa,
  );
}

/**
 * Throttles that would bring each suction to its share: the hardest way gets none, every other takes the
 * difference. Untyped suctions share what is left as they would by themselves.
 *
 * @returns false when all shares are met already
 */
function balance(assembled: AssembledNetwork, solution: NetworkSolution, throttle: number[]): boolean {
  const { description, suctions, shares } = assembled;
  const flow = suctions.map((s) => solution.flow_kgs[s.throttle] / description.referenceDensity_kgm3);
  const total = flow.reduce((a, b) => a + Math.max(0, b), 0);
  if (!(total > 1e-9)) return false;
  const typed = shares.reduce<number>((sum, s) => sum + (s ?? 0), 0);
  const free = shares.reduce<number>((sum, s, i) => sum + (s === undefined ? Math.max(0, flow[i]) : 0), 0);
  const scale = typed > 1 || (typed > 0 && free === 0) ? 1 / typed : 1;
  const left = Math.max(0, 1 - typed * scale);
  const target = shares.map((s, i) => {
    const share = s === undefined ? (free > 0 ? (left * Math.max(0, flow[i])) / free : 0) : s * scale;
    return share * total;
  });
  const off = Math.max(...target.map((t, i) => Math.abs(t - flow[i])));
  if (off <= SHARE_TOLERANCE * total) return false;
  const weight = description.referenceDensity_kgm3 * GRAVITY_MS2;
  const resistance = suctions.map((s, i) => {
    const loss = solution.head_m[s.mouthNode] - solution.head_m[description.links[s.throttle].from];
    return flow[i] > 1e-9 ? Math.max(0, (weight * loss) / flow[i] ** 2) : 0;
  });
  const hardest = Math.max(...target.map((t, i) => resistance[i] * t * t));
  for (let i = 0; i < throttle.length; i++) {
    throttle[i] = target[i] > 1e-9 ? Math.max(0, hardest / target[i] ** 2 - resistance[i]) : 0;
  }
  return true;
}

function throttled(assembled: AssembledNetwork, throttle: readonly number[]): NetworkDescription {
  const links = [...assembled.description.links];
  assembled.suctions.forEach((s, i) => {
    const link = links[s.throttle];
    const law = {
      kind: 'device',
      bore_m: link.law.bore_m,
      ratedLoss_Pa: throttle[i] * 1e-6,
      ratedFlow_m3s: 1e-3,
    } as const;
    links[s.throttle] = { ...link, law };
  });
  return { ...assembled.description, links };
}

function sameLayout(a: AirLayout, b: AirLayout): boolean {
  if (a.tubes.length !== b.tubes.length || a.spaces.length !== b.spaces.length) return false;
  for (let i = 0; i < a.tubes.length; i++) {
    const [x, y] = [a.tubes[i], b.tubes[i]];
    if (x.link !== y.link || x.crown_m !== y.crown_m || x.space !== y.space || x.mark !== y.mark)
      return false;
  }
  return a.spaces.every((x, i) => {
    const y = b.spaces[i];
    return (
      x.downLeg?.link === y.downLeg?.link &&
      x.downLeg?.angle_deg === y.downLeg?.angle_deg &&
      x.inlet?.node === y.inlet?.node &&
      x.inlet?.elevation_m === y.inlet?.elevation_m &&
      x.inlet?.openPressure_Pa === y.inlet?.openPressure_Pa
    );
  });
}
