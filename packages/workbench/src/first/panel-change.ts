import type { Collector, Section } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import { stockLengths } from '../build/stock-lengths';

/** One step a planner takes: length in whole sticks or metres, or the number of passes. */
export type PanelChange =
  | { readonly kind: 'length'; readonly length_m: number }
  | { readonly kind: 'passes'; readonly passes: number }
  | { readonly kind: 'ends'; readonly outletEnds: Section['outletEnds'] };

const MOST_PASSES = 12;
/** Room between header ends of two passes, where there is no second pass to take it from [m]. */
const PASS_GAP_M = 0.06;

/** The project with one step taken in every section of tubes. */
export function withChange(project: Project, change: PanelChange): Project {
  const sections = project.collector.sections.map((s) => changed(s, change));
  return { ...project, collector: apart(project.collector, sections) };
}

function changed(section: Section, change: PanelChange): Section {
  if (change.kind === 'ends') return { ...section, outletEnds: change.outletEnds };
  if (change.kind === 'length')
    return {
      ...section,
      banks: section.banks.map((b) => (b.kind === 'tubes' ? { ...b, length_m: change.length_m } : b)),
    };
  return withPasses(section, Math.max(1, Math.min(MOST_PASSES, Math.round(change.passes))));
}

function withPasses(section: Section, passes: number): Section {
  if (passes <= section.banks.length)
    return {
      ...section,
      banks: section.banks.slice(0, passes),
      handovers: section.handovers.slice(0, passes - 1),
    };
  const banks = [...section.banks];
  const handovers = [...section.handovers];
  while (banks.length < passes) {
    const last = banks[banks.length - 1];
    const before = banks[banks.length - 2];
    const pitch = last.kind === 'tubes' ? last.pitch_m : 0.5;
    const step = before ? last.across_m - before.across_m : last.count * pitch + PASS_GAP_M;
    const { name: _own, ...bare } = last;
    banks.push({
      ...bare,
      id: freeId(section, banks.length + 1, banks),
      across_m: round(last.across_m + step),
    });
    handovers.push(handovers[handovers.length - 1] ?? { joins: [{ from: 'last', to: 'first' }] });
  }
  return { ...section, banks, handovers };
}

function freeId(section: Section, number: number, banks: readonly { id: string }[]): string {
  for (let n = number; ; n++) {
    const id = `${section.id}${n}`;
    if (!banks.some((b) => b.id === id)) return id;
  }
}

/** Sections to the right of one that grew longer move along, so that none lie over each other. */
function apart(before: Collector, sections: Section[]): Collector {
  const reach = (s: Section): number =>
    Math.max(...s.banks.map((b) => (b.kind === 'tubes' ? b.length_m : 0)));
  const moved = sections.map((s, i) => {
    const old = before.sections[i];
    if (s.direction !== 'contour') return s;
    const left = before.sections.filter((o) => o.u_m < old.u_m - 1e-6 && Math.abs(o.v_m - old.v_m) < 0.5);
    const grown = left.reduce((sum, o) => {
      const now = sections[before.sections.indexOf(o)];
      return sum + reach(now) - reach(o);
    }, 0);
    return grown === 0 ? s : { ...s, u_m: round(s.u_m + grown) };
  });
  return { ...before, sections: moved };
}

const round = (v: number): number => Math.round(v * 1e4) / 1e4;

/** Tube lengths of whole sticks, the next shorter and the next longer one; null for coils and the like. */
export function wholeSticks(project: Project): { shorter_m: number | null; longer_m: number | null } | null {
  const bank = project.collector.sections.flatMap((s) => s.banks).find((b) => b.kind === 'tubes');
  if (bank?.kind !== 'tubes') return null;
  const sticks = [...new Set(stockLengths(project, bank.pipe).map((s) => s.length_m))];
  const lengths = sticks.flatMap((l) => Array.from({ length: 8 }, (_, n) => round((n + 1) * l)));
  const near = 0.01;
  const shorter = Math.max(...lengths.filter((l) => l < bank.length_m - near));
  const longer = Math.min(...lengths.filter((l) => l > bank.length_m + near));
  return {
    shorter_m: Number.isFinite(shorter) ? shorter : null,
    longer_m: Number.isFinite(longer) ? longer : null,
  };
}
