import { DEFAULT_HEAT_OPTIONS, type HeatOptions } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import type { PanelSolution } from '@sunlap/engine/collector/panel-types';
import { waterDensity, waterViscosity } from '@sunlap/engine/fluids/water';
import type { Project } from '@sunlap/project/schema/project';
import { type HeatConditions, type HeatWeather, heatConditions } from '../assembly/heat-conditions';
import { type HeatLayout, heatLayout } from '../assembly/heat-layout';
import { shadeLayout } from '../assembly/heat-shade';
import type { AssembledNetwork } from '../assembly/network';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { type FlowOptions, type SolvedFlow, solveFlow } from '../flow/flow-basic';
import { createLoopSolver, type LoopSolver } from '../flow/solver';

/** Rounds of flow and heat in turn; two or three are usual. */
const MOST_ROUNDS = 12;
/** The same where tubes run part-full: each round then costs many solutions, and the states decide. */
const PART_FULL_ROUNDS = 2;
/** Share of a round's new densities that is taken: slow tubes in the sun swing when they are taken whole. */
const TAKEN = [1, 1, 0.5, 0.5, 0.5, 0.35];
/** Change of any flow over the largest, and of heat over itself, at which the two agree. */
const SETTLED = 1e-4;
/** Change of heat that is let pass when warm water's own drive keeps slow tubes swaying. */
const SWAYS = 0.005;
/** Less than this through the collector is still water: what circles inside it by itself is left out [kg/s]. */
const STILL_KGS = 1e-6;

/** Keeps the layout of heat and the solver of flow while only numbers change. */
export interface HeatCache {
  readonly solver: LoopSolver;
  layout: HeatLayout | null;
  collector: Project['collector'] | null;
  loop: Project['loop'] | null;
  /** Densities and viscosities by link of the last solution, to start the next from. */
  water: { density: Float64Array; viscosity: Float64Array } | null;
}

export function createHeatCache(solver: LoopSolver = createLoopSolver()): HeatCache {
  return { solver, layout: null, collector: null, loop: null, water: null };
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
  /**
   * Change of heat in the last round over itself: 0 when flow and heat agree. Above it slow tubes sway, because
   * warm water drives them about as much as the pump does.
   */
  readonly sway: number;
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
  // while numbers are dragged the last temperatures are nearly right: one round then settles
  let flow = solveFlow(project, {
    ...options,
    solver: cache.solver,
    water_C,
    density_kgm3: cache.water?.density,
    viscosity_Pas: cache.water?.viscosity,
  });
  const layout = shadeLayout(
    layoutFor(project, flow.assembled, tables, cache),
    flow.assembled,
    weather.shade,
  );
  const conditions = heatConditions(project, flow.assembled, layout, weather, light);
  const links = flow.assembled.description.links.length;
  let density = new Float64Array(links).fill(waterDensity(liquid(water_C)));
  let viscosity = new Float64Array(links).fill(waterViscosity(liquid(water_C)));
  if (cache.water && cache.water.density.length === links) {
    density = cache.water.density.slice();
    viscosity = cache.water.viscosity.slice();
  } else if (cache.water) {
    // another layout: what was kept belongs to other links
    cache.water = null;
    flow = solveFlow(project, { ...options, solver: cache.solver, water_C });
  }
  let panel: PanelSolution | null = null;
  let elementFlow = elementFlows(layout, flow);
  let sway = 0;
  let rounds = 0;
  const most = flow.solution.air && flow.solution.air.solves > 3 ? PART_FULL_ROUNDS : MOST_ROUNDS;
  let settled = false;
  while (!settled && rounds < most) {
    const next = solvePanel(layout.panel, elementFlow, water_C, conditions.panel, {
      laminarGain: light.laminarGain,
    });
    sway = panel === null ? 0 : Math.abs(next.heat_W - panel.heat_W) / Math.max(10, Math.abs(next.heat_W));
    const first = panel === null;
    panel = next;
    rounds++;
    if (next.massFlow_kgs < STILL_KGS) {
      // a solver's remnant is no water: the panel stands
      elementFlow = new Float64Array(elementFlow.length);
      panel = solvePanel(layout.panel, elementFlow, water_C, conditions.panel, {
        laminarGain: light.laminarGain,
      });
      break;
    }
    const share = TAKEN[Math.min(rounds, TAKEN.length) - 1];
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
    settled = (first || sway <= SETTLED) && sameFlows(before, elementFlow);
    cache.water = { density, viscosity };
  }
  // the last word is heat's, at the flows that are reported
  if (panel === null || panel.massFlow_kgs >= STILL_KGS) {
    const last = solvePanel(layout.panel, elementFlow, water_C, conditions.panel, {
      laminarGain: light.laminarGain,
    });
    if (panel !== null) sway = Math.abs(last.heat_W - panel.heat_W) / Math.max(10, Math.abs(last.heat_W));
    panel = last;
  }
  const still = panel.massFlow_kgs < STILL_KGS;
  if (still || !flow.solution.converged) cache.water = null;
  return {
    flow,
    layout,
    conditions,
    panel,
    elementFlow_kgs: elementFlow,
    converged: flow.solution.converged && (still || (panel.converged && sway <= SWAYS)),
    rounds,
    sway: still || settled ? 0 : sway,
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
