import 'fake-indexeddb/auto';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { createAutosave, type SaveState } from '../../src/store/autosave';
import { firstMoment } from '../../src/store/doc';
import { createJournal } from '../../src/store/journal';
import { ChangedElsewhere, openStorage, type Storage, type StoredProject } from '../../src/store/storage';

const project = startProject(usualAnswers('us'));
const stored = (savedAt: number, name = 'Mine', id = 'p1'): StoredProject => ({
  id,
  name,
  savedAt,
  doc: { project: { ...project, name }, moment: firstMoment(project) },
  reference: null,
});

/** The browser's small store, in memory; full where it is told so. */
function smallStore(full = false) {
  const map = new Map<string, string>();
  return {
    map,
    get length() {
      return map.size;
    },
    key: (i: number) => [...map.keys()][i] ?? null,
    getItem: (key: string) => map.get(key) ?? null,
    setItem: (key: string, value: string) => {
      if (full) throw new DOMException('no room', 'QuotaExceededError');
      map.set(key, value);
    },
    removeItem: (key: string) => void map.delete(key),
  };
}

const until = async (test: () => boolean) => {
  for (let i = 0; i < 200 && !test(); i++) await new Promise((done) => setTimeout(done, 5));
  expect(test()).toBe(true);
};

describe('the store', () => {
  it('does not overwrite what another tab has written since', async () => {
    const storage = await openStorage('overwrite');
    await storage.save(stored(10), 'first', 0);
    await storage.save(stored(20, 'Theirs'), 'theirs', 10);
    await expect(storage.save(stored(30, 'Mine again'), 'mine', 10)).rejects.toThrow(ChangedElsewhere);
    expect((await storage.get('p1'))?.name).toBe('Theirs');
    expect((await storage.versions('p1')).map((v) => v.step)).toEqual(['theirs', 'first']);
  });

  it('keeps the last sixty steps, newest first, and forgets a deleted project with them', async () => {
    const storage = await openStorage('many');
    for (let i = 1; i <= 65; i++) await storage.save(stored(i), `step ${i}`, i - 1);
    const versions = await storage.versions('p1');
    expect(versions).toHaveLength(60);
    expect(versions[0].step).toBe('step 65');
    await storage.save(stored(1, 'Other', 'p2'), 'begun', 0);
    await storage.remove('p1');
    expect((await storage.list()).map((p) => p.id)).toEqual(['p2']);
    expect(await storage.versions('p1')).toEqual([]);
  });
});

describe('the journal', () => {
  it('holds the newest state until the store has it', () => {
    const journal = createJournal(smallStore());
    journal.write({ project: stored(10), step: 'a', seenAt: 0 });
    journal.write({ project: stored(20), step: 'b', seenAt: 10 });
    journal.clear('p1', 10);
    expect(journal.all().map((e) => e.step)).toEqual(['b']);
    journal.clear('p1', 20);
    expect(journal.all()).toEqual([]);
  });

  it('is no trouble where the small store is full, forbidden or holds something else', () => {
    const full = createJournal(smallStore(true));
    full.write({ project: stored(10), step: 'a', seenAt: 0 });
    expect(full.all()).toEqual([]);
    expect(createJournal(null).all()).toEqual([]);
    const odd = smallStore();
    odd.map.set('sunlap-last:p9', '{"project":');
    odd.map.set('other', 'x');
    expect(createJournal(odd).all()).toEqual([]);
  });
});

describe('autosave', () => {
  const run = (save: Storage['save']) => {
    const states: SaveState[] = [];
    const area = smallStore();
    const storage = { save } as Storage;
    const autosave = createAutosave(storage, createJournal(area), (s) => states.push(s));
    return { states, area, autosave };
  };

  it('writes the last state, names its step, and clears the journal', async () => {
    const kept: [number, string | null][] = [];
    const { states, area, autosave } = run(async ({ savedAt }, step) => {
      await new Promise((done) => setTimeout(done, 5));
      kept.push([savedAt, step]);
    });
    autosave.keep(stored(1), 'one');
    autosave.keep(stored(2), 'two');
    autosave.keep(stored(3), null);
    expect(area.map.size).toBe(1);
    await until(() => states.at(-1) === 'saved');
    expect(kept).toEqual([
      [1, 'one'],
      [3, 'two'],
    ]);
    expect(area.map.size).toBe(0);
  });

  it('says when there is no room, keeps the state in the journal, and the step’s name for the next try', async () => {
    let room = false;
    const steps: (string | null)[] = [];
    const { states, area, autosave } = run(async (_project, step) => {
      if (!room) throw new DOMException('no room', 'QuotaExceededError');
      steps.push(step);
    });
    autosave.keep(stored(1), 'one');
    await until(() => states.at(-1) === 'full');
    expect(area.map.size).toBe(1);
    room = true;
    autosave.keep(stored(2), null);
    await until(() => states.at(-1) === 'saved');
    expect(steps).toEqual(['one']);
  });

  it('says when another tab has written', async () => {
    const { states, autosave } = run(() => Promise.reject(new ChangedElsewhere()));
    autosave.keep(stored(1), 'one');
    await until(() => states.at(-1) === 'elsewhere');
  });
});
