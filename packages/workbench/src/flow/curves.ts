import type { Project } from '@sunlap/project/schema/project';
import type { CurvePoint } from '../results';
import { type FlowOptions, solveFlow } from './flow-basic';
import { createLoopSolver } from './solver';

/** Speeds at which a loop's curve is found, over the pump's own. */
const SPEEDS = [0.25, 0.5, 0.75, 1, 1.15];

/**
 * Head the loop asks for by flow: what the pump gives at several speeds is what the loop takes.
 *
 * @param toCollector 1 all through the collector, 0 all past it; as the valves stand when absent
 * @returns from the least to the largest flow; empty when nothing can flow
 */
export function loopCurve(project: Project, options: FlowOptions, toCollector?: 0 | 1): CurvePoint[] {
  const solver = createLoopSolver();
  const points: CurvePoint[] = [];
  for (const share of SPEEDS) {
    const speed = share * Math.max(project.loop.pump.speed, 0.1);
    const solved = solveFlow(project, { ...options, solver, speed, toCollector });
    const { network, converged } = solved.solution;
    const { pump, description } = solved.assembled;
    if (!converged) continue;
    const flow_m3s = network.flow_kgs[pump.link] / description.referenceDensity_kgm3;
    if (!(flow_m3s > 1e-9)) continue;
    points.push({ flow_m3s, head_m: network.head_m[pump.toNode] - network.head_m[pump.fromNode] });
  }
  return points.sort((a, b) => a.flow_m3s - b.flow_m3s);
}
