import type { Journal } from './journal';
import { ChangedElsewhere, type Storage, type StoredProject } from './storage';

export type SaveState =
  | 'saved'
  | 'saving'
  /** The browser lets nothing be kept. */
  | 'failed'
  /** No room left: what is on the sheet is only in memory. */
  | 'full'
  /** Another tab holds this project. */
  | 'elsewhere';

export interface Autosave {
  /** @param step name of a finished step, null for a movement that still goes on */
  keep(project: StoredProject, step: string | null): void;
  /** Another project, or the same as somebody else left it, is what is written on from here. */
  follow(id: string, seenAt: number): void;
}

const isFull = (error: unknown): boolean =>
  error instanceof DOMException && (error.name === 'QuotaExceededError' || error.name === 'UnknownError');

/**
 * Keeps the newest state and writes one at a time: what arrives while a write runs replaces what waits, so that
 * nothing is written twice and the last one is always written. Each state goes to the journal at once.
 */
export function createAutosave(
  storage: Storage | null,
  journal: Journal,
  tell: (state: SaveState) => void,
): Autosave {
  let waiting: { project: StoredProject; step: string | null } | null = null;
  let running = false;
  let seen = { id: '', at: 0 };
  async function drain() {
    if (storage === null) return tell('failed');
    running = true;
    tell('saving');
    let state: SaveState = 'saved';
    while (waiting !== null) {
      const job: { project: StoredProject; step: string | null } = waiting;
      waiting = null;
      try {
        await storage.save(job.project, job.step, seen.id === job.project.id ? seen.at : 0);
        if (seen.id === job.project.id && seen.at < job.project.savedAt) seen.at = job.project.savedAt;
        journal.clear(job.project.id, job.project.savedAt);
        state = 'saved';
      } catch (error) {
        state = error instanceof ChangedElsewhere ? 'elsewhere' : isFull(error) ? 'full' : 'failed';
        // the step stays named until it is kept
        if (waiting === null && state !== 'elsewhere') unsaved = job.step;
      }
    }
    running = false;
    tell(state);
  }
  let unsaved: string | null = null;
  return {
    keep(project, step) {
      waiting = { project, step: step ?? waiting?.step ?? unsaved };
      unsaved = null;
      if (storage !== null)
        journal.write({ project, step: waiting.step, seenAt: seen.id === project.id ? seen.at : 0 });
      if (!running) void drain();
    },
    follow(id, seenAt) {
      waiting = null;
      unsaved = null;
      seen = { id, at: seenAt };
    },
  };
}
