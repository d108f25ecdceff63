import type { Project } from '@sunlap/project/schema/project';
import { heatBasic } from '../heat/heat-basic';
import type { MomentOptions } from '../heat/moment';
import { createHeatCache, type HeatCache } from '../heat/solve-heat';
import { type PanelChange, withChange } from './panel-change';
import { referenceMoment } from './reference-moment';
import { type RoughCost, roughCost } from './rough-cost';

/** What a planner watches while dragging. */
export interface StepState extends RoughCost {
  readonly heat_W: number;
  readonly poolPerSunnyDay_K: number;
  readonly pumpFlow_m3s: number;
  readonly collectorFlow_m3s: number;
  readonly pumpHead_m: number;
  readonly pumpPower_W: number;
  readonly converged: boolean;
}

type Difference = Omit<StepState, 'converged' | 'currency' | 'unpriced'>;

export interface StepEffect {
  readonly before: StepState;
  readonly after: StepState;
  /** After less before. */
  readonly difference: Difference;
  readonly project: Project;
}

export interface StepOptions {
  readonly moment?: MomentOptions;
  /** State before, when it is at hand: while one thing is dragged it stays the same. */
  readonly before?: StepState;
  readonly cache?: HeatCache;
  /** False lets degrees per day follow the heat, which is quicker; only with `before`. */
  readonly day?: boolean;
}

/**
 * What one step does to heat, glued joints, cost and pump.
 *
 * @param change a step, or the project as it would be
 * @example stepEffect(project, { kind: 'passes', passes: 3 }).difference.heat_W
 */
export function stepEffect(
  project: Project,
  change: PanelChange | { readonly to: Project },
  options: StepOptions = {},
): StepEffect {
  const moment = options.moment ?? referenceMoment(project);
  const before = options.before ?? stepState(project, moment);
  const next = 'to' in change ? change.to : withChange(project, change);
  const quick = options.day === false && options.before !== undefined && before.heat_W > 0;
  const found = stepState(next, moment, options.cache, !quick);
  const after = quick
    ? { ...found, poolPerSunnyDay_K: (before.poolPerSunnyDay_K * found.heat_W) / before.heat_W }
    : found;
  return { before, after, difference: difference(before, after), project: next };
}

/** One state by one solution and one count of parts. */
export function stepState(
  project: Project,
  moment: MomentOptions = referenceMoment(project),
  cache: HeatCache = createHeatCache(),
  day = true,
): StepState {
  const { result, flow, solver } = heatBasic(project, moment, { cache, day });
  return {
    ...roughCost(project),
    heat_W: result.heat_W,
    poolPerSunnyDay_K: result.poolPerSunnyDay_K,
    pumpFlow_m3s: flow.result.flow_m3s,
    collectorFlow_m3s: flow.result.collectorFlow_m3s,
    pumpHead_m: flow.result.pump.head_m,
    pumpPower_W: flow.result.pump.power_W,
    converged: solver.converged,
  };
}

function difference(a: StepState, b: StepState): Difference {
  return {
    gluedJoints: b.gluedJoints - a.gluedJoints,
    pipe_m: b.pipe_m - a.pipe_m,
    cost: b.cost - a.cost,
    heat_W: b.heat_W - a.heat_W,
    poolPerSunnyDay_K: b.poolPerSunnyDay_K - a.poolPerSunnyDay_K,
    pumpFlow_m3s: b.pumpFlow_m3s - a.pumpFlow_m3s,
    collectorFlow_m3s: b.collectorFlow_m3s - a.collectorFlow_m3s,
    pumpHead_m: b.pumpHead_m - a.pumpHead_m,
    pumpPower_W: b.pumpPower_W - a.pumpPower_W,
  };
}
