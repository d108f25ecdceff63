import type { Project } from '@sunlap/project/schema/project';
import { solverReport } from '../flow/flow-basic';
import { sayIn } from '../flow/say';
import { type StartAnswer, startAnswer } from '../flow/start-answer';
import { flowValues } from '../flow/values';
import type { FlowAnswer } from '../results';
import { asItStands } from '../state/standing';
import type { HeatStudyOptions } from './heat-basic';
import { heatCosting } from './heat-costing';
import { heatWeather, type MomentOptions, resolveMoment } from './moment';
import { solveHeat } from './solve-heat';

/** Starting and the breaker, and the flows that they were studied at. */
export interface HeatStart extends StartAnswer {
  readonly flow: FlowAnswer;
}

/**
 * Starting from empty, turning down and the vacuum breaker at the temperatures of one moment: what `heat` says of
 * them when it is asked for all, by itself, for a face that shows the rest first.
 *
 * @example heatStart(project, { at: '2026-04-12T11:00' }).start.leastStartSpeed
 */
export function heatStart(given: Project, moment: MomentOptions, options: HeatStudyOptions = {}): HeatStart {
  const project = asItStands(given);
  const now = resolveMoment(project, moment);
  const { water_C } = now.moment;
  const solved = solveHeat(project, heatWeather(project, now), water_C, options);
  const { flow } = solved;
  const say = sayIn(project.units);
  const result = flowValues(project, flow.assembled, flow.solution, water_C, flow.speed);
  const costing = heatCosting(project, solved, water_C, say);
  return {
    ...startAnswer(project, flow, result, say, costing),
    flow: { result, solver: solverReport(flow.solution), band: {}, notices: [], complete: false },
  };
}
