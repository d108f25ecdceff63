import { computed, signal } from '@preact/signals';
import type { Project } from '@sunlap/project/schema/project';
import type { SeasonAnswer } from '@sunlap/workbench/season/values';
import { useEffect } from 'preact/hooks';
import { doc, moving, reference } from '../../app/state';
import type { SeasonAsk, SeasonReply } from './season-protocol';
import type { WeatherNotice } from './weather-found';

/** Rest after a change before the long study begins [ms]. */
const REST_MS = 600;

/** Newest answer and the project that it belongs to, as text: a copy that says the same counts as the same. */
export const answer = signal<{ key: string; answer: SeasonAnswer } | null>(null);
export const heldAnswer = signal<SeasonAnswer | null>(null);
const keyOf = (project: Project): string => JSON.stringify(project);
const asked = computed(() => keyOf(doc.value.project));
export const isFresh = computed(() => answer.value?.key === asked.value);
export const progress = signal<{ share: number; doing: string; since: number } | null>(null);
export const stopped = signal(false);
export const failure = signal<string | null>(null);
export const weather = signal<WeatherNotice | null>(null);

interface Open {
  id: number;
  project: Project;
  full: boolean;
  done: (answer: SeasonAnswer, full: boolean) => void;
  since: number;
}

let worker: Worker | null = null;
let next = 1;
let running: Open | null = null;
const waiting = new Map<string, Omit<Open, 'id' | 'since'>>();
const files = new Map<number, (found: WeatherNotice) => void>();

function port(): Worker {
  if (worker !== null) return worker;
  worker = new Worker(new URL('./season-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<SeasonReply>) => {
    const reply = event.data;
    if (reply.kind === 'weather') {
      files.get(reply.id)?.(reply.found);
      files.delete(reply.id);
      return;
    }
    if (running === null || reply.id !== running.id) return;
    const job = running;
    if (reply.kind === 'failed') {
      running = null;
      progress.value = null;
      failure.value = reply.message;
      return pump();
    }
    failure.value = null;
    job.done(reply.answer, job.full);
    if (job.full)
      progress.value = reply.ended ? null : { share: reply.share, doing: reply.doing, since: job.since };
    if (!reply.ended) return;
    running = null;
    pump();
  });
  return worker;
}

function pump() {
  if (running !== null) return;
  for (const key of ['year', 'held', 'full']) {
    const job = waiting.get(key);
    if (job === undefined) continue;
    waiting.delete(key);
    running = { ...job, id: next++, since: performance.now() };
    port().postMessage({
      kind: 'year',
      id: running.id,
      project: job.project,
      full: job.full,
    } satisfies SeasonAsk);
    return;
  }
}

function ask(key: 'year' | 'held' | 'full', project: Project, done: Open['done']) {
  waiting.set(key, { project, full: key === 'full', done });
  // a newer question goes before a long study of an older one
  if (running?.full === true && key !== 'full') port().postMessage({ kind: 'stop' } satisfies SeasonAsk);
  pump();
}

/** Ends the long study and keeps what it has found. */
export function stop(): void {
  stopped.value = true;
  waiting.delete('full');
  if (running?.full === true) port().postMessage({ kind: 'stop' } satisfies SeasonAsk);
}

export function study(project: Project): void {
  stopped.value = false;
  const key = keyOf(project);
  ask('full', project, (a) => {
    if (asked.peek() === key) answer.value = { key, answer: a };
  });
}

export function readFile(name: string, bytes: Uint8Array): Promise<WeatherNotice> {
  return new Promise((resolve) => {
    const id = next++;
    files.set(id, resolve);
    port().postMessage({ kind: 'weather', id, name, bytes } satisfies SeasonAsk);
  });
}

/** Keeps the year of the project and of the reference up to date while the sheet is open. */
export function useSeason(): void {
  const key = asked.value;
  const held = reference.value?.doc.project ?? null;
  const still = !moving.value;
  useEffect(() => {
    if (answer.peek()?.key === key) return;
    waiting.delete('full');
    ask('year', doc.peek().project, (a) => {
      answer.value = { key, answer: a };
    });
  }, [key]);
  useEffect(() => {
    if (!still || (answer.peek()?.key === key && answer.peek()?.answer.complete === true)) return;
    const timer = setTimeout(() => study(doc.peek().project), REST_MS);
    return () => clearTimeout(timer);
  }, [key, still]);
  useEffect(() => {
    if (held === null) {
      heldAnswer.value = null;
      return;
    }
    ask('held', held, (a) => {
      heldAnswer.value = a;
    });
  }, [held]);
}
