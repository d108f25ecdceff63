import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowValues } from '../results';
import type { Costing } from './costing';
import type { SolvedFlow } from './flow-basic';
import { collectorShut } from './notices-loop';
import { breakerNotices, startNotices } from './notices-start';
import type { Say } from './say';
import { startUp, vacuumBreaker } from './start-up';

/** What takes longest of the flow study: starting from empty, turning down, the vacuum breaker. */
export interface StartAnswer {
  start: FlowValues['start'];
  vacuumBreaker: FlowValues['vacuumBreaker'];
  notices: Notice[];
}

/** Before anything is known of starting. */
export const NO_START: FlowValues['start'] = {
  leastFlowAllTubes_m3s: null,
  leastStartSpeed: null,
  leastRunSpeed: null,
  sections: [],
};

export interface StartParts {
  readonly startUp: boolean;
  readonly breaker: boolean;
}

/** Study starting and the breaker of a solution at hand; nothing where the pump stands or flows do not settle. */
export function startAnswer(
  project: Project,
  solved: SolvedFlow,
  values: FlowValues,
  say: Say,
  costing: Costing,
  parts: StartParts = { startUp: true, breaker: true },
): StartAnswer {
  // past a shut valve nothing fills at any speed, and what cannot run cannot start
  const runs = solved.solution.converged && solved.speed > 0 && values.attainable && !collectorShut(solved);
  const start = runs && parts.startUp ? startUp(project, solved).start : NO_START;
  const study =
    runs && parts.breaker ? vacuumBreaker(project, solved) : { breaker: null, closedFlow_kgs: null };
  return {
    start,
    vacuumBreaker: study.breaker,
    notices: [
      ...(project.loop.pump.speed > 0
        ? startNotices(project, start, values.collector.sections, say, costing)
        : []),
      ...breakerNotices(solved, study, say, costing),
    ],
  };
}

/** The rest of a flow study with what this one found. */
export function withStart(values: FlowValues, found: StartAnswer): FlowValues {
  return { ...values, start: found.start, vacuumBreaker: found.vacuumBreaker };
}
