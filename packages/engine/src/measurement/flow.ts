import type { Notice } from '../numeric/notice';
import { type Component, type Contribution, contributions } from './component';
import { combine } from './coverage';

export type FlowMethod = 'pail' | 'meter' | 'rotameter' | 'gauges' | 'front' | 'combined';

/** A measured flow with what is doubtful about it. */
export interface FlowMeasurement {
  method: FlowMethod;
  flow_m3s: number;
  standardUncertainty_m3s: number;
  /** effective, Welch–Satterthwaite */
  dof: number;
  /** half-width of the 95 % interval */
  expandedUncertainty_m3s: number;
  components: Component[];
  contributions: Contribution[];
}

/** What a way of measuring flow answers: a flow where the readings give one, and what there is to say. */
export interface FlowOutcome {
  flow: FlowMeasurement | undefined;
  notices: Notice[];
}

/**
 * Puts a flow and its components [m³/s] into one record.
 *
 * @example flowFrom('pail', 3.27e-4, components).expandedUncertainty_m3s
 */
export function flowFrom(
  method: FlowMethod,
  flow: number,
  components: readonly Component[],
): FlowMeasurement {
  const kept = components.filter((c) => c.effect !== 0);
  const u = combine(kept);
  return {
    method,
    flow_m3s: flow,
    standardUncertainty_m3s: u.standardUncertainty,
    dof: u.dof,
    expandedUncertainty_m3s: u.expandedUncertainty,
    components: kept,
    contributions: contributions(kept),
  };
}
