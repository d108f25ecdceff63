import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { FlowValues } from '../results';
import type { SolvedFlow } from './flow-basic';

/** What is wrong with the flows, so that they can be set against those of a mended panel. */
export type Finding =
  /** Tubes of these banks share unevenly, or some carry nothing: against all of them alike. */
  | { readonly kind: 'uneven'; readonly banks: readonly number[] }
  /** Banks joined at the worse ends: shares by tube number, as they are and at the better ends. */
  | { readonly kind: 'ends'; readonly banks: readonly EndShares[] }
  /** Parts side by side that share unevenly: against the same flow in every tube of their first banks. */
  | { readonly kind: 'sections' }
  /** One section that may stay dry: against its water in the parts beside it. */
  | { readonly kind: 'without'; readonly section: number }
  /** Tubes that may stop, by bank and position: against all the water in the others. */
  | { readonly kind: 'held'; readonly banks: readonly { bank: number; positions: readonly number[] }[] }
  /** Other flows of the whole loop, by link, as with a vacuum breaker held shut. */
  | { readonly kind: 'loop'; readonly flow_kgs: ArrayLike<number> };

export interface EndShares {
  readonly bank: number;
  readonly now: readonly number[];
  readonly better: readonly number[];
}

export type Cost = Pick<Notice, 'cost' | 'cost_W' | 'costShare'>;

/** Says what a finding costs; null where it cannot be said. */
export type Costing = (finding: Finding) => Cost | null;

/** Under this a cost is called next to nothing. */
export const NEXT_TO_NOTHING = 0.001;

/** @example shareText(0.0114) // '1.1 %' */
export function shareText(share: number): string {
  const percent = share * 100;
  return `${percent < 9.95 ? percent.toFixed(1) : Math.round(percent)} %`;
}

/**
 * Flow of each tube of the banks with headers, by link, in the panel that a finding is set against
 * [kg/s]; null when there is none.
 */
export function tubeTargets(
  project: Pick<Project, 'collector'>,
  solved: SolvedFlow,
  flow_kgs: ArrayLike<number>,
  finding: Exclude<Finding, { kind: 'loop' }>,
): Map<number, number> | null {
  const { assembled } = solved;
  const out = new Map<number, number>();
  const bySection =
    finding.kind === 'sections' || finding.kind === 'without'
      ? wantedBySection(partsOf(project, solved, flow_kgs), finding)
      : null;
  if (!bySection && (finding.kind === 'sections' || finding.kind === 'without')) return null;
  assembled.banks.forEach((bank, b) => {
    if (!bank || bank.supplyTees.length === 0) return;
    const now = bank.units.map((link) => flow_kgs[link]);
    const total = now.reduce((sum, q) => sum + q, 0);
    const numbers = assembled.geometry.banks[b].units.map((u) => u.number);
    bank.units.forEach((link, i) => {
      let q = now[i];
      if (finding.kind === 'uneven' && finding.banks.includes(b)) q = total / now.length;
      else if (finding.kind === 'ends') {
        const ends = finding.banks.find((e) => e.bank === b);
        if (ends) q = (total * ends.better[numbers[i] - 1]) / now.length;
      } else if (finding.kind === 'held') {
        const held = finding.banks.find((e) => e.bank === b);
        if (held) q = withoutHeld(now, held.positions, i);
      } else if (bySection) q = bySection.get(bank.section)?.(q, now.length) ?? q;
      out.set(link, q);
    });
  });
  return out;
}

/** The water of tubes that stop goes through the others, in proportion. */
function withoutHeld(now: readonly number[], positions: readonly number[], i: number): number {
  const total = now.reduce((sum, q) => sum + q, 0);
  const stopped = now.reduce((sum, q, k) => sum + (positions.includes(k + 1) ? q : 0), 0);
  // were all of them to stop there would be no other way: nothing can be said
  if (!(total - stopped > 1e-9 * total)) return now[i];
  return positions.includes(i + 1) ? 0 : (now[i] * total) / (total - stopped);
}

/** One of the parts that stand side by side. */
interface Part {
  readonly sections: readonly number[];
  /** Through its first banks [kg/s]. */
  readonly flow: number;
  /** Tubes that can carry water side by side, by its first banks. */
  readonly tubes: number;
  /** Sections that share its water side by side. */
  readonly abreast: number;
}

