import { DEFAULT_HEAT_OPTIONS, type HeatOptions } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import type { PanelSolution } from '@sunlap/engine/collector/panel-types';
import { waterDensity, waterViscosity } from '@sunlap/engine/fluids/water';
import type { Project } from '@sunlap/project/schema/project';
import { type HeatConditions, type HeatWeather, heatConditions } from '../assembly/heat-conditions';
import { type HeatLayout, heatLayout } from '../assembly/heat-layout';
import type { AssembledNetwork } from '../assembly/network';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { type FlowOptions, type SolvedFlow, solveFlow } from '../flow/flow-basic';
import { createLoopSolver, type LoopSolver } from '../flow/solver';

/** Rounds of flow and heat in turn; two or three are usual. */
const MOST_ROUNDS = 14;
/** Rounds after which new densities are only half taken: still water in the sun can swing. */
const STEADY_ROUNDS = 4;
/** Change of any flow over the largest, and of heat over itself, at which the two agree. */
const SETTLED = 1e-6;

/** Keeps the layout of heat and the solver of flow while only numbers change. */
export interface HeatCache {
  readonly solver: LoopSolver;
  layout: HeatLayout | null;
  collector: Project['collector'] | null;
  loop: Project['loop'] | null;
}

export function createHeatCache(solver: LoopSolver = createLoopSolver()): HeatCache {
  return { solver, layout: null, collector: null, loop: null };
}

/** Flow and heat that agree with each other. */
export interface SolvedHeat {
  readonly flow: SolvedFlow;
  readonly layout: HeatLayout;
  readonly conditions: HeatConditions;
  readonly panel: PanelSolution;
  /** Mass flow of each element of the heat layout [kg/s]. */
  readonly elementFlow_kgs: Float64Array;
  readonly converged: boolean;
  readonly rounds: number;
}

export interface SolveHeatOptions extends FlowOptions {
  readonly cache?: HeatCache;
  readonly light?: HeatOptions;
}

/**
 * Solve flow and heat in turn until neither changes: temperatures give each link its viscosity and density,
 * which move the flow, which moves the temperatures.
 */
export function solveHeat(
  project: Project,
  weather: HeatWeather,
  water_C: number,
  options: SolveHeatOptions = {},
): SolvedHeat {
  const tables = options.tables ?? STANDARD_TABLES;
  const cache = options.cache ?? createHeatCache(options.solver);
  const light = options.light ?? DEFAULT_HEAT_OPTIONS;
  let flow = solveFlow(project, { ...options, solver: cache.solver, water_C });
  const layout = layoutFor(project, flow.assembled, tables, cache);
  const conditions = heatConditions(project, flow.assembled, layout, weather, light);
  const links = flow.assembled.description.links.length;
  const density = new Float64Array(links).fill(waterDensity(liquid(water_C)));
  const viscosity = new Float64Array(links).fill(waterViscosity(liquid(water_C)));
  let panel: PanelSolution | null = null;
  let elementFlow = elementFlows(layout, flow);
  let settled = false;
  let rounds = 0;
  while (!settled && rounds < MOST_ROUNDS) {
    rounds++;
    const next = solvePanel(layout.panel, elementFlow, water_C, conditions.panel, {
      laminarGain: light.laminarGain,
    });
    const heatSettled =
      panel !== null && Math.abs(next.heat_W - panel.heat_W) <= SETTLED * Math.max(1, Math.abs(next.heat_W));
    panel = next;
    const share = rounds > STEADY_ROUNDS ? 0.5 : 1;
    for (let e = 0; e < layout.links.length; e++) {
      const t = liquid(next.elementMean_C[e]);
      const l = layout.links[e];
      density[l] += share * (waterDensity(t) - density[l]);
      viscosity[l] += share * (waterViscosity(t) - viscosity[l]);
    }
    const assembled = withTemperatures(flow.assembled, density, viscosity);
    const solution = cache.solver.solve(assembled, flow.layout, options.solve);
    const before = elementFlow;
    flow = { ...flow, assembled, solution };
    elementFlow = elementFlows(layout, flow);
    settled = (heatSettled || rounds === 1) && sameFlows(before, elementFlow);
  }
  return {
    flow,
    layout,
    conditions,
    panel: panel!,
    elementFlow_kgs: elementFlow,
    converged: settled && flow.solution.converged && panel!.converged,
    rounds,
  };
}

function layoutFor(
  project: Project,
  assembled: AssembledNetwork,
  tables: Tables,
  cache: HeatCache,
): HeatLayout {
  if (cache.layout && cache.collector === project.collector && cache.loop === project.loop)
    return cache.layout;
  cache.layout = heatLayout(project, assembled, tables);
  cache.collector = project.collector;
  cache.loop = project.loop;
  return cache.layout;
}

/** Water stays water: the property functions end at 0 and 100 °C. */
function liquid(t: number): number {
  return Math.min(99, Math.max(0.1, t));
}

function elementFlows(layout: HeatLayout, flow: SolvedFlow): Float64Array {
  return Float64Array.from(layout.links, (l) => flow.solution.network.flow_kgs[l]);
}

function sameFlows(a: Float64Array, b: Float64Array): boolean {
  let most = 0;
  let change = 0;
  for (let i = 0; i < a.length; i++) {
    most = Math.max(most, Math.abs(b[i]));
    change = Math.max(change, Math.abs(a[i] - b[i]));
  }
  return change <= SETTLED * most + 1e-12;
}

function withTemperatures(
  assembled: AssembledNetwork,
  density: Float64Array,
  viscosity: Float64Array,
): AssembledNetwork {
  const links = assembled.description.links.map((link, i) => ({
    ...link,
    density_kgm3: density[i],
    viscosity_Pas: viscosity[i],
  }));
  return { ...assembled, description: { ...assembled.description, links } };
}
