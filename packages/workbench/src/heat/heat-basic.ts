import type { Project } from '@sunlap/project/schema/project';
import { type FlowOptions, solverReport } from '../flow/flow-basic';
import { flowValues } from '../flow/values';
import type { HeatAnswer, SolverReport } from '../results';
import { asItStands } from '../state/standing';
import { heatValues } from './heat-values';
import { heatWeather, type MomentOptions, resolveMoment } from './moment';
import { type HeatCache, type SolvedHeat, solveHeat } from './solve-heat';
import { poolPerSunnyDay_K } from './sunny-day';

export interface HeatStudyOptions extends Omit<FlowOptions, 'water_C' | 'density_kgm3' | 'viscosity_Pas'> {
  readonly cache?: HeatCache;
  /** False leaves out the sum over a sunny day. */
  readonly day?: boolean;
}

/**
 * Flow and heat of one moment, solved together once: no bands, no curves, no notices. For every frame while the
 * person drags; the full study is `heat`.
 *
 * @example heatBasic(project, { at: '2026-04-12T11:00' }, { cache }).result.heat_W
 */
export function heatBasic(given: Project, moment: MomentOptions, options: HeatStudyOptions = {}): HeatAnswer {
  const project = asItStands(given);
  const now = resolveMoment(project, moment);
  const weather = heatWeather(project, now);
  const { water_C } = now.moment;
  const solved = solveHeat(project, weather, water_C, options);
  const result = heatValues(project, now, weather, solved);
  if (options.day !== false)
    result.poolPerSunnyDay_K = poolPerSunnyDay_K(project, { ...moment, water_C }, solved);
  const { flow } = solved;
  return {
    result,
    solver: heatReport(solved),
    band: {},
    notices: [],
    complete: false,
    flow: {
      result: flowValues(project, flow.assembled, flow.solution, water_C, flow.speed),
      solver: solverReport(flow.solution),
      band: {},
      notices: [],
      complete: false,
    },
  };
}

/** How flow and heat ended together. */
export function heatReport(solved: SolvedHeat): SolverReport {
  const flow = solverReport(solved.flow.solution);
  if (!flow.converged) return flow;
  const report = {
    converged: solved.converged,
    iterations: solved.rounds,
    residual: Math.max(solved.panel.closure, solved.sway),
  };
  if (solved.converged) return report;
  const worst = solved.panel.converged
    ? 'Flow and heat do not settle together: nearly still water in the sun swings.'
    : 'The temperatures of the panel do not settle.';
  return { ...report, worst };
}
