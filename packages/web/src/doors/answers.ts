import type { Project } from '@sunlap/project/schema/project';
import { answersOf, withAnswers } from '@sunlap/project/start/answers';
import { type FirstAnswers, startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { type Doc, firstMoment } from '../store/doc';
import type { Store } from '../store/store';
import { d } from '../text/doors';
import type { Door } from './state';

/** Answers that this device suggests: its units and its clock's zone. Nothing is asked of the person for it. */
function deviceAnswers(): FirstAnswers {
  const units = /-(US|LR|MM)$/.test(navigator.language) ? 'us' : 'metric';
  const usual = usualAnswers(units);
  const timeZone = Intl.DateTimeFormat().resolvedOptions().timeZone || usual.timeZone;
  const offset_h = -new Date(2026, 0, 15).getTimezoneOffset() / 60;
  return { ...usual, timeZone, longitude_deg: Math.max(-180, Math.min(180, offset_h * 15)) };
}

export const firstProject = (door: Door): Project =>
  startProject({ ...deviceAnswers(), name: d.firstName[door] });

/** One answer changes the whole project, as one step. */
export function answer(store: Store, name: string, change: Partial<FirstAnswers>): void {
  const { doc } = store.get();
  const project = withAnswers(doc.project, change);
  if (project === doc.project) return;
  const moved =
    change.latitude_deg !== undefined && change.latitude_deg < 0 !== doc.project.site.latitude_deg < 0;
  const next: Doc = { project, moment: moved ? { ...doc.moment, at: firstMoment(project).at } : doc.moment };
  store.apply(name, { doc: next, undo: 'commit' });
}

/** The answers as they stand, or the usual ones where the project has outgrown them. */
export const answersNow = (doc: Doc): FirstAnswers =>
  answersOf(doc.project) ?? usualAnswers(doc.project.units, doc.project.site.latitude_deg);
