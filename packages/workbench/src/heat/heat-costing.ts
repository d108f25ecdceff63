import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import type { Project } from '@sunlap/project/schema/project';
import {
  type Cost,
  type Costing,
  type Finding,
  isStake,
  NEXT_TO_NOTHING,
  shareText,
  tubeTargets,
} from '../flow/costing';
import type { Say } from '../flow/say';
import { keptMass } from './kept-mass';
import type { SolvedHeat } from './solve-heat';

/** Less heat than this is none to speak of [W]. */
const LEAST_HEAT_W = 50;

/**
 * Costs as heat of this moment: the panel solved again at the same total flow, with the water where it should
 * be, less what it gives now. Unevenness often costs little, because a starved tube is a hot one and gives
 * nearly as much; then it says so.
 */
export function heatCosting(
  project: Pick<Project, 'collector'>,
  solved: SolvedHeat,
  inlet_C: number,
  say: Say,
): Costing {
  const { flow, layout, panel } = solved;
  const { description } = flow.assembled;
  const now = flow.solution.network.flow_kgs;
  const heatAt = (elementFlow: ArrayLike<number>): number =>
    solvePanel(layout.panel, elementFlow, inlet_C, solved.conditions.panel, {
      laminarGain: DEFAULT_HEAT_OPTIONS.laminarGain,
      tolerance_K: 1e-6,
    }).heat_W;
  /** The panel with the flows of some tubes changed, and the rest of its pipes by mass. */
  const withTubes = (targets: ReadonlyMap<number, number>): Float64Array => {
    const fixed = new Map<number, number>();
    for (const [link, q] of targets) fixed.set(layout.elementOf[link], q);
    const stands = layout.links.map((link) => description.links[link].closed === true);
    return keptMass(layout.panel, solved.elementFlow_kgs, fixed, stands);
  };
  const lost = (finding: Finding): number | null => {
    if (finding.kind === 'loop')
      return heatAt(Float64Array.from(layout.links, (l) => finding.flow_kgs[l])) - panel.heat_W;
    const targets = tubeTargets(project, flow, now, finding);
    if (!targets) return null;
    const better = heatAt(withTubes(targets));
    if (isStake(finding)) return panel.heat_W - better;
    if (finding.kind !== 'ends') return better - panel.heat_W;
    // both by the same closed study of the bank, so that only the ends differ
    const banks = finding.banks.map((e) => ({ ...e, better: e.now }));
    const asNow = tubeTargets(project, flow, now, { kind: 'ends', banks });
    return asNow && better - heatAt(withTubes(asNow));
  };
  return (finding) => {
    if (!(panel.heat_W > LEAST_HEAT_W) || !solved.converged) return null;
    const cost_W = lost(finding);
    if (cost_W === null || !Number.isFinite(cost_W)) return null;
    return heatCost(Math.max(0, cost_W), panel.heat_W, isStake(finding) ? 'Would cost' : 'Costs', say);
  };
}

/** Heat lost, in words. @example heatCost(95, 8600, 'Costs', say).cost // 'Costs about 1.1 % of the heat, 95 W' */
export function heatCost(cost_W: number, heat_W: number, verb: string, say: Say): Cost {
  const costShare = cost_W / heat_W;
  const cost =
    costShare < NEXT_TO_NOTHING
      ? `${verb} under 0.1 % of the heat`
      : `${verb} about ${shareText(costShare)} of the heat, ${say(cost_W, 'heatRate')}`;
  return { cost_W, costShare, cost };
}
