import type { FrictionLaw, TeeSet } from '@sunlap/engine/hydraulics/network-types';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowValues, Interval } from '../results';
import { bankFlows } from './bank-report';
import type { SolvedFlow } from './flow-basic';
import type { LoopSolution, LoopSolver } from './solver';

/** Reynolds numbers between which friction is not known. */
const UNKNOWN_FROM = 2000;
const UNKNOWN_TO = 4000;

const TEE_SETS: readonly TeeSet[] = ['default', 'gardel', 'ideal'];

/** What the rival tee sets and friction laws make of it. */
export interface FlowBand {
  readonly intervals: Record<string, Interval>;
  /** True when some pipe runs where friction is not known, so that its rivals were solved too. */
  readonly frictionUnknown: boolean;
  /** Links that run there. */
  readonly uncertainLinks: readonly number[];
  /** Rivals that did not converge; their answers are left out. */
  readonly failed: readonly string[];
}

/** Pipes in which friction is neither laminar nor turbulent for sure. */
export function uncertainLinks(solved: SolvedFlow): number[] {
  const { links } = solved.assembled.description;
  const out: number[] = [];
  for (let i = 0; i < links.length; i++) {
    if (links[i].law.kind !== 'pipe' || links[i].closed) continue;
    const re = solved.solution.network.reynolds[i];
    if (re > UNKNOWN_FROM && re < UNKNOWN_TO) out.push(i);
  }
  return out;
}

/**
 * Solve again with every tee set and, where it matters, every friction law; widen the answer's bands in place.
 *
 * @param values of the default solution; its share bands are widened
 */
export function flowBand(
  project: Project,
  solved: SolvedFlow,
  solver: LoopSolver,
  values: FlowValues,
): FlowBand {
  const uncertain = uncertainLinks(solved);
  const frictions: FrictionLaw[] = uncertain.length > 0 ? ['churchill', 'laminar', 'blasius'] : ['churchill'];
  const density = solved.assembled.description.referenceDensity_kgm3;
  const intervals: Record<string, Interval> = {};
  const failed: string[] = [];
  const widen = (name: string, value: number): void => {
    const i = intervals[name];
    if (!i) intervals[name] = { low: value, high: value };
    else {
      i.low = Math.min(i.low, value);
      i.high = Math.max(i.high, value);
    }
  };
  const read = (solution: LoopSolution): void => {
    const { network } = solution;
    const { pump, collectorIn, collectorOut, collectorLink } = solved.assembled;
    widen('flow_m3s', network.flow_kgs[pump.link] / density);
    widen('collectorFlow_m3s', network.flow_kgs[collectorLink] / density);
    widen('pumpHead_m', network.head_m[pump.toNode] - network.head_m[pump.fromNode]);
    widen('headLoss_m', network.head_m[collectorIn] - network.head_m[collectorOut]);
    const banks = bankFlows(solved.assembled, project.collector, solution);
    banks.forEach((bank, b) => {
      const own = values.collector.banks[b];
      spread(own.leastBand, bank.leastOverMean);
      spread(own.mostBand, bank.mostOverMean);
      bank.tubes.forEach((tube, t) => {
        spread(own.tubes[t].shareBand, tube.share);
      });
    });
  };
  for (const tees of TEE_SETS) {
    for (const friction of frictions) {
      if (tees === 'default' && friction === 'churchill') {
        read(solved.solution);
        continue;
      }
      const start = solved.solution.network;
      const rival = solver.solve(solved.assembled, solved.layout, { tees, friction, start });
      if (rival.converged) read(rival);
      else failed.push(`${tees}, ${friction}`);
    }
  }
  return { intervals, frictionUnknown: uncertain.length > 0, uncertainLinks: uncertain, failed };
}

function spread(interval: Interval, value: number): void {
  interval.low = Math.min(interval.low, value);
  interval.high = Math.max(interval.high, value);
}
