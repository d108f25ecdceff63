import { signal } from '@preact/signals';
import { answersOf, withAnswers } from '@sunlap/project/start/answers';
import { type FirstAnswers, startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { reference } from '../app/state';
import type { Keeper } from '../projects/keeper';
import { projectId } from '../projects/keeper';
import { type Doc, firstMoment } from '../store/doc';
import type { Store } from '../store/store';
import { f } from '../text/first';

export type Door = 'plan' | 'have';

export const QUESTIONS = ['place', 'pool', 'pump', 'pipe', 'lie', 'panel'] as const;
export type Question = (typeof QUESTIONS)[number];

/** The two doors are on the first screen. */
export const doorsOpen = signal(false);
/** Questions that are being answered; null when none are. */
export const way = signal<{ project: string; door: Door; step: number } | null>(null);

const WAY_KEY = 'sunlap-way';
const SEEN_KEY = 'sunlap-doors-seen';
const doorKey = (id: string) => `sunlap-door:${id}`;

const remember = (key: string, value: string | null) => {
  try {
    if (value === null) localStorage.removeItem(key);
    else localStorage.setItem(key, value);
  } catch {
    // the questions then begin anew after a reload; the project itself is kept elsewhere
  }
};
const recall = (key: string): string | null => {
  try {
    return localStorage.getItem(key);
  } catch {
    return null;
  }
};

export function goOn(next: typeof way.value): void {
  way.value = next;
  remember(WAY_KEY, next === null ? null : JSON.stringify(next));
}

/** Goes on where a reload broke off. */
export function resumeWay(): void {
  try {
    const kept = JSON.parse(recall(WAY_KEY) ?? 'null') as typeof way.value;
    if (kept !== null && kept.project === projectId.peek() && kept.step in QUESTIONS) way.value = kept;
  } catch {
    // nothing to go on with
  }
}

export const doorsSeen = (): boolean => recall(SEEN_KEY) !== null;
export function closeDoors(): void {
  doorsOpen.value = false;
  remember(SEEN_KEY, 'yes');
}

/** Through which door a project came: what its home screen offers first. */
export const doorOf = (id: string): Door => (recall(doorKey(id)) === 'have' ? 'have' : 'plan');

/** Pool pipe in which the usual pump stays under the speed that suction pipe is held to. */
const POOL_PIPE = { us: 'pvc-sch40-2', metric: 'pvcu-pn10-63' };

/** Answers that this device suggests: its units and its clock's zone. Nothing is asked of the person for it. */
function deviceAnswers(): FirstAnswers {
  const units = /-(US|LR|MM)$/.test(navigator.language) ? 'us' : 'metric';
  const usual = { ...usualAnswers(units), loopPipe: POOL_PIPE[units] };
  const timeZone = Intl.DateTimeFormat().resolvedOptions().timeZone || usual.timeZone;
  const offset_h = -new Date(2026, 0, 15).getTimezoneOffset() / 60;
  return { ...usual, timeZone, longitude_deg: Math.max(-180, Math.min(180, offset_h * 15)) };
}

/** A new project of the person's own, and the first question. */
export function enterDoor(door: Door, store: Store, keeper: Keeper): void {
  const project = startProject({ ...deviceAnswers(), name: f.firstName[door] });
  reference.value = null;
  store.apply(f.begun[door], { doc: { project, moment: firstMoment(project) }, undo: 'load' });
  keeper.begin();
  remember(doorKey(projectId.peek()), door);
  closeDoors();
  goOn({ project: projectId.peek(), door, step: 0 });
  window.scrollTo(0, 0);
}

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
