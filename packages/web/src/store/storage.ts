import { type DBSchema, type IDBPDatabase, openDB } from 'idb';
import type { Doc } from './doc';

/** One project in the browser's own store. */
export interface StoredProject {
  id: string;
  name: string;
  savedAt: number;
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

export interface Storage {
  current(): Promise<StoredProject | null>;
  list(): Promise<StoredProject[]>;
  versions(project: string): Promise<StoredVersion[]>;
  /** Project, version and "current" in one transaction: either all of a step is kept or none of it. */
  save(project: StoredProject, step: string | null): Promise<void>;
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
    list: () => db.getAll('projects'),
    versions: (project) => db.getAllFromIndex('versions', 'project', project),
    async save(project, step) {
      const tx = db.transaction(['projects', 'versions', 'meta'], 'readwrite', { durability: 'strict' });
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
  };
}
