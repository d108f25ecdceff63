import { computed, signal } from '@preact/signals';
import type { Project } from '@sunlap/project/schema/project';
import type { BuildStudies } from '@sunlap/workbench/build/build';
import type { MoneyPlan } from '@sunlap/workbench/build/money';
import { useEffect } from 'preact/hooks';
import { doc, fresh, reference, referenceStudy, study } from '../../app/state';
import type { Study } from '../../compute/usecases';
import { keepSame } from '../../shape/studied';
import type { Store } from '../../store/store';
import { o } from '../../text/own';
import { ask, newestFirst } from './ask';
import { type HowChange, setHow, takeKept } from './how';
import type { Built } from './protocol';
import { sameBuild } from './same';
import { withBought } from './shop-edits';

export const VIEWS = ['drawings', 'parts', 'money', 'cuts', 'supports', 'work', 'cards'] as const;
export type View = (typeof VIEWS)[number];
export const view = signal<View>('drawings');
/** Drawing that lies on top. */
export const drawingId = signal<string | null>(null);

/** Proofs were asked for: every later plan is proven too. */
export const prove = signal(false);

export const built = signal<Built | null>(null);
/** The same with ticks and payments as they are now. */
export const builtNow = computed<Built | null>(() => {
  const now = built.value;
  return now === null ? null : { ...now, values: withBought(now.values, doc.value.project) };
});
export const builtHeld = signal<Built | null>(null);
export const buildError = signal<string | null>(null);
/** Question that the answer shown belongs to. */
const answered = signal<unknown>(null);
const asked = signal<unknown>(null);
export const buildBusy = (): boolean => asked.value !== answered.value;
/** Heat of the moment is on its way to the answer shown. */
export const awaitsHeat = (): boolean => built.value?.heated !== true && (!fresh.value || buildBusy());

/** Takes over, as a step that undo takes back, what an earlier version kept of building in this browser. */
export function adoptKept(store: Store): void {
  let kept: HowChange | null = null;
  try {
    kept = takeKept(localStorage);
  } catch {
    // a browser that keeps nothing has nothing to take over
  }
  const { doc: now } = store.get();
  if (kept === null || now.project.build !== undefined) return;
  store.apply(o.steps.kept, { doc: { ...now, project: setHow(now.project, kept) }, undo: 'commit' });
}

/** One and the same project while only ticks, bought counts, payments or the log change. */
const olderOfSame = keepSame(sameBuild);
const builtProject = computed(() => olderOfSame(doc.value.project));

/** Money with a year, and the project that it was run for. */
const yearRun = signal<{ project: Project; money: MoneyPlan } | null>(null);
export const yearState = signal<'idle' | 'working' | 'failed'>('idle');
/** Money with its year while that belongs to what is shown. */
export const yearMoney = computed(() =>
  yearRun.value?.project === builtProject.value ? yearRun.value.money : null,
);

/** Runs the year for the money of what is shown. */
export function runYear(): void {
  const project = builtProject.peek();
  const now = fresh.peek() ? study.peek() : null;
  yearState.value = 'working';
  ask('year', { project, prove: false, studies: studiesOf(now) }).then(
    (money) => {
      yearRun.value = { project, money };
      yearState.value = 'idle';
    },
    () => {
      yearState.value = 'failed';
    },
  );
}

const studiesOf = (now: Study | null): BuildStudies =>
  now === null ? {} : { flow: now.flow, ...(now.heat === null ? {} : { heat: now.heat }) };

const run = newestFirst<Built>();
const runHeld = newestFirst<Built>();

/** Keeps the answer that of the document shown. */
export function useBuilt(): void {
  const project = builtProject.value;
  const now = fresh.value ? study.value : null;
  const proof = prove.value;
  useEffect(() => {
    const question = {};
    asked.value = question;
    run(
      () =>
        ask('build', {
          project,
          prove: proof,
          drawn: true,
          studies: studiesOf(now),
        }),
      (answer) => {
        built.value = answer;
        buildError.value = null;
        answered.value = question;
      },
      (error) => {
        buildError.value = error.message;
        answered.value = question;
        // without its solver the plan still has its bound
        if (proof) prove.value = false;
      },
    );
  }, [project, now, proof]);
  const held = reference.value?.doc.project ?? null;
  const heldStudy = referenceStudy.value;
  useEffect(() => {
    if (held === null) {
      builtHeld.value = null;
      return;
    }
    runHeld(
      () =>
        ask('build', {
          project: held,
          prove: false,
          drawn: false,
          studies: heldStudy?.heat ? { heat: heldStudy.heat } : {},
        }),
      (answer) => {
        builtHeld.value = answer;
      },
      () => {
        builtHeld.value = null;
      },
    );
  }, [held, heldStudy]);
}
