import { studyBreaker } from '@sunlap/engine/hydraulics/air-breaker';
import { prepareAir } from '@sunlap/engine/hydraulics/air-states';
import type { AirCause, AirLayout } from '@sunlap/engine/hydraulics/air-types';
import { studyStart } from '@sunlap/engine/hydraulics/start';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowValues, SectionStart } from '../results';
import type { SolvedFlow } from './flow-basic';

/** Share of the mean that every tube should carry to count as alive with all its water. */
const LEAST_SHARE = 0.25;
/**
 * Speeds looked at between 0 and the pump's fastest, and how exactly one is found over the fastest. Slow speeds
 * leave most tubes part-full and cost most: quarters find the same speeds as eighths with a third of the
 * solutions.
 */
const SPEEDS = 4;
const RESOLUTION = 0.01;

/** In the person's words, what keeps a section dry. */
const CAUSE_WORDS: Record<AirCause, string | null> = {
  none: null,
  openOutlet: 'the outlet lies open to the air, so the return cannot pull as a siphon',
  bleed: 'an open vent lets air in, so the return cannot pull as a siphon',
  vacuumBreaker: 'the vacuum breaker lets air in, so the return cannot pull as a siphon',
  trappedAir: 'air left in its return header is not lifted over the tubes',
  marked: 'its tubes are marked as blocked or air-bound',
};

export interface StartUp {
  readonly start: FlowValues['start'];
  readonly converged: boolean;
}

/**
 * From an empty collector: which sections fill at which pump speed, and how far the pump may be turned down
 * afterwards.
 */
export function startUp(project: Project, solved: SolvedFlow): StartUp {
  const mostSpeed = Math.max(1, project.loop.pump.speed);
  const air = prepareAir(solved.assembled.description, solved.layout);
  const report = studyStart(air, {
    pumps: [solved.assembled.pump.link],
    mostSpeed,
    share: LEAST_SHARE,
    speeds: SPEEDS,
    resolution: RESOLUTION,
  });
  const sections: SectionStart[] = report.paths.map((p) => ({
    section: p.path,
    aliveAt_m3s: p.aliveAtFlow_m3s,
    aliveAtSpeed: p.aliveAtSpeed,
    runsDownToSpeed: p.runsDownToSpeed,
    runsDownTo_m3s: p.runsDownToFlow_m3s,
    missingLift_m: p.missingLift_m,
    cause: CAUSE_WORDS[p.cause],
  }));
  return {
    start: {
      leastFlowAllTubes_m3s: report.leastFlowAllTubes_m3s,
      leastStartSpeed: report.leastStartSpeed,
      leastRunSpeed: report.leastRunSpeed,
      sections,
    },
    converged: report.converged,
  };
}

/** The space whose inlet is a vacuum breaker; −1 when none can act. */
export function breakerSpace(layout: AirLayout): number {
  return layout.spaces.findIndex((s) => s.inlet?.kind === 'vacuumBreaker');
}

/** One breaker lets air into all the headers that it serves at once: their spaces taken as one. */
function joinedSpaces(layout: AirLayout, space: number): { layout: AirLayout; place: number } {
  const inlet = layout.spaces[space].inlet;
  const served = layout.spaces.map((s) => s.inlet === inlet || s.inlet?.node === inlet?.node);
  return {
    layout: {
      spaces: layout.spaces,
      tubes: layout.tubes.map((t) => (t.space !== null && served[t.space] ? { ...t, space } : t)),
    },
    place: space,
  };
}

/** What is found of a vacuum breaker, and every link's flow with it held shut. */
export interface BreakerStudy {
  readonly breaker: FlowValues['vacuumBreaker'];
  readonly closedFlow_kgs: ArrayLike<number> | null;
}

/** Both states of the vacuum breaker, and the speed under which it opens; null when there is none. */
export function vacuumBreaker(project: Project, solved: SolvedFlow): BreakerStudy {
  const present = solved.assembled.taps.some((t) => t.purpose === 'vacuumBreaker');
  if (!present) return { breaker: null, closedFlow_kgs: null };
  const space = breakerSpace(solved.layout);
  if (space < 0) {
    const breaker = {
      state: 'none',
      margin_Pa: null,
      opensBelowSpeed: null,
      collectorFlowOpen_m3s: null,
      collectorFlowClosed_m3s: null,
    } as const;
    return { breaker, closedFlow_kgs: null };
  }
  const { layout, place } = joinedSpaces(solved.layout, space);
  const air = prepareAir(solved.assembled.description, layout);
  const mostSpeed = Math.max(1, project.loop.pump.speed);
  const report = studyBreaker(air, place, [solved.assembled.pump.link], mostSpeed);
  const density = solved.assembled.description.referenceDensity_kgm3;
  const through = (p: typeof report.open): number =>
    p.solution.solution.flow_kgs[solved.assembled.collectorLink] / density;
  const openNow = solved.solution.air?.spaces[space].open ?? !report.closed.holds;
  return {
    breaker: {
      state: openNow ? 'open' : 'closed',
      margin_Pa: report.margin_Pa,
      opensBelowSpeed: report.opensBelowSpeed,
      collectorFlowOpen_m3s: through(report.open),
      collectorFlowClosed_m3s: through(report.closed),
    },
    closedFlow_kgs: report.closed.solution.solution.flow_kgs,
  };
}
