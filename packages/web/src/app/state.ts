import { computed, effect, signal } from '@preact/signals';
import { DARK, LIGHT } from '@sunlap/drawing/palette';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { Result, Runner } from '../compute/runner';
import type { Study } from '../compute/usecases';
import type { SaveState } from '../store/autosave';
import type { Doc } from '../store/doc';
import type { Store, StoreState } from '../store/store';

/** Signals that the face reads. The store stays free of any framework; `bind` is all that ties them. */
export const storeState = signal<StoreState>(undefined as unknown as StoreState);
export const doc = computed<Doc>(() => storeState.value.doc);
export const units = computed<UnitSystem>(() => doc.value.project.units);
export const latest = signal<Result | null>(null);
/** Newest answer, though the one for the newest change may still be on its way. */
export const study = computed<Study | null>(() =>
  latest.value !== null && 'study' in latest.value ? latest.value.study : null,
);
export const fresh = computed(() => latest.value?.doc === doc.value);
export const moving = computed(() => storeState.value.drag !== null);

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
  storeState.value = store.get();
  const { sections } = store.get().doc.project.collector;
  if (narrow.value && sections.length > 1) focus.value = sections[0].id;
  store.subscribe((state) => {
    storeState.value = state;
  });
  effect(() => {
    const asked = doc.value;
    runner.ask('live', 'sheet', asked, (result) => {
      latest.value = result;
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
