import { computed, effect, type ReadonlySignal, signal } from '@preact/signals';
import { DARK, LIGHT } from '@sunlap/drawing/palette';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { Result, Runner } from '../compute/runner';
import type { Study } from '../compute/usecases';
import { rank } from '../shape/rank';
import { keepSame, sameStudy } from '../shape/studied';
import type { SaveState } from '../store/autosave';
import type { Doc } from '../store/doc';
import type { Store, StoreState } from '../store/store';

/** Signals that the face reads. The store stays free of any framework; `bind` is all that ties them. */
export const storeState = signal<StoreState>(undefined as unknown as StoreState);
export const doc = computed<Doc>(() => storeState.value.doc);
export const units = computed<UnitSystem>(() => doc.value.project.units);
const olderOfSame = keepSame(sameStudy);
/** The document that flow and heat are asked for: one and the same while only prices, ticks or the log change. */
export const studied = computed<Doc>(() => olderOfSame(doc.value));
/** Newest answer of any depth; the one for the newest change may still be on its way. */
export const latest = signal<Result | null>(null);
/** Newest full answer. */
export const latestFull = signal<Result | null>(null);
/** Newest answer on starting from empty and the vacuum breaker, which takes longest. */
export const latestStart = signal<Result | null>(null);
const studyOf = (result: Result | null): Study | null =>
  result !== null && 'study' in result ? result.study : null;

/** True once everything on the sheet, bands and notes included, belongs to the document shown. */
export const fresh = computed(() => latestFull.value?.doc === studied.value);

/** True while how the panel starts is still worked out for what is shown. */
export const startWorking = computed(() => latestStart.value?.doc !== studied.value);

/** A full answer with what is known of starting, where both belong together. */
function withStart(full: Study): Study {
  const start = studyOf(latestStart.value)?.start;
  if (start === undefined || latestStart.value?.doc !== latestFull.value?.doc) return full;
  const result = { ...full.flow.result, start: start.start, vacuumBreaker: start.vacuumBreaker };
  return { ...full, flow: { ...full.flow, result }, start };
}

/**
 * What the sheet shows: the full answer where it belongs to the document, else the quick one with the loop's
 * curves of the last full one. Bands are left out until they belong.
 */
export const study = computed<Study | null>(() => {
  const full = studyOf(latestFull.value);
  if (full !== null && latestFull.value?.doc === studied.value) return withStart(full);
  const quick = studyOf(latest.value);
  if (quick === null || full === null) return quick ?? full;
  const was = full.flow.result.loop;
  const now = quick.flow.result.loop;
  const loop = {
    ...now,
    curveNow: now.curveNow.length > 0 ? now.curveNow : was.curveNow,
    curveThrough: now.curveThrough.length > 0 ? now.curveThrough : was.curveThrough,
    curvePast: now.curvePast.length > 0 ? now.curvePast : was.curvePast,
  };
  return { ...quick, flow: { ...quick.flow, result: { ...quick.flow.result, loop } } };
});

/**
 * Notes of the last full answer; `fresh` tells whether they belong to what is shown. Those on starting follow
 * later: until then the last ones stand.
 */
export const notices = computed(() => {
  const full = studyOf(latestFull.value);
  const start = studyOf(latestStart.value)?.start?.notices ?? [];
  return full === null ? [] : rank([...(full.heat?.notices ?? []), ...full.flow.notices, ...start]);
});
export const moving = computed(() => storeState.value.drag !== null);
/**
 * A sheet with its own worker says here whether it has answered what is shown. Until then the longer studies of
 * the panel wait: on two cores they would halve its speed.
 */
export const sheetAnswered = signal<ReadonlySignal<boolean> | null>(null);
/** Set once the first answer is on the sheet: what is not needed for it is fetched behind it. */
export const answered = signal(false);
const mayStudy = computed(() => answered.value && !moving.value && (sheetAnswered.value?.value ?? true));

export interface Reference {
  name: string;
  doc: Doc;
}
export const reference = signal<Reference | null>(null);
export const referenceStudy = signal<Study | null>(null);

export const saveState = signal<SaveState>('saved');
export const sheet = signal('collector');
/** One section alone on the Collector sheet; null for all. */
export const focus = signal<string | null>(null);
export const tubesShow = signal<'heat' | 'share'>('heat');
export const trueScale = signal(false);
export const drawerOpen = signal(false);
export const paletteOpen = signal(false);
export const projectsOpen = signal(false);
/** What the editor is open for. */
export const editing = signal<{ id: string; from: HTMLElement | null } | null>(null);
export const whyOpen = signal<string | null>(null);
/** Tube that is looked at. */
export const tubeOpen = signal<{ section: string; bank: string; position: number } | null>(null);
export const toast = signal<{ text: string; n: number } | null>(null);
export const trouble = signal<{ title: string; lines: string[] } | null>(null);

export type Theme = 'light' | 'dark' | 'auto';
export const theme = signal<Theme>('auto');
const deviceDark = signal(false);
export const dark = computed(() => (theme.value === 'auto' ? deviceDark.value : theme.value === 'dark'));
export const palette = computed(() => (dark.value ? DARK : LIGHT));

export const narrow = signal(false);
export const still = signal(false);
/** Room for a third note in the margin. */
export const roomy = signal(false);

let toasts = 0;
export function say(text: string): void {
  toast.value = { text, n: ++toasts };
}

function watch(query: string, into: { value: boolean }) {
  const media = matchMedia(query);
  into.value = media.matches;
  media.addEventListener('change', () => {
    into.value = media.matches;
  });
}

/** Ties store and runner to the signals; called once. */
export function bind(store: Store, runner: Runner): void {
  watch('(prefers-color-scheme: dark)', deviceDark);
  watch('(max-width: 767px)', narrow);
  watch('(prefers-reduced-motion: reduce)', still);
  watch('(min-width: 1400px) and (min-height: 1080px)', roomy);
  storeState.value = store.get();
  const { sections } = store.get().doc.project.collector;
  if (narrow.value && sections.length > 1) focus.value = sections[0].id;
  store.subscribe((state) => {
    storeState.value = state;
  });
  effect(() => {
    const asked = studied.value;
    runner.ask('live', 'sheet', asked, (result) => {
      latest.value = result;
      if (!answered.peek())
        setTimeout(() => {
          answered.value = true;
        });
    });
  });
  effect(() => {
    const asked = studied.value;
    if (!mayStudy.value) return;
    runner.ask('full', 'sheet', asked, (result) => {
      latestFull.value = result;
    });
  });
  effect(() => {
    const asked = studied.value;
    // what is quick is shown first
    if (!mayStudy.value || latestFull.value?.doc !== asked || latestStart.peek()?.doc === asked) return;
    runner.ask('start', 'sheet', asked, (result) => {
      latestStart.value = result;
    });
  });
  effect(() => {
    const held = reference.value;
    if (held === null) {
      referenceStudy.value = null;
      return;
    }
    runner.ask('reference', 'reference', held.doc, (result) => {
      if (reference.value === held && 'study' in result) referenceStudy.value = result.study;
    });
  });
  effect(() => {
    document.documentElement.dataset.theme = dark.value ? 'dark' : 'light';
  });
}
