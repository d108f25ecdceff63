import { describe, expect, it } from 'vitest';
import { createHold } from '../../src/store/hold';

interface Waiting {
  options: LockOptions;
  grant: () => void;
  refuse: (error: DOMException) => void;
}

/** The browser's locks as the standard describes them. */
function locksOf() {
  const names = new Map<string, LockManager>();
  return {
    request(name: string, options: LockOptions, run: LockGrantedCallback<unknown>) {
      if (!names.has(name)) names.set(name, oneLock());
      return names.get(name)!.request(name, options, run);
    },
  } as unknown as LockManager;
}

function oneLock(): LockManager {
  let held: { broken: (error: DOMException) => void } | null = null;
  const queue: Waiting[] = [];
  const next = () => {
    if (held === null) queue.shift()?.grant();
  };
  const request = (_name: string, options: LockOptions, run: (lock: Lock | null) => unknown) =>
    new Promise<unknown>((resolve, reject) => {
      const grant = () => {
        const mine = { broken: reject };
        held = mine;
        Promise.resolve(run({ name: _name, mode: 'exclusive' })).then((value) => {
          resolve(value);
          if (held === mine) held = null;
          next();
        }, reject);
      };
      options.signal?.addEventListener('abort', () => {
        const i = queue.findIndex((w) => w.options === options);
        if (i >= 0) queue.splice(i, 1)[0].refuse(new DOMException('aborted', 'AbortError'));
      });
      if (options.steal === true) {
        held?.broken(new DOMException('stolen', 'AbortError'));
        grant();
      } else if (held === null) grant();
      else if (options.ifAvailable === true) resolve(run(null));
      else queue.push({ options, grant, refuse: reject });
    });
  return { request } as unknown as LockManager;
}

const settle = () => new Promise((done) => setTimeout(done, 5));

/** A tab with what it was told. */
function tab(locks: LockManager | undefined, keeps = true) {
  const told: string[] = [];
  const hold = createHold(
    locks,
    () => told.push('lost'),
    (id) => {
      told.push(`freed ${id}`);
      return keeps;
    },
  );
  return { hold, told };
}

describe('the lock between tabs', () => {
  it('is one tab’s; the next one gets it when that lets go', async () => {
    const locks = locksOf();
    const [a, b] = [tab(locks), tab(locks)];
    expect(await a.hold.take('p')).toBe(true);
    expect(await b.hold.take('p')).toBe(false);
    await a.hold.take('other');
    await settle();
    expect(b.told).toEqual(['freed p']);
  });

  it('can be seized, from one that took it and from one that waited for it', async () => {
    const locks = locksOf();
    const [a, b, c] = [tab(locks), tab(locks), tab(locks)];
    await a.hold.take('p');
    await b.hold.take('p');
    await c.hold.seize('p');
    await settle();
    expect(a.told).toEqual(['lost']);
    expect(b.told).toEqual([]);
    await c.hold.take('other');
    await settle();
    expect(b.told).toEqual(['freed p']);
    await a.hold.seize('p');
    await settle();
    expect(b.told).toEqual(['freed p', 'lost']);
  });

  it('is let go of again by a tab that cannot go on', async () => {
    const locks = locksOf();
    const [a, b, c] = [tab(locks), tab(locks, false), tab(locks)];
    await a.hold.take('p');
    await b.hold.take('p');
    await a.hold.take('other');
    await settle();
    expect(b.told).toEqual(['freed p']);
    expect(await c.hold.take('p')).toBe(true);
  });

  it('is no one’s where the browser has none', async () => {
    const a = tab(undefined);
    expect(await a.hold.take('p')).toBe(true);
    await a.hold.seize('p');
    expect(a.told).toEqual([]);
  });
});
