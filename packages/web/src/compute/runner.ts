import type { Doc } from '../store/doc';
import type { Ask, Reply } from './protocol';
import type { Depth, Study } from './usecases';

/** A result with the document it came from: a stale one is told by it and dropped. */
export type Result = { doc: Doc; study: Study } | { doc: Doc; error: string };

export type Lane =
  /** What the sheet shows while things move. */
  | 'live'
  /** The same in full, once things rest. */
  | 'full'
  /** How it starts from empty, which takes longest. */
  | 'start'
  | 'reference'
  /** Steps that are only looked at. */
  | 'effect';

/** Each depth has a worker of its own, so that what is quick never waits behind what is slow. */
const WORKERS: readonly { depth: Depth; lanes: readonly Lane[] }[] = [
  { depth: 'quick', lanes: ['live', 'effect'] },
  { depth: 'full', lanes: ['full', 'reference'] },
  { depth: 'start', lanes: ['start'] },
];

interface Job {
  doc: Doc;
  key: string;
  lane: Lane;
  done: (result: Result) => void;
}

/** Under this the answer is computed in the page itself, in the same frame. */
const FRAME_MS = 12;

export type Port = Pick<Worker, 'postMessage' | 'addEventListener'>;
type Compute = (doc: Doc, depth: Depth) => Study;

export interface Runner {
  /**
   * Asks for an answer. A newer question of the same lane and key replaces one that waits; an answer to a
   * replaced question is not delivered, but for the live lane, where each one that arrives is shown.
   */
  ask(lane: Lane, key: string, doc: Doc, done: (result: Result) => void): void;
  /** Drops what waits in a lane and the answer that is on its way. */
  forget(lane: Lane): void;
}

const failed = (error: unknown) => (error instanceof Error ? error.message : String(error));

/**
 * One worker per depth, one question at a time. As soon as quick answers are known to take less than a frame,
 * `loadHere` fetches the code and they are computed in the page.
 */
export function createRunner(makePort: () => Port, loadHere: () => Promise<Compute>): Runner {
  let here: Compute | null = null;
  let loading = false;
  let took = Infinity;

  function learn(ms: number) {
    took = took === Infinity ? ms : took * 0.6 + ms * 0.4;
    if (took >= FRAME_MS || here !== null || loading) return;
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

  const desks = WORKERS.map(({ depth, lanes }) =>
    desk(makePort, depth, lanes, depth === 'quick' ? learn : () => {}),
  );
  // the slowest is made when it is first asked
  for (const d of desks) if (!d.lanes.includes('start')) d.open();
  const deskOf = (lane: Lane) => desks.find((d) => d.lanes.includes(lane))!;

  return {
    ask(lane, key, doc, done) {
      const at = deskOf(lane);
      if (lane !== 'live' || here === null || took >= FRAME_MS) return at.put({ lane, key, doc, done });
      at.drop('live');
      const start = performance.now();
      let result: Result;
      try {
        result = { doc, study: here(doc, 'quick') };
      } catch (error) {
        result = { doc, error: failed(error) };
      }
      learn(performance.now() - start);
      done(result);
    },
    forget: (lane) => deskOf(lane).drop(lane),
  };
}

function desk(makePort: () => Port, depth: Depth, lanes: readonly Lane[], learn: (ms: number) => void) {
  let port: Port | null = null;
  const waiting: Job[] = [];
  let running: (Job & { id: number }) | null = null;
  let next = 1;

  function pump() {
    if (running !== null) return;
    for (const lane of lanes) {
      const i = waiting.findIndex((job) => job.lane === lane);
      if (i < 0) continue;
      const [job] = waiting.splice(i, 1);
      running = { ...job, id: next++ };
      const ask: Ask = { id: running.id, doc: job.doc, depth };
      open().postMessage(ask);
      return;
    }
  }

  function open(): Port {
    if (port !== null) return port;
    port = makePort();
    port.addEventListener('message', (event) => receive((event as MessageEvent<Reply>).data));
    return port;
  }

  function receive(reply: Reply) {
    if (running === null || reply.id !== running.id) return;
    const job = running;
    running = null;
    if (reply.ok) learn(reply.took_ms);
    const replaced = waiting.some((w) => w.lane === job.lane && w.key === job.key);
    pump();
    if (!replaced || job.lane === 'live')
      job.done(reply.ok ? { doc: job.doc, study: reply.study } : { doc: job.doc, error: reply.message });
  }

  return {
    lanes,
    open,
    put(job: Job) {
      const i = waiting.findIndex((w) => w.lane === job.lane && w.key === job.key);
      if (i >= 0) waiting.splice(i, 1);
      waiting.push(job);
      pump();
    },
    drop(lane: Lane) {
      for (let i = waiting.length - 1; i >= 0; i--) if (waiting[i].lane === lane) waiting.splice(i, 1);
      if (running?.lane === lane) running.done = () => {};
    },
  };
}
