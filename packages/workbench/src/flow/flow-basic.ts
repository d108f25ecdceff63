import type { SolveOptions } from '@sunlap/engine/hydraulics/network-types';
import type { Project } from '@sunlap/project/schema/project';
import { panelGeometry } from '../assembly/geometry';
import { type AssembledNetwork, assembleNetwork, type NetworkOptions } from '../assembly/network';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { inLineJoints } from '../build/in-line-joints';
import type { FlowAnswer, SolverReport } from '../results';
import { asItStands } from '../state/standing';
import { airLayout } from './air-layout';
import { createLoopSolver, type LoopSolution, type LoopSolver } from './solver';
import { flowValues } from './values';

export interface FlowOptions extends NetworkOptions {
  readonly tables?: Tables;
  /** Kept by the caller between solves of one changing project; a fresh one when absent. */
  readonly solver?: LoopSolver;
  readonly solve?: SolveOptions;
}

/** One solution of a project's water, with everything needed to read it. */
export interface SolvedFlow {
  readonly assembled: AssembledNetwork;
  readonly layout: ReturnType<typeof airLayout>;
  readonly solution: LoopSolution;
  readonly water_C: number;
  readonly speed: number;
}

/** Temperature of the loop's water where nothing else is said [°C]. */
export const ASSUMED_WATER_C = 26;

/** Assemble and solve once. */
export function solveFlow(project: Project, options: FlowOptions = {}): SolvedFlow {
  const tables = options.tables ?? STANDARD_TABLES;
  const water_C = options.water_C ?? ASSUMED_WATER_C;
  const speed = options.speed ?? project.loop.pump.speed;
  const geometry = panelGeometry(project.collector, tables.sizes);
  const inLine = options.inLine ?? inLineJoints(project, geometry);
  const assembled = assembleNetwork(project, tables, { ...options, inLine, water_C, speed }, geometry);
  const layout = airLayout(assembled, project);
  const solver = options.solver ?? createLoopSolver();
  return { assembled, layout, solution: solver.solve(assembled, layout, options.solve), water_C, speed };
}

/** How the solver ended, in the person's words. */
export function solverReport(solution: LoopSolution): SolverReport {
  const { report } = solution.network;
  const base = {
    converged: solution.converged,
    iterations: report.iterations,
    residual: report.residual,
  };
  if (solution.converged) return base;
  const at = report.worst === '' ? '' : ` It stuck at: ${report.worst}.`;
  return { ...base, worst: `${solution.message}${at}` };
}

/**
 * Flow in every part from one solution: no bands, no start-up, no loop curves. For every frame while the
 * person drags; the full study is `flow`.
 *
 * @example flowBasic(project, { solver }).result.collector.banks[0].tubes[0].flow_m3s
 */
export function flowBasic(given: Project, options: FlowOptions = {}): FlowAnswer {
  const project = asItStands(given);
  const solved = solveFlow(project, options);
  return {
    result: flowValues(project, solved.assembled, solved.solution, solved.water_C, solved.speed),
    solver: solverReport(solved.solution),
    band: {},
    notices: [],
    complete: false,
  };
}
