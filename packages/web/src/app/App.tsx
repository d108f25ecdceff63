import type { ComponentType } from 'preact';
import { useEffect, useState } from 'preact/hooks';
import { Doors } from '../doors/Doors';
import { way } from '../doors/state';
import { later } from '../parts/later';
import { elsewhere, type Keeper } from '../projects/keeper';
import { SHEETS } from '../sheets/registry';
import { t } from '../text/catalogue';
import { commandFor } from './commands';
import { useApp } from './context';
import { Frame } from './Frame';
import {
  answered,
  doc,
  drawerOpen,
  paletteOpen,
  projectsOpen,
  reference,
  saveState,
  sheet,
  storeState,
  trouble,
} from './state';
import { Tabs } from './Tabs';
import { Toast } from './Toast';

const KeepBar = later(async () => (await import('../projects/KeepBar')).KeepBar);
const Problems = later(async () => (await import('./Problems')).Problems);
const Drawer = later(async () => (await import('./Drawer')).Drawer);
const Palette = later(async () => (await import('./Palette')).Palette);
const Projects = later(async () => (await import('../projects/Projects')).Projects);

function Icon({ path }: { path: string }) {
  return (
    <svg width="20" height="20" viewBox="0 0 20 20" aria-hidden="true">
      <path
        d={path}
        fill="none"
        stroke="currentColor"
        stroke-width="1.6"
        stroke-linecap="round"
        stroke-linejoin="round"
      />
    </svg>
  );
}

function Mark() {
  return (
    <svg class="mark" width="30" height="22" viewBox="0 0 30 22" aria-hidden="true">
      <path d="M2 7h20a4 4 0 0 1 0 8H8a4 4 0 0 0 0 0" fill="none" stroke="currentColor" stroke-width="2" />
      <path d="M2 11h20" fill="none" stroke="currentColor" stroke-width="1" />
      <path d="M2 15h6" fill="none" stroke="currentColor" stroke-width="2" />
      <circle cx="26" cy="4" r="2.6" fill="currentColor" />
    </svg>
  );
}

function Bar() {
  const { store, actions } = useApp();
  const { past, future, drag } = storeState.value;
  const back = drag?.name ?? past[past.length - 1]?.name;
  const on = future[0]?.name;
  const held = reference.value;
  return (
    <header class="bar">
      <div class="brand">
        <Mark />
        <span class="brand-name">{t.app}</span>
      </div>
      <Tabs />
      <p class="job">
        <strong>{doc.value.project.name}</strong> <span aria-live="polite">{t.saved[saveState.value]}</span>
      </p>
      <div class="tools">
        <button
          type="button"
          class="tool"
          disabled={back === undefined}
          aria-label={back === undefined ? t.nothingToUndo : t.undo(back)}
          title={back === undefined ? t.nothingToUndo : t.undo(back)}
          onClick={() => store.undo()}
        >
          <Icon path="M7 4 3 8l4 4M3 8h8.5a4.5 4.5 0 0 1 0 9H9" />
        </button>
        <button
          type="button"
          class="tool"
          disabled={on === undefined}
          aria-label={on === undefined ? t.nothingToRedo : t.redo(on)}
          title={on === undefined ? t.nothingToRedo : t.redo(on)}
          onClick={() => store.redo()}
        >
          <Icon path="m13 4 4 4-4 4M17 8H8.500a4.500 4.500 0 0 0 0 9H11" />
        </button>
        <button
          type="button"
          class={`tool tool-word ${held === null ? '' : 'tool-on'}`}
          aria-pressed={held !== null}
          aria-label={held === null ? t.commands.hold : t.commands.drop}
          title={held === null ? t.commands.hold : t.commands.drop}
          onClick={() => (held === null ? actions.holdReference() : actions.dropReference())}
        >
          <Icon path="M4 6h8v10H4zM8 6V3.500h8v10h-4" />
          <span>{held === null ? t.reference.hold : t.reference.held}</span>
        </button>
        <button
          type="button"
          class="tool tool-word"
          data-drawer
          aria-expanded={drawerOpen.value}
          aria-label={t.commands.moment}
          title={t.commands.moment}
          onClick={() => actions.toggleDrawer()}
        >
          <Icon path="M10 3v1.500M10 15.500V17M3 10h1.500M15.500 10H17M5 5l1 1M14 14l1 1M5 15l1-1M14 6l1-1M13 10a3 3 0 1 1-6 0 3 3 0 0 1 6 0" />
          <span>{t.drawer.open}</span>
        </button>
        <button
          type="button"
          class="tool"
          aria-label={t.menu}
          title={t.menu}
          onClick={() => actions.showPalette()}
        >
          <Icon path="M3 5.500h14M3 10h14M3 14.500h9" />
        </button>
      </div>
    </header>
  );
}

/** The shell: tabs of the set, the sheet, the drawer, the palette. */
export function App({ keeper }: { keeper: Keeper }) {
  const { store, actions } = useApp();
  const [page, setPage] = useState<{ id: string; Sheet: ComponentType } | null>(null);
  const id = sheet.value;
  const asking = way.value !== null;
  useEffect(() => {
    let live = true;
    const record = SHEETS.find((s) => s.id === id) ?? SHEETS[0];
    void (asking ? import('../doors/FirstWay') : record.load()).then(({ default: Sheet }) => {
      if (live) setPage({ id: asking ? 'first' : record.id, Sheet });
    });
    document.title = `${record.name} · ${t.app}`;
    return () => {
      live = false;
    };
  }, [id, asking]);
  const behind = answered.value;
  useEffect(() => {
    // what a key opens is there when the key is pressed; what did not come is fetched when it is wanted
    if (behind) for (const part of [Palette, Drawer, Projects]) part.fetch().catch(() => {});
  }, [behind]);
  useEffect(() => {
    const context = { store, app: actions };
    const onKey = (event: KeyboardEvent) => {
      const command = commandFor(event, context);
      if (command === null) return;
      event.preventDefault();
      command.run(context);
    };
    const onHash = () => {
      const wanted = location.hash.slice(1);
      if (SHEETS.some((s) => s.id === wanted)) sheet.value = wanted;
    };
    onHash();
    window.addEventListener('keydown', onKey);
    window.addEventListener('hashchange', onHash);
    return () => {
      window.removeEventListener('keydown', onKey);
      window.removeEventListener('hashchange', onHash);
    };
  }, []);
  return (
    <div class="app">
      <a class="skip" href="#sheet-main">
        {t.skip}
      </a>
      <Bar />
      {(elsewhere.value || saveState.value === 'full' || saveState.value === 'failed') && (
        <KeepBar keeper={keeper} />
      )}
      <main id="sheet-main" class={`sheet sheet-${page?.id ?? id}`} tabIndex={-1}>
        <h1 class="away">{SHEETS.find((s) => s.id === id)?.name}</h1>
        <Frame />
        {page === null ? <p class="loading">{t.loading}</p> : <page.Sheet />}
      </main>
      <Doors keeper={keeper} />
      {projectsOpen.value && <Projects keeper={keeper} />}
      {drawerOpen.value && <Drawer />}
      {paletteOpen.value && <Palette />}
      {trouble.value !== null && <Problems />}
      <Toast />
    </div>
  );
}
