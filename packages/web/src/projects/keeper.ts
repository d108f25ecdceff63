import { signal } from '@preact/signals';
import { reference, saveState } from '../app/state';
import { type Autosave, createAutosave } from '../store/autosave';
import { createHold } from '../store/hold';
import { createJournal, type Journal } from '../store/journal';
import type { Storage, StoredProject, StoredVersion } from '../store/storage';
import type { Store } from '../store/store';
import { p } from '../text/projects';

/** Which stored project is on the sheet. */
export const projectId = signal('');
/** Another tab writes this project. */
export const elsewhere = signal(false);

const freshId = () => `p${Date.now().toString(36)}${Math.random().toString(36).slice(2, 8)}`;

/** A project from the store, checked as a file would be; null where it cannot be read. */
async function checked(kept: StoredProject | null): Promise<StoredProject | null> {
  if (kept === null) return null;
  const { parseProject } = await import('@sunlap/project/file/read');
  const answer = parseProject(kept.doc.project);
  return answer.ok ? { ...kept, doc: { ...kept.doc, project: answer.project } } : null;
}

export interface Keeper {
  /** What was on the sheet last, with everything that a killed tab had still on its way. */
  start(): Promise<StoredProject | null>;
  /** Follows the store from here on. */
  attach(store: Store): void;
  /** What is on the sheet now is a project of its own. */
  begin(): void;
  keep(step: string | null): void;
  list(): Promise<StoredProject[]>;
  versions(): Promise<StoredVersion[]>;
  open(id: string): Promise<boolean>;
  remove(id: string): Promise<void>;
  /** Here instead of in the other tab, as that one left it. */
  takeOver(): Promise<void>;
  /** Goes on with a copy under another name. */
  copy(): void;
}

/** Ties document, browser store, journal and the lock between tabs together. */
export function createKeeper(storage: Storage | null, area: globalThis.Storage | null): Keeper {
  const journal: Journal = createJournal(area);
  const hold = createHold(
    navigator.locks,
    () => {
      elsewhere.value = true;
      saveState.value = 'elsewhere';
    },
    (id) => {
      if (touched) return false;
      void goOnWith(id);
      return true;
    },
  );
  const autosave: Autosave = createAutosave(storage, journal, (state) => {
    if (state === 'elsewhere') elsewhere.value = true;
    saveState.value = state;
  });
  const writer = freshId();
  let store: Store | null = null;
  let loading = false;
  /** Something was changed here while another tab held the project. */
  let touched = false;
  /** Freed before there was a document to go on with. */
  let waiting: string | null = null;

  async function claim(id: string, savedAt: number) {
    projectId.value = id;
    autosave.follow(id, savedAt);
    elsewhere.value = false;
    touched = false;
    const mine = await hold.take(id);
    if (projectId.peek() !== id) return;
    elsewhere.value = !mine;
    saveState.value = !mine ? 'elsewhere' : storage === null ? 'failed' : 'saved';
  }

  /** Two tabs wrote without a lock between them: both states are kept, the later one under a name that says so. */
  async function keepBeside(project: StoredProject, step: string | null) {
    const id = `${project.id}-${project.savedAt.toString(36)}`;
    if (storage === null || (await storage.get(id)) !== null) return;
    const name = p.recovered(project.name);
    const doc = { ...project.doc, project: { ...project.doc.project, name } };
    await storage.save({ ...project, id, name, doc }, step ?? p.recoveredStep, 0);
  }

  /** Puts what a killed tab had still on its way into the store, each project under its lock. */
  async function recover(only?: string) {
    if (storage === null) return;
    for (const { project, step, seenAt } of journal.all()) {
      if (only === undefined ? !(await hold.take(project.id)) : project.id !== only) continue;
      try {
        const there = await storage.get(project.id);
        const at = there?.savedAt ?? 0;
        // what is not newer is in the store already, or was followed by what is
        if (project.savedAt > at) {
          const follows = at <= seenAt || there?.writer === project.writer;
          await (follows ? storage.save(project, step, at) : keepBeside(project, step));
        }
        journal.clear(project.id, project.savedAt);
      } catch {
        // it stays in the journal for the next time
      }
    }
  }

  /** The other tab is gone: on from where it left off, unless something was changed here meanwhile. */
  async function goOnWith(id: string) {
    if (store === null) waiting = id;
    if (projectId.peek() !== id || store === null || touched) return;
    await recover(id);
    const kept = await checked((await storage?.get(id)) ?? null);
    if (kept === null || projectId.peek() !== id || touched) return;
    autosave.follow(id, kept.savedAt);
    elsewhere.value = false;
    saveState.value = 'saved';
    put(kept);
  }

  function put(kept: StoredProject) {
    loading = true;
    store?.apply(p.opened(kept.name), { doc: kept.doc, undo: 'load' });
    reference.value =
      kept.reference === null ? null : { name: kept.reference.project.name, doc: kept.reference };
    loading = false;
  }

  const keeper: Keeper = {
    async start() {
      try {
        await recover();
        const kept = await checked((await storage?.current()) ?? null);
        if (kept !== null) await claim(kept.id, kept.savedAt);
        return kept;
      } catch {
        return null;
      }
    },
    attach(to) {
      store = to;
      if (projectId.peek() === '') keeper.begin();
      else if (waiting !== null) void goOnWith(waiting);
      let lastDrag = 0;
      to.subscribe((state, change) => {
        if (loading || change === 'load') return;
        if (change === 'drag') {
          const now = Date.now();
          if (now - lastDrag < 150) return;
          lastDrag = now;
          return keeper.keep(null);
        }
        keeper.keep(change === 'commit' ? (state.past[state.past.length - 1]?.name ?? null) : p.back(change));
      });
      const flush = () => {
        if (store?.get().drag !== null) keeper.keep(null);
      };
      window.addEventListener('pagehide', flush);
      document.addEventListener('visibilitychange', () => {
        if (document.visibilityState === 'hidden') flush();
      });
    },
    begin() {
      const id = freshId();
      void claim(id, 0);
      keeper.keep(p.begun);
    },
    keep(step) {
      if (store === null) return;
      if (elsewhere.peek()) {
        touched = true;
        return;
      }
      const { doc } = store.get();
      autosave.keep(
        {
          id: projectId.peek(),
          name: doc.project.name,
          savedAt: Date.now(),
          writer,
          doc,
          reference: reference.peek()?.doc ?? null,
        },
        step,
      );
    },
    list: async () => (await storage?.list()) ?? [],
    versions: async () => (await storage?.versions(projectId.peek())) ?? [],
    async open(id) {
      const kept = await checked((await storage?.get(id)) ?? null);
      if (kept === null) return false;
      await claim(id, kept.savedAt);
      put(kept);
      // so that it is this one that is found again
      if (!elsewhere.peek()) keeper.keep(null);
      return true;
    },
    async remove(id) {
      await storage?.remove(id);
      journal.clear(id, Infinity);
    },
    async takeOver() {
      const id = projectId.peek();
      await hold.seize(id);
      const kept = await checked((await storage?.get(id)) ?? null);
      elsewhere.value = false;
      touched = false;
      saveState.value = 'saved';
      if (kept === null) return;
      autosave.follow(id, kept.savedAt);
      put(kept);
    },
    copy() {
      if (store === null) return;
      const { doc } = store.get();
      const name = p.copyOf(doc.project.name);
      loading = true;
      store.apply(p.copied, { doc: { ...doc, project: { ...doc.project, name } }, undo: 'load' });
      loading = false;
      keeper.begin();
    },
  };
  return keeper;
}
