import type { Notice } from '@sunlap/engine/numeric/notice';
import type { AsBuilt, Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import { repaired } from './repairs';

/** The heater as it stood on a day. */
export interface StateAt {
  /** The project with collector, loop and repairs as they were, the repairs done. */
  readonly project: Project;
  /** As-built state that it comes from; null for a project that keeps none. */
  readonly state: AsBuilt | null;
  /** Repairs that had been done on it by then, oldest first. */
  readonly repairs: readonly Repair[];
  readonly notices: readonly Notice[];
}

/** As-built states, oldest first; of two from the same day the later in the file counts. */
export function statesByDate(project: Pick<Project, 'asBuilt'>): AsBuilt[] {
  return [...project.asBuilt].sort((a, b) => a.from.localeCompare(b.from));
}

/**
 * The project as it stood on a day: the latest as-built state from that day or before, with the repairs done
 * on it up to and on that day. A state describes its heater whole, so repairs older than it no longer count. A project
 * without states is its own state; a day before the first one is judged against the first, and a notice says so.
 *
 * @param date `2026-04-12`, or a local time on that day
 * @param id   state to take whatever the date, as a test day can name one
 * @example stateAt(project, '2025-06-01').project.collector.sections.length // 2
 */
export function stateAt(project: Project, date: string, id?: string): StateAt {
  const day = date.slice(0, 10);
  const states = statesByDate(project);
  const notices: Notice[] = [];
  let state = states.findLast((s) => s.from <= day) ?? null;
  if (id !== undefined) {
    const named = states.find((s) => s.id === id);
    if (named) state = named;
    else
      notices.push({
        code: 'state-unknown',
        severity: 'unsure',
        path: '/asBuilt',
        message: `There is no as-built state “${id}”; the one of that date is taken.`,
        remedy: 'Choose the state again.',
      });
  }
  if (state === null && states.length > 0) {
    state = states[0];
    notices.push({
      code: 'state-before-first',
      severity: 'unsure',
      path: '/asBuilt/0/from',
      message: `The first as-built state begins on ${state.from}; ${day} is judged against it all the same.`,
      remedy: 'Put the date back, or record how the heater stood before.',
    });
  }
  const since = state === null ? '' : state.from;
  const repairs = project.repairs
    .filter((r) => r.date <= day && r.date >= since)
    .sort((a, b) => a.date.localeCompare(b.date));
  const collector = repaired(state?.collector ?? project.collector, repairs);
  const loop = state?.loop ?? project.loop;
  // of what is done on it later nothing is known on that day
  const same =
    collector === project.collector && loop === project.loop && repairs.length === project.repairs.length;
  const stood = same ? project : { ...project, collector, loop, repairs };
  return { project: stood, state, repairs, notices };
}
