import { signal } from '@preact/signals';
import { reference } from '../app/state';
import type { Keeper } from '../projects/keeper';
import { projectId } from '../projects/keeper';
import { firstMoment } from '../store/doc';
import type { Store } from '../store/store';
import { d } from '../text/doors';

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

/** A new project of the person's own, and the first question. What makes it is fetched when a door is entered. */
export async function enterDoor(door: Door, store: Store, keeper: Keeper): Promise<void> {
  const { firstProject } = await import('./answers');
  const project = firstProject(door);
  reference.value = null;
  store.apply(d.begun[door], { doc: { project, moment: firstMoment(project) }, undo: 'load' });
  keeper.begin();
  remember(doorKey(projectId.peek()), door);
  closeDoors();
  goOn({ project: projectId.peek(), door, step: 0 });
  window.scrollTo(0, 0);
}
