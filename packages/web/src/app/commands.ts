import { SHEETS } from '../sheets/registry';
import type { Command, CommandContext } from '../store/command';
import { t } from '../text/catalogue';
import { p } from '../text/projects';
import { say } from './state';

const setUnits =
  (units: 'us' | 'metric') =>
  ({ store }: CommandContext) => {
    const { doc } = store.get();
    if (doc.project.units === units) return;
    const label = units === 'us' ? t.commands.us : t.commands.metric;
    store.apply(label, { doc: { ...doc, project: { ...doc.project, units } }, undo: 'commit' });
  };

/** One record each; menu, palette, shortcuts and buttons all read this list. */
export const COMMANDS: readonly Command[] = [
  {
    id: 'undo',
    label: t.commands.undo,
    shortcut: 'Mod+Z',
    available: ({ store }) => store.get().past.length > 0 || store.get().drag !== null,
    run: ({ store }) => {
      const step = store.get().past[store.get().past.length - 1];
      store.undo();
      if (step !== undefined) say(t.files.undone(step.name));
    },
  },
  {
    id: 'redo',
    label: t.commands.redo,
    shortcut: 'Mod+Shift+Z',
    available: ({ store }) => store.get().future.length > 0,
    run: ({ store }) => {
      const step = store.get().future[0];
      store.redo();
      if (step !== undefined) say(t.files.redone(step.name));
    },
  },
  { id: 'save', label: t.commands.save, shortcut: 'Mod+S', run: ({ app }) => app.saveFile() },
  { id: 'open', label: t.commands.open, shortcut: 'O', run: ({ app }) => app.openFile() },
  { id: 'projects', label: p.command, run: ({ app }) => app.showProjects() },
  { id: 'plan', label: p.plan, run: ({ app }) => app.enterDoor('plan') },
  { id: 'have', label: p.have, run: ({ app }) => app.enterDoor('have') },
  {
    id: 'hold',
    label: t.commands.hold,
    shortcut: 'Shift+R',
    available: ({ app }) => !app.hasReference(),
    run: ({ app }) => app.holdReference(),
  },
  {
    id: 'drop',
    label: t.commands.drop,
    shortcut: 'Shift+R',
    available: ({ app }) => app.hasReference(),
    run: ({ app }) => app.dropReference(),
  },
  { id: 'moment', label: t.commands.moment, shortcut: 'M', run: ({ app }) => app.toggleDrawer() },
  { id: 'palette', label: t.commands.palette, shortcut: 'Mod+K', run: ({ app }) => app.showPalette() },
  ...SHEETS.map(
    (s): Command => ({
      id: `sheet-${s.id}`,
      label: t.commands.goTo(s.name),
      shortcut: String(s.number),
      run: ({ app }) => app.goTo(s.id),
    }),
  ),
  { id: 'us', label: t.commands.us, run: setUnits('us') },
  { id: 'metric', label: t.commands.metric, run: setUnits('metric') },
  { id: 'light', label: t.commands.light, run: ({ app }) => app.setTheme('light') },
  { id: 'dark', label: t.commands.dark, run: ({ app }) => app.setTheme('dark') },
  { id: 'auto', label: t.commands.auto, run: ({ app }) => app.setTheme('auto') },
  { id: 'quince', label: t.commands.quince, run: ({ app }) => app.openExample('quince') },
  { id: 'tern', label: t.commands.tern, run: ({ app }) => app.openExample('tern') },
];

/** As the keyboard in front of the person names it. */
export function shortcutText(shortcut: string): string {
  const mac = /Mac|iPhone|iPad/.test(navigator.userAgent);
  return shortcut.replace('Mod', mac ? '⌘' : 'Ctrl');
}

/** The command that a key press means, if any. Plain letters are left alone while someone types. */
export function commandFor(event: KeyboardEvent, context: CommandContext): Command | null {
  const target = event.target as HTMLElement | null;
  const typing =
    target !== null &&
    /^(INPUT|TEXTAREA|SELECT)$/.test(target.tagName) &&
    (target as HTMLInputElement).type !== 'range' &&
    (target as HTMLInputElement).type !== 'checkbox' &&
    (target as HTMLInputElement).type !== 'radio';
  const mod = event.ctrlKey || event.metaKey;
  const pressed = [
    mod ? 'Mod' : '',
    event.shiftKey ? 'Shift' : '',
    event.key.length === 1 ? event.key.toUpperCase() : event.key,
  ]
    .filter((part) => part !== '')
    .join('+');
  if (event.altKey || (typing && (!mod || pressed === 'Mod+Z' || pressed === 'Mod+Shift+Z'))) return null;
  return COMMANDS.find((c) => c.shortcut === pressed && c.available?.(context) !== false) ?? null;
}
