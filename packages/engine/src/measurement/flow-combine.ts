import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import { chiSquareCdf, normalQuantile } from '../numeric/statistics-normal';
import { merged, scaled } from './component';
import { type FlowMeasurement, flowFrom } from './flow';

export interface CombinedFlow {
  flow: FlowMeasurement;
  /** weight of each [–], in the order given; they add to 1 */
  weights: number[];
  /** χ² of the measurements about their mean [–] */
  chiSquare: number;
  /** probability of a larger χ² if all were right [–] */
  chance: number;
  /** Birge ratio √(χ²/(n − 1)) [–] */
  birge: number;
  consistent: boolean;
  notices: Notice[];
}

/**
 * Several measurements of one flow become one, weighted by 1/u². For the weights u is U95/1.96, so that a pail
 * with two lucky repeats does not outweigh a good meter. Errors that two measurements share (same source name:
 * the same pail, the same thumb) add with their signs; scatter and all others are independent.
 *
 * Consistency by χ² = Σ(V̇_i − V̇)²/u_i² with n − 1 degrees of freedom (Birge 1932; Mandel & Paule). When it
 * would be exceeded by chance less than once in twenty, they disagree: the mean keeps its value, its doubt is
 * widened to the Birge ratio, and a notice names the one farthest from the others.
 *
 * @param flows at least one, with uncertainties above 0
 * @throws {DomainError} none given, or an uncertainty of zero among several
 * @example combineFlows([pail, meter]).flow.flow_m3s
 */
export function combineFlows(flows: readonly FlowMeasurement[]): CombinedFlow {
  if (flows.length === 0) throw new DomainError('number of flows', 0, '≥ 1');
  if (flows.length === 1)
    return {
      flow: flows[0]!,
      weights: [1],
      chiSquare: 0,
      chance: 1,
      birge: 0,
      consistent: true,
      notices: [],
    };
  const u = flows.map((f) => f.expandedUncertainty_m3s / normalQuantile(0.975));
  for (const each of u) if (!(each > 0)) throw new DomainError('uncertainty of a flow', each, '(0, ∞) m³/s');
  const total = u.reduce((sum, each) => sum + each ** -2, 0);
  const weights = u.map((each) => each ** -2 / total);
  const flow = flows.reduce((sum, f, i) => sum + weights[i]! * f.flow_m3s, 0);
  const chiSquare = flows.reduce((sum, f, i) => sum + ((f.flow_m3s - flow) / u[i]!) ** 2, 0);
  const dof = flows.length - 1;
  const chance = 1 - chiSquareCdf(chiSquare, dof);
  const birge = Math.sqrt(chiSquare / dof);
  const consistent = chance >= 0.05;
  const components = merged(
    flows.flatMap((f, i) =>
      scaled(f.components, weights[i]!).map((c) =>
        c.dof < Infinity ? { ...c, source: `${c.source}.${i + 1}` } : c,
      ),
    ),
  );
  const notices: Notice[] = [];
  if (!consistent) {
    const own = Math.hypot(...components.map((c) => c.effect));
    components.push({
      source: 'flow.disagreement',
      label: 'disagreement between the ways of measuring',
      effect: own * Math.sqrt(Math.max(0, birge ** 2 - 1)),
      dof,
      shape: 'normal',
    });
    const worst = flows.reduce((w, f, i) => {
      const off = (k: number) => Math.abs(flows[k]!.flow_m3s - flow) / u[k]!;
      return f && off(i) > off(w) ? i : w;
    }, 0);
    notices.push({
      code: 'flow-disagree',
      severity: 'unsure',
      path: `/flows/${worst}`,
      message: `The measurements of flow disagree by more than their doubts allow (${(chance * 100).toPrecision(1)} % by chance); ${flows[worst]!.method} lies farthest out.`,
      remedy: 'Repeat that one. Until they agree the interval is widened, but none of them is thrown away.',
    });
  }
  return {
    flow: flowFrom('combined', flow, components),
    weights,
    chiSquare,
    chance,
    birge,
    consistent,
    notices,
  };
}
