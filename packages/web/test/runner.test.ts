import { describe, expect, it } from 'vitest';
import type { Ask, Reply } from '../src/compute/protocol';
import { createRunner, type Port, type Result } from '../src/compute/runner';
import type { Study } from '../src/compute/usecases';
import type { Doc } from '../src/store/doc';
import { quinceDoc } from './examples';

/** A worker that answers when it is told to. */
function port() {
  const asked: Ask[] = [];
  let listen: (event: MessageEvent<Reply>) => void = () => {};
  const it: Port & { asked: Ask[]; answer(took_ms?: number): void; fail(): void } = {
    asked,
    postMessage: (ask: Ask) => void asked.push(ask),
    addEventListener: ((_type: string, listener: typeof listen) => {
      listen = listener;
    }) as Port['addEventListener'],
    answer(took_ms = 50) {
      const { id } = asked[asked.length - 1];
      listen({ data: { id, ok: true, study: { id } as unknown as Study, took_ms } } as MessageEvent<Reply>);
    },
    fail() {
      const { id } = asked[asked.length - 1];
      listen({ data: { id, ok: false, message: 'broken' } } as MessageEvent<Reply>);
    },
  };
  return it;
}

function setUp(here = () => ({}) as Study) {
  const ports: ReturnType<typeof port>[] = [];
  let loads = 0;
  const runner = createRunner(
    () => {
      const p = port();
      ports.push(p);
      return p;
    },
    () => {
      loads++;
      return Promise.resolve(here);
    },
  );
  return { runner, quick: ports[0], full: ports[1], loads: () => loads };
}

const docs = (n: number): Doc[] => Array.from({ length: n }, quinceDoc);

describe('runner', () => {
  it('asks one question at a time and skips those that were replaced while waiting', () => {
    const { runner, quick } = setUp();
    const [a, b, c] = docs(3);
    const got: Doc[] = [];
    for (const d of [a, b, c]) runner.ask('live', 'sheet', d, (r: Result) => got.push(r.doc));
    expect(quick.asked.map((x) => x.doc)).toEqual([a]);
    quick.answer();
    expect(quick.asked.map((x) => x.doc)).toEqual([a, c]);
    quick.answer();
    // the live lane shows each answer that arrives, with the document it belongs to
    expect(got).toEqual([a, c]);
  });

  it('never delivers a full answer that was replaced', () => {
    const { runner, full } = setUp();
    const [a, b] = docs(2);
    const got: Doc[] = [];
    for (const d of [a, b]) runner.ask('full', 'sheet', d, (r) => got.push(r.doc));
    full.answer();
    full.answer();
    expect(got).toEqual([b]);
  });

  it('does not let quick answers wait behind a full one', () => {
    const { runner, quick, full } = setUp();
    const [a] = docs(1);
    runner.ask('full', 'sheet', a, () => {});
    runner.ask('live', 'sheet', a, () => {});
    expect(full.asked).toHaveLength(1);
    expect(quick.asked).toHaveLength(1);
    expect(quick.asked[0].depth).toBe('quick');
  });

  it('serves the sheet before steps that are only looked at', () => {
    const { runner, quick } = setUp();
    const [a, b, c] = docs(3);
    runner.ask('effect', 'low', a, () => {});
    runner.ask('effect', 'high', b, () => {});
    runner.ask('live', 'sheet', c, () => {});
    quick.answer();
    expect(quick.asked[1].doc).toBe(c);
  });

  it('forgets what nobody waits for any more', () => {
    const { runner, quick } = setUp();
    const [a, b] = docs(2);
    const got: Doc[] = [];
    runner.ask('effect', 'low', a, (r) => got.push(r.doc));
    runner.ask('effect', 'high', b, (r) => got.push(r.doc));
    runner.forget('effect');
    quick.answer();
    expect(quick.asked).toHaveLength(1);
    expect(got).toEqual([]);
  });

  it('says what went wrong and goes on', () => {
    const { runner, quick } = setUp();
    const [a, b] = docs(2);
    const got: Result[] = [];
    runner.ask('live', 'sheet', a, (r) => got.push(r));
    quick.fail();
    runner.ask('live', 'sheet', b, (r) => got.push(r));
    quick.answer();
    expect(got.map((r) => 'error' in r)).toEqual([true, false]);
  });

  it('computes in the page once answers take less than a frame', async () => {
    const { runner, quick, loads } = setUp();
    const [a, b] = docs(2);
    runner.ask('live', 'sheet', a, () => {});
    quick.answer(4);
    expect(loads()).toBe(1);
    await Promise.resolve();
    let at: Doc | null = null;
    runner.ask('live', 'sheet', b, (r) => {
      at = r.doc;
    });
    expect(at).toBe(b);
    expect(quick.asked).toHaveLength(1);
  });

  it('stays with the worker while answers take longer', async () => {
    const { runner, quick, loads } = setUp();
    const [a, b] = docs(2);
    runner.ask('live', 'sheet', a, () => {});
    quick.answer(40);
    await Promise.resolve();
    runner.ask('live', 'sheet', b, () => {});
    expect(loads()).toBe(0);
    expect(quick.asked).toHaveLength(2);
  });
});
