import type { Doc } from './doc';
import { answerOf, kept, openStore } from './indexed';

/** One project in the browser's own store. */
export interface StoredProject {
  id: string;
  name: string;
  savedAt: number;
  /** The life of a page that wrote it. */
  writer?: string;
  doc: Doc;
  reference: Doc | null;
}

/** A finished step that one can go back to. */
export interface StoredVersion {
  key?: number;
  project: string;
  savedAt: number;
  step: string;
  doc: Doc;
}

const KEPT_VERSIONS = 60;

/** Somebody else has written this project since it was read here: nothing was overwritten. */
export class ChangedElsewhere extends Error {
  constructor() {
    super('changed elsewhere');
    this.name = 'ChangedElsewhere';
  }
}

export interface Storage {
  current(): Promise<StoredProject | null>;
  /** Newest first. */
  list(): Promise<StoredProject[]>;
  get(id: string): Promise<StoredProject | null>;
  /** Newest first. */
  versions(project: string): Promise<StoredVersion[]>;
  /**
   * Project, version and "current" in one transaction: either all of a step is kept or none of it.
   *
   * @param seenAt when the project that this one follows was written; a newer one in the store is not overwritten
   * @throws {ChangedElsewhere} when there is one
   */
  save(project: StoredProject, step: string | null, seenAt: number): Promise<void>;
  /** With all its versions. */
  remove(id: string): Promise<void>;
}

/** The browser's IndexedDB. Throws where it is forbidden; the caller says so and works on without. */
export async function openStorage(name = 'sunlap'): Promise<Storage> {
  const db = await openStore(name, (fresh) => {
    fresh.createObjectStore('projects', { keyPath: 'id' });
    fresh
      .createObjectStore('versions', { keyPath: 'key', autoIncrement: true })
      .createIndex('project', 'project');
    fresh.createObjectStore('meta');
  });
  const store = (of: 'projects' | 'versions' | 'meta') => db.transaction(of).objectStore(of);
  const get = async (id: string): Promise<StoredProject | null> =>
    ((await answerOf(store('projects').get(id))) as StoredProject | undefined) ?? null;
  return {
    async current() {
      const id = (await answerOf(store('meta').get('current'))) as string | undefined;
      return id === undefined ? null : get(id);
    },
    list: async () =>
      ((await answerOf(store('projects').getAll())) as StoredProject[]).sort((a, b) => b.savedAt - a.savedAt),
    get,
    versions: async (project) =>
      ((await answerOf(store('versions').index('project').getAll(project))) as StoredVersion[]).reverse(),
    async save(project, step, seenAt) {
      const tx = db.transaction(['projects', 'versions', 'meta'], 'readwrite', { durability: 'strict' });
      const done = kept(tx);
      // aborted transactions reject this too; what went wrong is thrown by what awaited it
      done.catch(() => {});
      const there = (await answerOf(tx.objectStore('projects').get(project.id))) as StoredProject | undefined;
      if (there !== undefined && there.savedAt > seenAt && there.savedAt !== project.savedAt) {
        tx.abort();
        throw new ChangedElsewhere();
      }
      await answerOf(tx.objectStore('projects').put(project));
      await answerOf(tx.objectStore('meta').put(project.id, 'current'));
      if (step !== null) {
        const versions = tx.objectStore('versions');
        await answerOf(
          versions.add({ project: project.id, savedAt: project.savedAt, step, doc: project.doc }),
        );
        const keys = await answerOf(versions.index('project').getAllKeys(project.id));
        for (const key of keys.slice(0, Math.max(0, keys.length - KEPT_VERSIONS)))
          await answerOf(versions.delete(key));
      }
      await done;
    },
    async remove(id) {
      const tx = db.transaction(['projects', 'versions'], 'readwrite', { durability: 'strict' });
      const done = kept(tx);
      done.catch(() => {});
      await answerOf(tx.objectStore('projects').delete(id));
      const versions = tx.objectStore('versions');
      for (const key of await answerOf(versions.index('project').getAllKeys(id)))
        await answerOf(versions.delete(key));
      await done;
    },
  };
}
