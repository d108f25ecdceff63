import type { Ask, Kind, Questions, Reply } from './protocol';

let worker: Worker | null = null;
let next = 1;
const open = new Map<number, (reply: Reply) => void>();

function port(): Worker {
  if (worker !== null) return worker;
  worker = new Worker(new URL('./worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<Reply>) => {
    open.get(event.data.id)?.(event.data);
    open.delete(event.data.id);
  });
  // a worker that will not start answers nobody: say so, and try anew next time
  worker.addEventListener('error', () => {
    const waiting = [...open];
    open.clear();
    worker?.terminate();
    worker = null;
    for (const [id, done] of waiting) done({ id, ok: false, message: 'the worker stopped' });
  });
  return worker;
}

/** Asks in a worker of this sheet's own. */
export function ask<K extends Kind>(kind: K, about: Questions[K]['ask']): Promise<Questions[K]['answer']> {
  return new Promise((resolve, reject) => {
    const id = next++;
    open.set(id, (reply) => {
      if (reply.ok) resolve(reply.answer as Questions[K]['answer']);
      else reject(new Error(reply.message));
    });
    port().postMessage({ id, kind, ...about } as unknown as Ask);
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
