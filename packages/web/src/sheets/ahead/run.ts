import { signal } from '@preact/signals';
import type { Project } from '@sunlap/project/schema/project';
import type { AheadAnswer } from '@sunlap/workbench/ahead/ahead';
import { useEffect } from 'preact/hooks';
import type { AheadAsk, AheadReply } from './ahead-worker';

type Options = AheadAsk['options'];

export const answer = signal<{ key: string; answer: AheadAnswer } | null>(null);
export const failure = signal<string | null>(null);

let worker: Worker | null = null;
let next = 1;
let running: { id: number; key: string } | null = null;
let waiting: { key: string; project: Project; options: Options }[] = [];

function pump() {
  const job = waiting[0];
  if (running !== null || job === undefined) return;
  waiting = waiting.slice(1);
  if (worker === null) {
    worker = new Worker(new URL('./ahead-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', (event: MessageEvent<AheadReply>) => {
      const was = running;
      running = null;
      if (was !== null) {
        failure.value = event.data.ok ? null : event.data.message;
        if (event.data.ok) answer.value = { key: was.key, answer: event.data.answer };
      }
      pump();
    });
  }
  running = { id: next++, key: job.key };
  worker.postMessage({ id: running.id, project: job.project, options: job.options } satisfies AheadAsk);
}

/** Asks for a quick answer and then the one with bands and acts, whenever the question changes. */
export function useAhead(project: Project, options: Options | null, still: boolean): string {
  const key = options === null ? '' : JSON.stringify([project, options]);
  useEffect(() => {
    if (options === null || (answer.peek()?.key === key && answer.peek()?.answer.complete === true)) return;
    waiting = [{ key, project, options: { ...options, full: false } }];
    if (still) waiting.push({ key, project, options });
    pump();
  }, [key, still]);
  return key;
}
