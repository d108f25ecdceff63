import { computed, signal } from '@preact/signals';
import type { TestDay } from '@sunlap/project/schema/life';
import { doc } from '../../app/state';
import type { Store } from '../../store/store';
import { d } from '../../text/testday';
import { dayOf, localTime, newDay, withDay } from './edits';

export const VIEWS = ['measure', 'tubes', 'log', 'history', 'cards'] as const;
export type View = (typeof VIEWS)[number];
export const view = signal<View>('measure');

/** The day that is looked at; the newest when none was chosen. */
export const dayId = signal<string | null>(null);
export const day = computed<TestDay | null>(() => dayOf(doc.value.project, dayId.value));

/** Changes the day that is looked at, as one step with its name. */
export function changeDay(
  store: Store,
  name: string,
  change: (day: TestDay) => TestDay,
  undo: 'commit' | 'drag' = 'commit',
): void {
  const { doc: now } = store.get();
  const at = dayOf(now.project, dayId.peek());
  if (at === null) return;
  const next = change(at);
  if (next !== at) store.apply(name, { doc: { ...now, project: withDay(now.project, next) }, undo });
}

export function beginDay(store: Store): TestDay {
  const { doc: now } = store.get();
  const at = localTime(new Date(), now.project.site.timeZone);
  const next = newDay(now.project, at);
  store.apply(d.steps.begin(at.replace('T', ' ')), {
    doc: { ...now, project: withDay(now.project, next) },
    undo: 'commit',
  });
  dayId.value = next.id;
  return next;
}
