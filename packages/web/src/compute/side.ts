import { useEffect, useRef, useState } from 'preact/hooks';
import type { SideAsk, SideKind, SideQuestions, SideReply } from './side-protocol';

type Done = (reply: SideReply) => void;

let worker: Worker | null = null;
let next = 1;
let running: number | null = null;
const waiting = new Map<string, { ask: SideAsk; done: Done }>();
const open = new Map<number, Done>();

function pump() {
  if (running !== null) return;
  const [first] = waiting;
  if (first === undefined) return;
  const [key, { ask, done }] = first;
  waiting.delete(key);
  running = ask.id;
  open.set(ask.id, done);
  port().postMessage(ask);
}

function port(): Worker {
  if (worker !== null) return worker;
  worker = new Worker(new URL('./side-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<SideReply>) => {
    running = null;
    open.get(event.data.id)?.(event.data);
    open.delete(event.data.id);
    pump();
  });
  return worker;
}

/** Asks in a worker of its own, one at a time; a newer question under the same key replaces one that waits. */
function askSide<K extends SideKind>(key: string, kind: K, ask: SideQuestions[K]['ask'], done: Done): void {
  waiting.set(key, { ask: { id: next++, kind, ...ask } as SideAsk, done });
  pump();
}

export interface SideAnswer<K extends SideKind> {
  answer: SideQuestions[K]['answer'] | null;
  error: string | null;
  /** False while the answer shown belongs to an older question. */
  fresh: boolean;
}

/** Newest answer to a question that is asked anew whenever `on` changes; null asks nothing. */
export function useSide<K extends SideKind>(
  key: string,
  kind: K,
  ask: SideQuestions[K]['ask'] | null,
  on: readonly unknown[],
): SideAnswer<K> {
  const [state, setState] = useState<{
    answer: SideQuestions[K]['answer'] | null;
    error: string | null;
    turn: number;
  }>({
    answer: null,
    error: null,
    turn: 0,
  });
  const turn = useRef(0);
  const seen = useRef<readonly unknown[]>([]);
  if (on.length !== seen.current.length || on.some((v, i) => v !== seen.current[i])) {
    seen.current = on;
    turn.current++;
  }
  useEffect(() => {
    if (ask === null) return;
    const mine = turn.current;
    let live = true;
    askSide(key, kind, ask, (reply) => {
      if (!live) return;
      setState((old) =>
        reply.ok
          ? { answer: reply.answer as SideQuestions[K]['answer'], error: null, turn: mine }
          : { answer: old.answer, error: reply.message, turn: mine },
      );
    });
    return () => {
      live = false;
    };
  }, [turn.current]);
  return { answer: state.answer, error: state.error, fresh: state.turn === turn.current };
}
