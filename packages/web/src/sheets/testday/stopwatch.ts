import { signal } from '@preact/signals';

/** A watch that runs: the instant it was started, never ticks, so that it runs on with the screen off. */
export interface Running {
  project: string;
  day: string;
  what: 'pail' | 'front';
  /** Milliseconds since 1970, by the device's clock. */
  started: number;
}

const KEY = 'sunlap-stopwatch';
/** A watch forgotten for so long is not a measurement any more. */
const FORGOTTEN_ms = 12 * 3600_000;

/** Reads a kept watch; null where there is none that makes sense. */
export function readRunning(text: string | null, now: number): Running | null {
  try {
    const kept = JSON.parse(text ?? 'null') as Running | null;
    if (kept === null || typeof kept.started !== 'number' || typeof kept.day !== 'string') return null;
    return now - kept.started >= 0 && now - kept.started < FORGOTTEN_ms ? kept : null;
  } catch {
    return null;
  }
}

/** Seconds since the start, as a stopwatch gives them. */
export const elapsed_s = (watch: Pick<Running, 'started'>, now: number): number =>
  Math.max(0, Math.round((now - watch.started) / 10) / 100);

/** `0:14.4`, `12:03.1` */
export function watchText(seconds: number): string {
  const tenths = Math.floor(seconds * 10 + 1e-6);
  return `${Math.floor(tenths / 600)}:${String(Math.floor(tenths / 10) % 60).padStart(2, '0')}.${tenths % 10}`;
}

const kept = (): Running | null => {
  try {
    return readRunning(localStorage.getItem(KEY), Date.now());
  } catch {
    return null;
  }
};

export const running = signal<Running | null>(kept());

function put(next: Running | null): void {
  running.value = next;
  try {
    if (next === null) localStorage.removeItem(KEY);
    else localStorage.setItem(KEY, JSON.stringify(next));
  } catch {
    // without a small store the watch still runs, until the page goes
  }
}

export function startWatch(watch: Omit<Running, 'started'>): void {
  put({ ...watch, started: Date.now() });
}

/** Stops it and says what it showed [s]. */
export function stopWatch(): number | null {
  const watch = running.peek();
  const now = Date.now();
  put(null);
  return watch === null ? null : elapsed_s(watch, now);
}
