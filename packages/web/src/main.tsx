import './styles/index.css';
import { effect } from '@preact/signals';
import type { Project } from '@sunlap/project/schema/project';
import { render } from 'preact';
import { App } from './app/App';
import { AppContextProvider } from './app/context';
import { chooseFile, example, readFile, saveFile } from './app/files';
import {
  bind,
  drawerOpen,
  focus,
  narrow,
  paletteOpen,
  projectsOpen,
  reference,
  saveState,
  say,
  sheet,
  type Theme,
  theme,
  tubeOpen,
} from './app/state';
import { createRunner } from './compute/runner';
import { doorsOpen, doorsSeen, enterDoor, resumeWay } from './doors/state';
import { createKeeper } from './projects/keeper';
import type { AppActions } from './store/command';
import { type Doc, firstMoment } from './store/doc';
import { openStorage, type Storage } from './store/storage';
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

/** The small store, where the browser allows it. */
function smallStore(): globalThis.Storage | null {
  try {
    return localStorage;
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
  const keeper = createKeeper(storage, smallStore());
  const kept = await keeper.start();
  const fromExample = async (which: 'quince' | 'tern'): Promise<Doc> => {
    const project = await example(which);
    return { project, moment: firstMoment(project) };
  };
  const store = createStore(kept?.doc ?? (await fromExample('quince')));
  if (kept?.reference != null) reference.value = { name: t.reference.held, doc: kept.reference };

  const runner = createRunner(
    () => new Worker(new URL('./compute/worker.ts', import.meta.url), { type: 'module' }),
    async () => (await import('./compute/quick')).quickStudy,
  );
  const keep = (step: string | null) => keeper.keep(step);

  const open = (project: Project) => {
    focus.value = null;
    tubeOpen.value = null;
    reference.value = null;
    store.apply(t.steps.open(project.name), { doc: { project, moment: firstMoment(project) }, undo: 'load' });
    keeper.begin();
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
    showProjects: () => {
      projectsOpen.value = true;
    },
    enterDoor: (door) => void enterDoor(door, store, keeper),
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
  keeper.attach(store);
  if (storage === null) {
    saveState.value = 'failed';
    say(t.files.noStore);
  }
  resumeWay();
  const first = location.hash === '' || location.hash === '#';
  const own = kept !== null && kept.doc.project.invented !== true;
  if (first && own && narrow.peek()) sheet.value = 'home';
  doorsOpen.value = first && !own && !doorsSeen();

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
        <App keeper={keeper} />
      </AppContextProvider.Provider>,
      root,
    );
}

void start();

if (import.meta.env.PROD && 'serviceWorker' in navigator)
  // without one the app runs as well, but only with a network
  navigator.serviceWorker.register('./sw.js').catch(() => {});
