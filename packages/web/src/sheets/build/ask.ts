import type { Ask, Kind, Questions, Reply } from './protocol';

/** A year takes seconds: it has a worker of its own, so that parts and drawings need not wait for it. */
type Desk = 'plans' | 'year';
const workers = new Map<Desk, Worker>();
let next = 1;
const open = new Map<number, { desk: Desk; done: (reply: Reply) => void }>();

/** Gives up what a worker does; each question that waits there is told. */
function close(desk: Desk, message: string): void {
  workers.get(desk)?.terminate();
  workers.delete(desk);
  for (const [id, waiting] of [...open]) {
    if (waiting.desk !== desk) continue;
    open.delete(id);
    waiting.done({ id, ok: false, message });
  }
}

function port(desk: Desk): Worker {
  const found = workers.get(desk);
  if (found !== undefined) return found;
  const worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  workers.set(desk, worker);
  worker.addEventListener('message', (event: MessageEvent<Reply>) => {
    const waiting = open.get(event.data.id);
    open.delete(event.data.id);
    waiting?.done(event.data);
  });
  // a worker that will not start answers nobody: say so, and try anew next time
  worker.addEventListener('error', () => close(desk, 'the worker stopped'));
  return worker;
}

/** Ends a year that nobody waits for any more. */
export const dropYear = (): void => close('year', 'given up');

/** Asks in a worker of this sheet's own. */
export function ask<K extends Kind>(kind: K, about: Questions[K]['ask']): Promise<Questions[K]['answer']> {
  return new Promise((resolve, reject) => {
    const id = next++;
    const desk = kind === 'year' ? 'year' : 'plans';
    open.set(id, {
      desk,
      done: (reply) => {
        if (reply.ok) resolve(reply.answer as Questions[K]['answer']);
        else reject(new Error(reply.message));
      },
    });
    port(desk).postMessage({ id, kind, ...about } as unknown as Ask);
  });
}

/** One question at a time; of those that come meanwhile only the newest is asked. */
export function newestFirst<T>(): (
  question: () => Promise<T>,
  done: (answer: T) => void,
  failed: (e: Error) => void,
) => void {
  let running = false;
  let waiting: (() => void) | null = null;
  const run = (question: () => Promise<T>, done: (answer: T) => void, failed: (e: Error) => void): void => {
    if (running) {
      waiting = () => run(question, done, failed);
      return;
    }
    running = true;
    question()
      .then(done, failed)
      .finally(() => {
        running = false;
        const then = waiting;
        waiting = null;
        then?.();
      });
  };
  return run;
}
