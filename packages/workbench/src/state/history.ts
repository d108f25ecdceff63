import type { Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';

export interface HistoryEntry {
  readonly date: string;
  readonly kind: 'state' | 'repair' | 'testDay';
  readonly id: string;
  readonly title: string;
  readonly text: string;
  /** Place in the project file. */
  readonly path: string;
}

const DONE: Record<Repair['what'], string> = {
  plugged: 'Plugged',
  coupled: 'Mended with a coupling',
  replaced: 'Replaced',
  reglued: 'Glued again',
  cleaned: 'Cleaned',
  other: 'Repair',
};

/** On one day a change comes first, then repairs, then what was measured on the result. */
const ORDER: Record<HistoryEntry['kind'], number> = { state: 0, repair: 1, testDay: 2 };

/**
 * Everything that happened to the heater, oldest first: changes of plumbing, repairs, test days.
 *
 * @example history(project).map((e) => `${e.date} ${e.title}`)
 */
export function history(project: Pick<Project, 'asBuilt' | 'repairs' | 'testDays'>): HistoryEntry[] {
  const entries: HistoryEntry[] = [
    ...project.asBuilt.map((s, i) => ({
      date: s.from,
      kind: 'state' as const,
      id: s.id,
      title: s.name,
      text: s.change ?? '',
      path: `/asBuilt/${i}`,
    })),
    ...project.repairs.map((r, i) => ({
      date: r.date,
      kind: 'repair' as const,
      id: r.id,
      title: `${DONE[r.what]}${placeOf(r)}`,
      text: r.notes ?? '',
      path: `/repairs/${i}`,
    })),
    ...project.testDays.map((d, i) => ({
      date: d.at.slice(0, 10),
      kind: 'testDay' as const,
      id: d.id,
      title: d.name ?? 'Test day',
      text: d.notes ?? '',
      path: `/testDays/${i}`,
    })),
  ];
  return entries.sort((a, b) => a.date.localeCompare(b.date) || ORDER[a.kind] - ORDER[b.kind]);
}

function placeOf(repair: Repair): string {
  if (repair.tube !== undefined) return `: ${repair.bank ?? repair.section ?? ''} tube ${repair.tube}`;
  const place = repair.bank ?? repair.section;
  return place === undefined ? '' : `: ${place}`;
}
