import { computed, signal } from '@preact/signals';
import type { Project } from '@sunlap/project/schema/project';
import type { BuildStudies } from '@sunlap/workbench/build/build';
import type { MoneyPlan } from '@sunlap/workbench/build/money';
import type { SeasonAnswer } from '@sunlap/workbench/season/values';
import { useEffect } from 'preact/hooks';
import { doc, fresh, reference, referenceStudy, study } from '../../app/state';
import type { Study } from '../../compute/usecases';
import { keepSame } from '../../shape/studied';
import type { Store } from '../../store/store';
import { o } from '../../text/own';
import { answer, isFresh } from '../season/run';
import { ask, dropYear, newestFirst } from './ask';
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
/** `band`: the year is there, and what its inputs leave open is being run. */
export const yearState = signal<'idle' | 'working' | 'band' | 'failed'>('idle');
/** Money with its year while that belongs to what is shown. */
export const yearMoney = computed(() =>
  yearRun.value?.project === builtProject.value ? yearRun.value.money : null,
);
let yearTurn = 0;

/** The year with its band, if the sheet of the season has run it; another heater's saving it does not band. */
const knownYear = (project: Project): SeasonAnswer | null => {
  const known = isFresh.peek() && project.season?.heater === undefined ? answer.peek()?.answer : undefined;
  return known?.complete === true && known.solver.converged ? known : null;
};

/** Runs the year for the money of what is shown: plainly first, then again for each doubt. */
export async function runYear(): Promise<void> {
  const project = builtProject.peek();
  const studies = studiesOf(fresh.peek() ? study.peek() : null);
  const known = knownYear(project);
  const mine = ++yearTurn;
  dropYear();
  const year = async (band: boolean): Promise<void> => {
    const money = await ask('year', { project, prove: false, studies, band, known });
    if (mine === yearTurn) yearRun.value = { project, money };
  };
  yearState.value = 'working';
  try {
    await year(false);
  } catch {
    if (mine === yearTurn) yearState.value = 'failed';
    return;
  }
  if (known === null && mine === yearTurn) {
    yearState.value = 'band';
    // without its band the year still stands
    await year(true).catch(() => undefined);
  }
  if (mine === yearTurn) yearState.value = 'idle';
}

/** A year of what is no longer shown is not run to its end. */
function endOldYear(project: Project): void {
  if (yearState.peek() === 'idle' || yearRun.peek()?.project === project) return;
  yearTurn++;
  dropYear();
  yearState.value = 'idle';
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
  useEffect(() => endOldYear(project), [project]);
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
