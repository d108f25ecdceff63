import type { Storage, StoredProject } from './storage';

export type SaveState = 'saved' | 'saving' | 'failed';

/**
 * Keeps the newest state and writes one at a time: what arrives while a write runs replaces what waits, so that
 * nothing is written twice and the last one is always written.
 */
export function createAutosave(storage: Storage | null, tell: (state: SaveState) => void) {
  let waiting: { project: StoredProject; step: string | null } | null = null;
  let running = false;
  async function drain() {
    if (storage === null) return tell('failed');
    running = true;
    tell('saving');
    let ok = true;
    while (waiting !== null) {
      const job = waiting;
      waiting = null;
      try {
        await storage.save(job.project, job.step);
      } catch {
        ok = false;
      }
    }
    running = false;
    tell(ok ? 'saved' : 'failed');
  }
  return {
    /** @param step name of a finished step, null for a movement that still goes on */
    keep(project: StoredProject, step: string | null) {
      waiting = { project, step: step ?? waiting?.step ?? null };
      if (!running) void drain();
    },
  };
}
