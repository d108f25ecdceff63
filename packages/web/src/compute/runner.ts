import type { Doc } from '../store/doc';
import type { Ask, Reply } from './protocol';
import type { Study } from './usecases';

/** A result with the document it came from: a stale one is told by it and dropped. */
export type Result = { doc: Doc; study: Study } | { doc: Doc; error: string };

/** What waits: the sheet itself first, then the reference, then the effect of steps that are only looked at. */
const LANES = ['live', 'reference', 'effect'] as const;
export type Lane = (typeof LANES)[number];

interface Job {
  doc: Doc;
  key: string;
  lane: Lane;
  done: (result: Result) => void;
}

/** Under this the answer is computed in the page itself, in the same frame. */
const FRAME_MS = 11;

export interface Runner {
  /**
   * Asks for an answer. A newer question with the same lane and key replaces one that waits; an answer to a
   * replaced question is never delivered.
   */
  ask(lane: Lane, key: string, doc: Doc, done: (result: Result) => void): void;
  forget(lane: Lane): void;
}

type Compute = (doc: Doc) => Study;

/**
 * One worker, one question at a time, newest first within a lane. As soon as answers are known to take less than
 * a frame, the live lane is computed in the page (`loadHere` fetches the code for it then).
 */
export function createRunner(worker: Pick<Worker, 'postMessage' | 'addEventListener'>, loadHere: () => Promise<Compute>): Runner {
  const waiting: Job[] = [];
  let running: (Job & { id: number }) | null = null;
  let next = 1;
  let here: Compute | null = null;
  let loading = false;
  let took = Infinity;

  function pump() {
    if (running !== null) return;
    for (const lane of LANES) {
      const i = waiting.findIndex((job) => job.lane === lane);
      if (i < 0) continue;
      const [job] = waiting.splice(i, 1);
      running = { ...job, id: next++ };
      const ask: Ask = { id: running.id, doc: job.doc };
      worker.postMessage(ask);
      return;
    }
  }

  function fastEnough(ms: number) {
    took = took === Infinity ? ms : took * 0.6 + ms * 0.4;
    if (took < FRAME_MS && here === null && !loading) {
      loading = true;
      loadHere().then(
        (compute) => {
          here = compute;
        },
        () => {
          loading = false;
        },
      );
    }
  }

  worker.addEventListener('message', (event) => {
    const reply = (event as MessageEvent<Reply>).data;
    if (running === null || reply.id !== running.id) return;
    const job = running;
    running = null;
    if (reply.ok) fastEnough(reply.took_ms);
    const replaced = waiting.some((w) => w.lane === job.lane && w.key === job.key);
    // a movement shows each answer that arrives, though a newer one is already on its way
    if (!replaced || job.lane === 'live')
      job.done(reply.ok ? { doc: job.doc, study: reply.study } : { doc: job.doc, error: reply.message });
    pump();
  });

  return {
    ask(lane, key, doc, done) {
      const i = waiting.findIndex((w) => w.lane === lane && w.key === key);
      if (i >= 0) waiting.splice(i, 1);
      if (lane === 'live' && here !== null && took < FRAME_MS) {
        const start = performance.now();
        let result: Result;
        try {
          result = { doc, study: here(doc) };
        } catch (error) {
          result = { doc, error: error instanceof Error ? error.message : String(error) };
        }
        fastEnough(performance.now() - start);
        if (running?.lane === 'live') running = { ...running, done: () => {} };
        return done(result);
      }
      waiting.push({ lane, key, doc, done });
      pump();
    },
    forget(lane) {
      for (let i = waiting.length - 1; i >= 0; i--) if (waiting[i].lane === lane) waiting.splice(i, 1);
    },
  };
}
