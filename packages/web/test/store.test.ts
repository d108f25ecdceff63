import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { createStore } from '../src/store/store';
import { quinceDoc } from './examples';

const named = (name: string) => {
  const doc = quinceDoc();
  return { ...doc, project: { ...doc.project, name } };
};

describe('store', () => {
  it('goes back and forth by named steps', () => {
    const store = createStore(named('a'));
    store.apply('to b', { doc: named('b'), undo: 'commit' });
    store.apply('to c', { doc: named('c'), undo: 'commit' });
    expect(store.get().past.map((s) => s.name)).toEqual(['to b', 'to c']);
    store.undo();
    expect(store.get().doc.project.name).toBe('b');
    expect(store.get().future.map((s) => s.name)).toEqual(['to c']);
    store.redo();
    expect(store.get().doc.project.name).toBe('c');
  });

  it('makes one step of a movement, from where it began', () => {
    const store = createStore(named('a'));
    for (const name of ['b', 'c', 'd']) store.apply(`at ${name}`, { doc: named(name), undo: 'drag' });
    expect(store.get().past).toHaveLength(0);
    store.endDrag();
    expect(store.get().past.map((s) => s.name)).toEqual(['at d']);
    store.undo();
    expect(store.get().doc.project.name).toBe('a');
  });

  it('gives up a movement that is undone half-way', () => {
    const store = createStore(named('a'));
    store.apply('b', { doc: named('b'), undo: 'drag' });
    store.undo();
    expect(store.get().doc.project.name).toBe('a');
    expect(store.get().drag).toBeNull();
    expect(store.get().past).toHaveLength(0);
  });

  it('makes no step of a movement that went nowhere', () => {
    const start = named('a');
    const store = createStore(start);
    store.apply('b', { doc: named('b'), undo: 'drag' });
    store.apply('a', { doc: start, undo: 'drag' });
    store.endDrag();
    expect(store.get().past).toHaveLength(0);
  });

  it('starts history anew with another project', () => {
    const store = createStore(named('a'));
    store.apply('b', { doc: named('b'), undo: 'commit' });
    store.apply('open', { doc: named('z'), undo: 'load' });
    expect(store.get().past).toHaveLength(0);
    store.undo();
    expect(store.get().doc.project.name).toBe('z');
  });

  it('ends where it began after as many undos as steps, whatever was done', () => {
    const kinds = fc.constantFrom('commit', 'drag', 'end', 'undo', 'redo');
    fc.assert(
      fc.property(fc.array(kinds, { maxLength: 40 }), (acts) => {
        const start = named('start');
        const store = createStore(start);
        acts.forEach((act, i) => {
          if (act === 'commit' || act === 'drag') store.apply(`${i}`, { doc: named(`${i}`), undo: act });
          else if (act === 'end') store.endDrag();
          else store[act]();
        });
        store.endDrag();
        const end = store.get().doc;
        const steps = store.get().past.length;
        for (let i = 0; i < steps; i++) store.undo();
        expect(store.get().doc).toBe(start);
        for (let i = 0; i < steps; i++) store.redo();
        expect(store.get().doc).toBe(end);
      }),
      { seed: 11, numRuns: 60 },
    );
  });
});
