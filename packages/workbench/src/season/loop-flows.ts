import { waterDensity, waterViscosity } from '@sunlap/engine/fluids/water';
import type { TeeSet } from '@sunlap/engine/hydraulics/network-types';
import { pumpPower } from '@sunlap/engine/hydraulics/pump';
import { GRAVITY_MS2 } from '@sunlap/engine/numeric/constants';
import type { Project } from '@sunlap/project/schema/project';
import type { AssembledNetwork } from '../assembly/network';
import { type SolvedFlow, solveFlow } from '../flow/flow-basic';
import { createLoopSolver, type LoopSolver } from '../flow/solver';
import { type FlowNode, flowTable } from './flow-table';

/** Water temperatures at which the loop is solved first, and the middles at which that is looked at [°C]. */
const NODES_C = [6, 20, 36] as const;
const MIDDLES_C = [13, 28] as const;
/** Relative tolerance of flows that are foretold first: what is left over is several times less [–]. */
const NEAR = 1e-5;
/** Less than this through the collector is none [kg/s]. */
const LEAST_KGS = 1e-5;

/** Flows of the loop by water temperature, and what the pump draws. */
export interface LoopFlows {
  readonly assembled: AssembledNetwork;
  /** Flow of every link at a temperature of the water [kg/s]. */
  readonly at: (water_C: number) => ArrayLike<number>;
  /** Through the collector at 20 °C [kg/s]. */
  readonly collector_kgs: number;
  readonly powerThrough_W: number;
  readonly powerPast_W: number;
  readonly converged: boolean;
  /** The valve of the file sends nothing to the collector: it is opened for the season. */
  readonly opened: boolean;
  /** The same tubes carry water at every temperature, so that flows may be interpolated. */
  readonly sameTubes: boolean;
  /** False where flow turns from laminar between 6 and 36 °C, so that more than five nodes are needed. */
  readonly smooth: boolean;
  /** Temperatures between which flows are foretold by now. */
  readonly nodes: () => number;
}

/**
 * The loop solved at three temperatures of the water, with all links at that temperature, and once with the
 * water sent past the collector. At any other it is solved when first asked for, from what a table with nodes where
 * flows bend foretells (see `flowTable`): within 0.001 % of the network solved again, each tube (held by a test).
 * Where other tubes carry water at another temperature (air), the middle solution stands.
 *
 * @param past_W pump power with the water sent past, where it is known: no panel changes that
 */
export function loopFlows(
  project: Project,
  tees?: TeeSet,
  solver: LoopSolver = createLoopSolver(),
  pastSolver: LoopSolver = createLoopSolver(),
  past_W?: number,
): LoopFlows {
  const solve = tees ? { solve: { tees } } : {};
  const first = solveFlow(project, { ...solve, solver, water_C: NODES_C[1] });
  const carried = (s: SolvedFlow): number => s.solution.network.flow_kgs[s.assembled.collectorLink] ?? 0;
  const opened = !(carried(first) > LEAST_KGS) && project.loop.bypass.kind !== 'none';
  const through = opened ? { toCollector: 1 as const } : {};
  const middle = opened ? solveFlow(project, { ...solve, ...through, solver, water_C: NODES_C[1] }) : first;
  const solved = NODES_C.map((water_C, k) =>
    k === 1 ? middle : atTemperature(middle, water_C, solver, tees, nodeOf(middle)),
  );
  const flows = solved.map((s) => s.solution.network.flow_kgs);
  const sameTubes =
    solved.every((s) => s.solution.converged) &&
    flows.every((f) => f.every((m, i) => (m === 0) === (flows[1][i] === 0)));
  const powerPast = (): number =>
    power_W(
      project.loop.bypass.kind === 'none'
        ? middle
        : solveFlow(project, { ...solve, toCollector: 0, solver: pastSolver, water_C: NODES_C[1] }),
    );
  const tubes = middle.assembled.banks.flatMap((bank) => bank?.units ?? []);
  const table = sameTubes
    ? flowTable(
        [nodeOf(solved[0]), nodeOf(middle), nodeOf(solved[2])],
        (water_C, start) => {
          const s = atTemperature(middle, water_C, solver, tees, start, NEAR);
          const full = nodeOf(s);
          const same = full.flow_kgs.every((m, i) => (m === 0) === (flows[1][i] === 0));
          return s.solution.converged && same ? full : null;
        },
        middle.assembled.collectorLink,
        tubes,
      )
    : null;
  for (const t of MIDDLES_C) table?.near(t);
  const smooth = table !== null && !table.kinked();
  return {
    assembled: middle.assembled,
    at: (water_C) => (table ? table.at(water_C) : flows[1]),
    smooth,
    nodes: () => table?.nodes() ?? 1,
    collector_kgs: middle.solution.converged ? carried(middle) : 0,
    powerThrough_W: power_W(middle),
    powerPast_W: past_W ?? powerPast(),
    converged: middle.solution.converged,
    opened,
    sameTubes,
  };
}

function nodeOf({ water_C, solution: { network } }: SolvedFlow): FlowNode {
  return { water_C, flow_kgs: network.flow_kgs, head_m: network.head_m };
}

/** The same loop with all its water at another temperature. */
function atTemperature(
  solved: SolvedFlow,
  water_C: number,
  solver: LoopSolver,
  tees?: TeeSet,
  start?: FlowNode,
  tolerance?: number,
): SolvedFlow {
  const description = {
    ...solved.assembled.description,
    referenceDensity_kgm3: waterDensity(water_C),
    viscosity_Pas: waterViscosity(water_C),
  };
  const assembled = { ...solved.assembled, description };
  const options = {
    ...(tees ? { tees } : {}),
    ...(start ? { start } : {}),
    ...(tolerance ? { tolerance } : {}),
  };
  const solution = solver.solve(assembled, solved.layout, options);
  return { ...solved, assembled, solution, water_C };
}

function power_W(s: SolvedFlow): number {
  const { pump, description } = s.assembled;
  const { network } = s.solution;
  const flow = network.flow_kgs[pump.link] / description.referenceDensity_kgm3;
  const head = network.head_m[pump.toNode] - network.head_m[pump.fromNode];
  return pumpPower(
    pump.power,
    pump.driveLoad_W,
    s.speed,
    Math.max(0, flow),
    Math.max(0, head),
    description.referenceDensity_kgm3,
    GRAVITY_MS2,
  );
}
