import type { AsBuilt, Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';

export type StateChange = Partial<Pick<AsBuilt, 'from' | 'name' | 'change'>>;
export type RepairChange = Partial<Pick<Repair, 'date' | 'what' | 'notes'>>;

/** Texts that are emptied are left out of the file. */
const trimmed = <T extends object>(row: T): T =>
  Object.fromEntries(Object.entries(row).filter(([, v]) => v !== undefined && v !== '')) as T;

/**
 * Another day, name or account of a recorded state. A day that another state has already is refused: one day, one
 * state.
 */
export function editState(project: Project, id: string, change: StateChange): Project {
  if (change.from !== undefined && project.asBuilt.some((s) => s.id !== id && s.from === change.from))
    return project;
  if (change.name?.trim() === '') return project;
  const asBuilt = project.asBuilt
    .map((s) => (s.id === id ? trimmed({ ...s, ...change }) : s))
    .sort((a, b) => a.from.localeCompare(b.from));
  return { ...project, asBuilt };
}

/** A state out of the history; test days that named it are judged by their date again. */
export function removeState(project: Project, id: string): Project {
  return {
    ...project,
    asBuilt: project.asBuilt.filter((s) => s.id !== id),
    testDays: project.testDays.map((day) => {
      if (day.state !== id) return day;
      const { state: _, ...rest } = day;
      return rest;
    }),
  };
}

export function editRepair(project: Project, id: string, change: RepairChange): Project {
  const repairs = project.repairs
    .map((r) => (r.id === id ? trimmed({ ...r, ...change }) : r))
    .sort((a, b) => a.date.localeCompare(b.date));
  return { ...project, repairs };
}

export const removeRepair = (project: Project, id: string): Project => ({
  ...project,
  repairs: project.repairs.filter((r) => r.id !== id),
});
