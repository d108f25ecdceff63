import type { Doc } from './doc';
import type { Outcome, Store } from './store';

/** What a command may reach. */
export interface CommandContext {
  store: Store;
  app: AppActions;
}

/** Things of the app that are not the document. */
export interface AppActions {
  openFile(): void;
  saveFile(): void;
  openExample(which: 'quince' | 'tern'): void;
  holdReference(): void;
  dropReference(): void;
  hasReference(): boolean;
  goTo(sheet: string): void;
  toggleDrawer(): void;
  setTheme(theme: 'light' | 'dark' | 'auto'): void;
  showPalette(): void;
  showProjects(): void;
  enterDoor(door: 'plan' | 'have'): void;
}

/** One record feeds menu, palette, shortcut and button. */
export interface Command {
  id: string;
  label: string;
  /** As shown: `Ctrl+Z`. */
  shortcut?: string;
  available?(context: CommandContext): boolean;
  run(context: CommandContext): void;
}

/** An edit of the document that needs an argument; its label names the step in undo. */
export interface Edit<A> {
  id: string;
  label(args: A): string;
  run(doc: Doc, args: A): Outcome;
}

export function perform<A>(store: Store, edit: Edit<A>, args: A): void {
  store.apply(edit.label(args), edit.run(store.get().doc, args));
}
