import { waterDensity, waterViscosity } from '@sunlap/engine/fluids/water';
import type { TeeSet } from '@sunlap/engine/hydraulics/network-types';
import { pumpPower } from '@sunlap/engine/hydraulics/pump';
import { GRAVITY_MS2 } from '@sunlap/engine/numeric/constants';
import type { Project } from '@sunlap/project/schema/project';
import type { AssembledNetwork } from '../assembly/network';
import { type SolvedFlow, solveFlow } from '../flow/flow-basic';
import { createLoopSolver, type LoopSolver } from '../flow/solver';

/** Water temperatures at which the loop is solved, and at which the parabola through them is checked [°C]. */
const NODES_C = [6, 20, 36] as const;
const CHECKS_C = [13, 28] as const;
/** Off by more than this at a check, flows are no parabola: total, and mean over the links of the tubes [–]. */
const TOTAL_OFF = 4e-4;
const TUBES_OFF = 2e-3;
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
  /** False where flow turns from laminar within the year: `at` then solves the loop again and remembers. */
  readonly smooth: boolean;
}

/**
 * The loop solved at three temperatures of the water, with all links at that temperature, and once with the
 * water sent past the collector. Between them every link's flow is a parabola in ln ν, checked at two more
 * temperatures: the flow of a pumped loop moves by a few per cent over 6…36 °C. Where tubes turn from laminar to
 * turbulent in that span the parabola fails the check; `at` then solves the loop at every temperature it is asked
 * for, once. Totals are within 0.1 % of the network solved again (held by a test). Where other tubes carry water
 * at another temperature (air), the middle solution stands.
 */
export function loopFlows(
  project: Project,
  tees?: TeeSet,
  solver: LoopSolver = createLoopSolver(),
  pastSolver: LoopSolver = createLoopSolver(),
): LoopFlows {
  const solve = tees ? { solve: { tees } } : {};
  const first = solveFlow(project, { ...solve, solver, water_C: NODES_C[1] });
  const carried = (s: SolvedFlow): number => s.solution.network.flow_kgs[s.assembled.collectorLink] ?? 0;
  const opened = !(carried(first) > LEAST_KGS) && project.loop.bypass.kind !== 'none';
  const through = opened ? { toCollector: 1 as const } : {};
  const middle = opened ? solveFlow(project, { ...solve, ...through, solver, water_C: NODES_C[1] }) : first;
  const solved = NODES_C.map((water_C, k) =>
    k === 1 ? middle : atTemperature(middle, water_C, solver, tees),
  );
  const flows = solved.map((s) => s.solution.network.flow_kgs);
  const sameTubes =
    solved.every((s) => s.solution.converged) &&
    flows.every((f) => f.every((m, i) => (m === 0) === (flows[1][i] === 0)));
  const x = NODES_C.map((t) => Math.log(waterViscosity(t)));
  const past =
    project.loop.bypass.kind === 'none'
      ? middle
      : solveFlow(project, { ...solve, toCollector: 0, solver: pastSolver, water_C: NODES_C[1] });
  const parabola = (water_C: number): Float64Array => {
    const u = Math.log(waterViscosity(Math.min(60, Math.max(0, water_C))));
    const [a, b, c] = [0, 1, 2].map((k) => {
      const [p, q] = [(k + 1) % 3, (k + 2) % 3];
      return ((u - x[p]) * (u - x[q])) / ((x[k] - x[p]) * (x[k] - x[q]));
    });
    return Float64Array.from(flows[1], (m, i) => a * flows[0][i] + b * m + c * flows[2][i]);
  };
  const tubes = middle.assembled.banks.flatMap((bank) => bank?.units ?? []);
  const again = (water_C: number, by: LoopSolver): Float64Array => {
    const s = atTemperature(middle, water_C, by, tees);
    return s.solution.converged ? s.solution.network.flow_kgs : parabola(water_C);
  };
  const smooth =
    sameTubes &&
    CHECKS_C.every((t) => {
      const [guess, full] = [parabola(t), again(t, solver)];
      const whole = middle.assembled.collectorLink;
      let off = 0;
      let size = 0;
      for (const link of tubes) {
        off += Math.abs(guess[link] - full[link]);
        size += Math.abs(full[link]);
      }
      return Math.abs(guess[whole] / full[whole] - 1) <= TOTAL_OFF && off <= TUBES_OFF * size;
    });
  const met = new Map<number, Float64Array>();
  const remembered = (water_C: number): Float64Array => {
    const t = Math.min(60, Math.max(0.5, water_C));
    const found = met.get(t) ?? again(t, solver);
    met.set(t, found);
    return found;
  };
  return {
    assembled: middle.assembled,
    at: (water_C) => (!sameTubes ? flows[1] : smooth ? parabola(water_C) : remembered(water_C)),
    smooth,
    collector_kgs: middle.solution.converged ? carried(middle) : 0,
    powerThrough_W: power_W(middle),
    powerPast_W: power_W(past),
    converged: middle.solution.converged,
    opened,
    sameTubes,
  };
}

/** The same loop with all its water at another temperature. */
function atTemperature(solved: SolvedFlow, water_C: number, solver: LoopSolver, tees?: TeeSet): SolvedFlow {
  const description = {
    ...solved.assembled.description,
    referenceDensity_kgm3: waterDensity(water_C),
    viscosity_Pas: waterViscosity(water_C),
  };
  const assembled = { ...solved.assembled, description };
  const solution = solver.solve(assembled, solved.layout, tees ? { tees } : {});
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
