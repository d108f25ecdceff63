import type { Doc } from './doc';

/** How undo treats the result of a command. */
export type UndoKind =
  /** A step of its own. */
  | 'commit'
  /** Part of a movement that becomes one step when it ends. */
  | 'drag'
  /** Another project altogether: history starts anew. */
  | 'load';

export interface Outcome {
  doc: Doc;
  undo: UndoKind;
}

export interface Step {
  name: string;
  /** The document before the step. */
  doc: Doc;
}

export interface StoreState {
  doc: Doc;
  past: readonly Step[];
  future: readonly Step[];
  drag: Step | null;
  /** Counts every change of `doc`, so that results of an older one can be told. */
  revision: number;
}

export type Listener = (state: StoreState, change: UndoKind | 'undo' | 'redo') => void;

const MOST_STEPS = 200;

export interface Store {
  get(): StoreState;
  subscribe(listener: Listener): () => void;
  apply(name: string, outcome: Outcome): void;
  /** Turns a movement into one step; without one nothing happens. */
  endDrag(): void;
  cancelDrag(): void;
  undo(): void;
  redo(): void;
}

/** A plain store: one document, named steps back and forth. Knows nothing of who shows it. */
export function createStore(doc: Doc): Store {
  let state: StoreState = { doc, past: [], future: [], drag: null, revision: 0 };
  const listeners = new Set<Listener>();
  const set = (next: Omit<StoreState, 'revision'>, change: Parameters<Listener>[1]) => {
    state = { ...next, revision: state.revision + (next.doc === state.doc ? 0 : 1) };
    for (const listener of listeners) listener(state, change);
  };
  const store: Store = {
    get: () => state,
    subscribe(listener) {
      listeners.add(listener);
      return () => listeners.delete(listener);
    },
    apply(name, { doc: next, undo }) {
      if (next === state.doc && undo !== 'load') return;
      if (undo === 'load') return set({ doc: next, past: [], future: [], drag: null }, undo);
      if (undo === 'drag') {
        const drag = state.drag ?? { name, doc: state.doc };
        return set({ ...state, doc: next, drag: { ...drag, name } }, undo);
      }
      const before = state.drag?.doc ?? state.doc;
      const past = [...state.past, { name, doc: before }].slice(-MOST_STEPS);
      set({ doc: next, past, future: [], drag: null }, undo);
    },
    endDrag() {
      const { drag, doc: now } = state;
      if (drag === null) return;
      if (drag.doc === now) return set({ ...state, drag: null }, 'commit');
      const past = [...state.past, drag].slice(-MOST_STEPS);
      set({ doc: now, past, future: [], drag: null }, 'commit');
    },
    cancelDrag() {
      if (state.drag !== null) set({ ...state, doc: state.drag.doc, drag: null }, 'undo');
    },
    undo() {
      if (state.drag !== null) return store.cancelDrag();
      const step = state.past[state.past.length - 1];
      if (step === undefined) return;
      const future = [{ name: step.name, doc: state.doc }, ...state.future];
      set({ doc: step.doc, past: state.past.slice(0, -1), future, drag: null }, 'undo');
    },
    redo() {
      // a movement is a change of its own: what was undone before it is gone
      if (state.drag !== null) store.endDrag();
      const step = state.future[0];
      if (step === undefined) return;
      const past = [...state.past, { name: step.name, doc: state.doc }];
      set({ doc: step.doc, past, future: state.future.slice(1), drag: null }, 'redo');
    },
  };
  return store;
}
