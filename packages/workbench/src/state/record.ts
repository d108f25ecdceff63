import type { Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';

/** What a person says of a change of plumbing. */
export interface StateRecord {
  readonly from: string;
  readonly name: string;
  readonly change?: string;
}

/**
 * Writes how the heater stands now into its history. A state of the same day is replaced: one day, one state.
 *
 * @example recordState(project, { from: '2026-04-01', name: 'Three sections' }).asBuilt.length
 */
export function recordState(project: Project, record: StateRecord): Project {
  const { collector, loop } = project;
  const others = project.asBuilt.filter((s) => s.from !== record.from);
  const id = freeId(
    `state-${record.from}`,
    others.map((s) => s.id),
  );
  const asBuilt = [...others, { id, ...record, collector, loop }].sort((a, b) =>
    a.from.localeCompare(b.from),
  );
  return { ...project, asBuilt };
}

/** Adds a repair, in the order of dates. */
export function recordRepair(project: Project, repair: Omit<Repair, 'id'>): Project {
  const id = freeId(
    `repair-${repair.date}`,
    project.repairs.map((r) => r.id),
  );
  const repairs = [...project.repairs, Object.assign({ id }, repair, { id })].sort((a, b) =>
    a.date.localeCompare(b.date),
  );
  return { ...project, repairs };
}

/** The wish itself, or with the first number that makes it new. */
function freeId(wish: string, taken: readonly string[]): string {
  if (!taken.includes(wish)) return wish;
  for (let n = 2; ; n++) if (!taken.includes(`${wish}-${n}`)) return `${wish}-${n}`;
}
