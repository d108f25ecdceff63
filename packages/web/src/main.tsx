import './styles/index.css';
import { effect } from '@preact/signals';
import { parseProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { render } from 'preact';
import { App } from './app/App';
import { AppContextProvider } from './app/context';
import { chooseFile, example, readFile, saveFile } from './app/files';
import {
  bind,
  drawerOpen,
  focus,
  paletteOpen,
  reference,
  saveState,
  say,
  sheet,
  type Theme,
  theme,
  tubeOpen,
} from './app/state';
import { createRunner } from './compute/runner';
import { createAutosave } from './store/autosave';
import type { AppActions } from './store/command';
import { type Doc, firstMoment } from './store/doc';
import { openStorage, type Storage, type StoredProject } from './store/storage';
import { createStore } from './store/store';
import { t } from './text/catalogue';

const THEME_KEY = 'sunlap-theme';

function storedTheme(): Theme {
  try {
    const value = localStorage.getItem(THEME_KEY);
    return value === 'light' || value === 'dark' ? value : 'auto';
  } catch {
    return 'auto';
  }
}

const freshId = () => `p${Date.now().toString(36)}${Math.random().toString(36).slice(2, 8)}`;

async function restore(storage: Storage | null): Promise<StoredProject | null> {
  try {
    const kept = (await storage?.current()) ?? null;
    if (kept === null) return null;
    const checked = parseProject(kept.doc.project);
    return checked.ok ? { ...kept, doc: { ...kept.doc, project: checked.project } } : null;
  } catch {
    return null;
  }
}

async function start() {
  let storage: Storage | null = null;
  try {
    storage = await openStorage();
  } catch {
    storage = null;
  }
  const kept = await restore(storage);
  const fromExample = async (which: 'quince' | 'tern'): Promise<Doc> => {
    const project = await example(which);
    return { project, moment: firstMoment(project) };
  };
  const first = kept?.doc ?? (await fromExample('quince'));
  let id = kept?.id ?? freshId();
  const store = createStore(first);
  if (kept?.reference != null) reference.value = { name: t.reference.held, doc: kept.reference };

  const runner = createRunner(
    () => new Worker(new URL('./compute/worker.ts', import.meta.url), { type: 'module' }),
    async () => (await import('./compute/here')).study,
  );
  const autosave = createAutosave(storage, (state) => {
    saveState.value = state;
  });
  const keep = (step: string | null) => {
    const { doc } = store.get();
    autosave.keep(
      { id, name: doc.project.name, savedAt: Date.now(), doc, reference: reference.peek()?.doc ?? null },
      step,
    );
  };
  let lastDrag = 0;
  store.subscribe((state, change) => {
    if (change === 'drag') {
      const now = Date.now();
      if (now - lastDrag < 150) return;
      lastDrag = now;
      return keep(null);
    }
    keep(change === 'commit' ? (state.past[state.past.length - 1]?.name ?? null) : change);
  });
  const flush = () => keep(null);
  window.addEventListener('pagehide', flush);
  document.addEventListener('visibilitychange', () => {
    if (document.visibilityState === 'hidden') flush();
  });

  const open = (project: Project) => {
    id = freshId();
    focus.value = null;
    tubeOpen.value = null;
    reference.value = null;
    store.apply(t.steps.open(project.name), { doc: { project, moment: firstMoment(project) }, undo: 'load' });
    say(t.files.opened(project.name));
  };
  const actions: AppActions = {
    openFile: () => {
      void chooseFile()
        .then((file) => (file === null ? null : readFile(file)))
        .then((project) => {
          if (project !== null) open(project);
        });
    },
    saveFile: () => saveFile(store.get().doc.project),
    openExample: (which) => {
      void example(which).then(open);
    },
    holdReference: () => {
      const { doc } = store.get();
      reference.value = { name: doc.project.name, doc };
      say(t.files.held);
      keep(null);
    },
    dropReference: () => {
      reference.value = null;
      say(t.files.dropped);
      keep(null);
    },
    hasReference: () => reference.peek() !== null,
    goTo: (wanted) => {
      location.hash = wanted;
      sheet.value = wanted;
    },
    toggleDrawer: () => {
      drawerOpen.value = !drawerOpen.peek();
    },
    setTheme: (wanted) => {
      theme.value = wanted;
    },
    showPalette: () => {
      paletteOpen.value = true;
    },
  };
  theme.value = storedTheme();
  effect(() => {
    try {
      localStorage.setItem(THEME_KEY, theme.value);
    } catch {
      // a browser that keeps nothing still shows the sheet
    }
  });
  bind(store, runner);
  if (storage === null) {
    saveState.value = 'failed';
    say(t.files.noStore);
  } else if (kept === null) keep(null);

  document.addEventListener('dragover', (event) => event.preventDefault());
  document.addEventListener('drop', (event) => {
    event.preventDefault();
    const file = event.dataTransfer?.files[0];
    if (file !== undefined)
      void readFile(file).then((project) => {
        if (project !== null) open(project);
      });
  });

  const root = document.getElementById('app');
  if (root !== null)
    render(
      <AppContextProvider.Provider value={{ store, runner, actions }}>
        <App />
      </AppContextProvider.Provider>,
      root,
    );
}

void start();
