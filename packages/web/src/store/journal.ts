import type { StoredProject } from './storage';

/** A state on its way into the store, with the step that made it and what it follows. */
export interface Entry {
  project: StoredProject;
  step: string | null;
  seenAt: number;
}

export interface Journal {
  write(entry: Entry): void;
  /** Takes the entry of a project away once it, or a newer one, is in the store. */
  clear(id: string, savedAt: number): void;
  all(): Entry[];
}

const PREFIX = 'sunlap-last:';

/**
 * The newest state once more in the browser's small store, which takes it before the call returns: a tab that is
 * killed while the real store still writes loses nothing. Where the small store is full or forbidden nothing is
 * written; the real store stands by itself then.
 */
export function createJournal(
  area: Pick<globalThis.Storage, 'getItem' | 'setItem' | 'removeItem' | 'key' | 'length'> | null,
): Journal {
  const attempt = <T>(run: () => T, otherwise: T): T => {
    try {
      return area === null ? otherwise : run();
    } catch {
      return otherwise;
    }
  };
  const read = (key: string): Entry | null =>
    attempt(() => {
      const entry = JSON.parse(area!.getItem(key) ?? 'null') as Entry | null;
      return entry !== null && typeof entry.project?.savedAt === 'number' ? entry : null;
    }, null);
  return {
    write: (entry) =>
      attempt(() => area!.setItem(PREFIX + entry.project.id, JSON.stringify(entry)), undefined),
    clear(id, savedAt) {
      const entry = read(PREFIX + id);
      if (entry !== null && entry.project.savedAt <= savedAt)
        attempt(() => area!.removeItem(PREFIX + id), undefined);
    },
    all: () =>
      attempt(() => {
        const keys = Array.from({ length: area!.length }, (_, i) => area!.key(i) ?? '');
        return keys
          .filter((key) => key.startsWith(PREFIX))
          .map(read)
          .filter((entry) => entry !== null);
      }, []),
  };
}
