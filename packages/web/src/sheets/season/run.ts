import { computed, effect, signal } from '@preact/signals';
import type { Project } from '@sunlap/project/schema/project';
import type { SeasonAnswer } from '@sunlap/workbench/season/values';
import { asItStands } from '@sunlap/workbench/state/standing';
import { useEffect } from 'preact/hooks';
import { doc, moving, reference, sheetAnswered } from '../../app/state';
import type { SeasonAsk, SeasonReply } from './season-protocol';

/** Rest after a change before the long study begins [ms]. */
const REST_MS = 600;

/** Newest answer and the project that it belongs to, as text: a copy that says the same counts as the same. */
export const answer = signal<{ key: string; answer: SeasonAnswer } | null>(null);
export const heldAnswer = signal<SeasonAnswer | null>(null);
/** Counts weather files that were read: another file under the same name makes another year. */
export const filesRead = signal(0);
/** What the year does not depend on stays out of it: the log, ticks and names begin no new year. */
const keyOf = (project: Project): string => {
  const {
    name: _n,
    notes: _o,
    testDays: _t,
    asBuilt: _a,
    repairs: _r,
    build: _b,
    ...rest
  } = asItStands(project);
  // of how it is built, what stands in the water's way
  return `${filesRead.value} ${project.build?.unions ?? true} ${JSON.stringify(rest)}`;
};
const asked = computed(() => keyOf(doc.value.project));
export const isFresh = computed(() => answer.value?.key === asked.value);
export const progress = signal<{ share: number; doing: string; since: number } | null>(null);
export const stopped = signal(false);
export const failure = signal<string | null>(null);
/** The year shown is that of the project, or there is none to be had. */
const answered = computed(() => isFresh.value || failure.value !== null);

interface Open {
  id: number;
  key: string;
  project: Project;
  full: boolean;
  done: (answer: SeasonAnswer) => void;
  since: number;
}

let worker: Worker | null = null;
let next = 1;
let running: Open | null = null;
const waiting = new Map<string, Omit<Open, 'id' | 'since'>>();
const others = new Map<number, (reply: SeasonReply) => void>();
/** Year whose long study was begun last; it is not begun twice. */
let studied: string | null = null;

function port(): Worker {
  if (worker !== null) return worker;
  worker = new Worker(new URL('./season-worker.ts', import.meta.url), { type: 'module' });
  worker.addEventListener('message', (event: MessageEvent<SeasonReply>) => {
    const reply = event.data;
    const other = others.get(reply.id);
    if (other !== undefined) {
      others.delete(reply.id);
      return other(reply);
    }
    if (running === null || reply.id !== running.id || (reply.kind !== 'year' && reply.kind !== 'failed'))
      return;
    const job = running;
    if (reply.kind === 'failed') {
      running = null;
      progress.value = null;
      failure.value = reply.message;
      return pump();
    }
    failure.value = null;
    job.done(reply.answer);
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

function ask(name: 'year' | 'held' | 'full', key: string, project: Project, done: Open['done']) {
  waiting.set(name, { key, project, full: name === 'full', done });
  // a newer question goes before a long study of an older one
  if (running?.full === true && name !== 'full') giveUp();
  pump();
}

function giveUp() {
  // what was broken off for another question may be begun again
  if (running?.full === true && studied === running.key) studied = null;
  port().postMessage({ kind: 'stop' } satisfies SeasonAsk);
}

/** Ends the long study and keeps what it has found. */
export function stop(): void {
  stopped.value = true;
  waiting.delete('full');
  if (running?.full === true) port().postMessage({ kind: 'stop' } satisfies SeasonAsk);
}

export function study(project: Project): void {
  const key = keyOf(project);
  stopped.value = false;
  studied = key;
  ask('full', key, project, (a) => {
    if (asked.peek() === key) answer.value = { key, answer: a };
  });
}

/** A question beside the year: one reply, whatever else is going on. */
export function askOnce<K extends SeasonReply['kind']>(
  kind: K,
  make: (id: number) => SeasonAsk,
): Promise<Extract<SeasonReply, { kind: K }> | null> {
  return new Promise((resolve) => {
    const id = next++;
    others.set(id, (reply) =>
      resolve(reply.kind === kind ? (reply as Extract<SeasonReply, { kind: K }>) : null),
    );
    port().postMessage(make(id));
  });
}

/** Asked the moment the project changes, before anything is drawn anew. */
function followYear(): () => void {
  return effect(() => {
    const key = asked.value;
    const { project } = doc.peek();
    if (answer.peek()?.key === key) return;
    waiting.delete('full');
    failure.value = null;
    ask('year', key, project, (a) => {
      answer.value = { key, answer: a };
    });
  });
}

/** Keeps the year of the project and of the reference up to date while the sheet is open. */
export function useSeason(): void {
  const key = asked.value;
  const held = reference.value?.doc.project ?? null;
  const heldKey = held === null ? null : keyOf(held);
  const still = !moving.value;
  useEffect(() => {
    sheetAnswered.value = answered;
    const end = followYear();
    return () => {
      end();
      sheetAnswered.value = null;
    };
  }, []);
  useEffect(() => {
    if (!still || studied === key) return;
    if (answer.peek()?.key === key && answer.peek()?.answer.complete === true) return;
    const timer = setTimeout(() => study(doc.peek().project), REST_MS);
    return () => clearTimeout(timer);
  }, [key, still]);
  useEffect(() => {
    if (held === null || heldKey === null) {
      heldAnswer.value = null;
      return;
    }
    ask('held', heldKey, held, (a) => {
      heldAnswer.value = a;
    });
  }, [heldKey]);
}
