import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Doc } from './doc';

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

interface Schema extends DBSchema {
  projects: { key: string; value: StoredProject };
  versions: { key: number; value: StoredVersion; indexes: { project: string } };
  meta: { key: string; value: string };
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
  const db: IDBPDatabase<Schema> = await openDB<Schema>(name, 1, {
    upgrade(fresh) {
      fresh.createObjectStore('projects', { keyPath: 'id' });
      fresh
        .createObjectStore('versions', { keyPath: 'key', autoIncrement: true })
        .createIndex('project', 'project');
      fresh.createObjectStore('meta');
    },
  });
  return {
    async current() {
      const id = await db.get('meta', 'current');
      return (id === undefined ? undefined : await db.get('projects', id)) ?? null;
    },
    list: async () => (await db.getAll('projects')).sort((a, b) => b.savedAt - a.savedAt),
    get: async (id) => (await db.get('projects', id)) ?? null,
    versions: async (project) => (await db.getAllFromIndex('versions', 'project', project)).reverse(),
    async save(project, step, seenAt) {
      const tx = db.transaction(['projects', 'versions', 'meta'], 'readwrite', { durability: 'strict' });
      // aborted transactions reject `done` too; what went wrong is thrown by what awaited it
      tx.done.catch(() => {});
      const there = await tx.objectStore('projects').get(project.id);
      if (there !== undefined && there.savedAt > seenAt && there.savedAt !== project.savedAt) {
        tx.abort();
        throw new ChangedElsewhere();
      }
      await tx.objectStore('projects').put(project);
      await tx.objectStore('meta').put(project.id, 'current');
      if (step !== null) {
        const versions = tx.objectStore('versions');
        await versions.add({ project: project.id, savedAt: project.savedAt, step, doc: project.doc });
        const keys = await versions.index('project').getAllKeys(project.id);
        for (const key of keys.slice(0, Math.max(0, keys.length - KEPT_VERSIONS))) await versions.delete(key);
      }
      await tx.done;
    },
    async remove(id) {
      const tx = db.transaction(['projects', 'versions'], 'readwrite', { durability: 'strict' });
      await tx.objectStore('projects').delete(id);
      const versions = tx.objectStore('versions');
      for (const key of await versions.index('project').getAllKeys(id)) await versions.delete(key);
      await tx.done;
    },
  };
}
