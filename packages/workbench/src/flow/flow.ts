import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import { structureNotices } from '../check/structure';
import { withMends } from '../mending/tried';
import type { FlowAnswer } from '../results';
import { asItStands } from '../state/standing';
import { flowBand } from './band';
import { type Costing, flowCosting } from './costing';
import { loopCurve } from './curves';
import { type FlowOptions, type SolvedFlow, solveFlow, solverReport } from './flow-basic';
import { loopNotices, unattainableNotices } from './notices-loop';
import { studyNotices } from './notices-study';
import { tubeNotices } from './notices-tubes';
import { sayIn } from './say';
import { createLoopSolver } from './solver';
import { startAnswer, withStart } from './start-answer';
import { flowValues } from './values';

export interface FlowStudyOptions extends FlowOptions {
  /** False leaves out the study of starting from empty, which takes longest. */
  readonly startUp?: boolean;
  /** False leaves out the study of the vacuum breaker. */
  readonly breaker?: boolean;
  /** What findings cost; as a share of the flow when absent. */
  readonly costing?: Costing;
}

/**
 * The full flow study of a project: flows, heads and pressures everywhere, bands over tee sets and friction
 * laws, loop curves, starting and turning down, vacuum breaker, and what the person should know about it.
 *
 * @example flow(project).result.collector.banks[0].leastOverMean
 */
export function flow(given: Project, options: FlowStudyOptions = {}): FlowAnswer {
  const project = asItStands(given);
  const solver = options.solver ?? createLoopSolver();
  const solved = solveFlow(project, { ...options, solver, solve: { twoStarts: true, ...options.solve } });
  return studyFlow(project, solved, { ...options, solver });
}

/** The study of a solution that is at hand, at whatever temperatures it was found. */
export function studyFlow(project: Project, solved: SolvedFlow, options: FlowStudyOptions = {}): FlowAnswer {
  const tables = options.tables ?? STANDARD_TABLES;
  const solver = options.solver ?? createLoopSolver();
  const values = flowValues(project, solved.assembled, solved.solution, solved.water_C, solved.speed);
  const band = flowBand(project, solved, solver, values);
  values.loop.curveNow = loopCurve(project, options);
  if (project.loop.bypass.kind === 'none') {
    values.loop.curveThrough = values.loop.curveNow;
  } else {
    values.loop.curveThrough = loopCurve(project, options, 1);
    values.loop.curvePast = loopCurve(project, options, 0);
  }
  const say = sayIn(project.units);
  const costing = options.costing ?? flowCosting(project, solved, values);
  const parts = { startUp: options.startUp !== false, breaker: options.breaker !== false };
  const found = startAnswer(project, solved, values, say, costing, parts);
  const notices: Notice[] = [
    ...unattainableNotices(solved, values),
    ...structureNotices(project, tables, say),
    ...(values.attainable ? tubeNotices(project, solved, values, say, costing) : []),
    ...loopNotices(project, solved, values, tables, say, costing),
    ...found.notices,
    ...studyNotices(solved, values, band, say),
  ];
  const complete = options.startUp !== false;
  return {
    result: withStart(values, found),
    solver: solverReport(solved.solution),
    band: band.intervals,
    notices: rankNotices(complete ? withMends(project, solved, notices, tables) : notices),
    complete,
  };
}