function partsOf(
  project: Pick<Project, 'collector'>,
  solved: SolvedFlow,
  flow_kgs: ArrayLike<number>,
): Part[] {
  const { collector } = project;
  return (collector.plumbing.parallel ?? []).map((part) => {
    const ids = new Set<string>();
    const walk = (p: typeof part): void => {
      if (p.section !== undefined) ids.add(p.section);
      for (const q of p.series ?? p.parallel ?? []) walk(q);
    };
    walk(part);
    const sections = collector.sections.flatMap((s, i) => (ids.has(s.id) ? [i] : []));
    // of sections one after another one stands for all
    const counted = part.series ? sections.slice(0, 1) : sections;
    let flow = 0;
    let tubes = 0;
    for (const section of counted) {
      const bank = solved.assembled.banks.find((b) => b && b.section === section && b.bank === 0);
      if (!bank) continue;
      flow += bank.units.reduce((sum, link) => sum + flow_kgs[link], 0);
      tubes += bank.units.filter((link) => !solved.assembled.description.links[link].closed).length;
    }
    return { sections, flow, tubes, abreast: counted.length };
  });
}

/** By section: the flow of a tube from its present one and its bank's number of tubes; null when it cannot be said. */
type Wanted = Map<number, (now: number, tubes: number) => number>;

function wantedBySection(parts: readonly Part[], finding: { kind: string; section?: number }): Wanted | null {
  const total = parts.reduce((sum, p) => sum + p.flow, 0);
  const tubes = parts.reduce((sum, p) => sum + p.tubes, 0);
  if (parts.length < 2 || !(tubes > 0) || !(total > 1e-9)) return null;
  const out: Wanted = new Map();
  const gone = parts.find((p) => finding.section !== undefined && p.sections.includes(finding.section));
  const rest = total - (gone?.flow ?? 0);
  // a section beside others in its part leaves them their water; one without any other way leaves nothing
  if (finding.kind === 'without' && (gone?.abreast !== 1 || !(rest > 1e-9 * total))) return null;
  for (const part of parts) {
    const left = part === gone ? 0 : (part.flow * total) / rest;
    const target = finding.kind === 'without' ? left : (total * part.tubes) / tubes;
    const dry = !(Math.abs(part.flow) > 1e-6 * total);
    for (const s of part.sections) {
      out.set(s, (now, n) => (dry ? target / part.abreast / n : (now * target) / part.flow));
    }
  }
  return out;
}

/** Costs as a share of the flow: what runs in other tubes than it should. */
export function flowCosting(
  project: Pick<Project, 'collector'>,
  solved: SolvedFlow,
  values: Pick<FlowValues, 'collectorFlow_m3s'>,
): Costing {
  const { flow_kgs } = solved.solution.network;
  return (finding) => {
    if (finding.kind === 'loop') {
      const link = solved.assembled.collectorLink;
      const most = finding.flow_kgs[link];
      if (!(most > 1e-9) || !(values.collectorFlow_m3s > 0)) return null;
      return flowCost(1 - flow_kgs[link] / most, 'Costs about', 'of the collector’s flow');
    }
    let wrong = 0;
    let all = 0;
    const targets = tubeTargets(project, solved, flow_kgs, finding);
    if (!targets) return null;
    for (const [link, q] of targets) {
      wrong += Math.abs(q - flow_kgs[link]) / 2;
      all += Math.abs(q);
    }
    if (!(all > 1e-9)) return null;
    const words = isStake(finding) ? 'of the flow is at stake' : 'of the flow is in the wrong tubes';
    return flowCost(wrong / all, 'About', words);
  };
}

/** Findings of what may happen, not of what does. */
export function isStake(finding: Finding): boolean {
  return finding.kind === 'held' || finding.kind === 'without';
}

function flowCost(share: number, before: string, after: string): Cost {
  const s = Math.max(0, share);
  return { costShare: s, cost: `${before} ${shareText(s)} ${after}` };
}

/** A notice with what it costs. */
export function withCost(notice: Notice, cost: Cost | null): Notice {
  return cost === null ? notice : { ...notice, ...cost };
}
