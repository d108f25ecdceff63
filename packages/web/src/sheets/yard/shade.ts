import { sunlitShare } from '@sunlap/engine/sun/shade-table';
import type { Project } from '@sunlap/project/schema/project';
import { useEffect, useState } from 'preact/hooks';
import type { YardAsk, YardReply, YardShade } from './yard-protocol';

type Done = (reply: YardReply) => void;

let worker: Worker | null = null;
let running: { id: number; done: Done } | null = null;
let waiting: { ask: YardAsk; done: Done } | null = null;
let next = 1;

function pump() {
  if (running !== null || waiting === null) return;
  const { ask, done } = waiting;
  waiting = null;
  if (worker === null) {
    worker = new Worker(new URL('./yard-worker.ts', import.meta.url), { type: 'module' });
    worker.addEventListener('message', (event: MessageEvent<YardReply>) => {
      const was = running;
      running = null;
      pump();
      was?.done(event.data);
    });
  }
  running = { id: ask.id, done };
  worker.postMessage(ask);
}

/** Shadows of the yard, asked for anew as it changes; while things move, the newest question replaces one that waits. */
export function useShade(project: Project): {
  shade: YardShade | null;
  fresh: boolean;
  error: string | null;
} {
  const { site, pool, collector, yard } = project;
  const [state, setState] = useState<{ shade: YardShade | null; of: unknown; error: string | null }>({
    shade: null,
    of: null,
    error: null,
  });
  const key = `${JSON.stringify([site.latitude_deg, site.longitude_deg, site.timeZone, pool.outline, pool.screen, yard?.obstacles])}${JSON.stringify(collector.placement)}${JSON.stringify(collector.sections)}`;
  useEffect(() => {
    waiting = {
      ask: { id: next++, project: { site, pool, collector, ...(yard === undefined ? {} : { yard }) } },
      done: (reply) =>
        setState((old) =>
          reply.ok
            ? { shade: reply.shade, of: key, error: null }
            : { shade: old.shade, of: key, error: reply.message },
        ),
    };
    pump();
  }, [key]);
  return { shade: state.shade, fresh: state.of === key, error: state.error };
}

/** Sunlit shares of pool and whole panel for a place of the sun; null at night. */
export function sharesAt(
  shade: YardShade,
  month: number,
  sun: { azimuth_deg: number; elevation_deg: number },
): { pool: number; collector: number } | null {
  if (!(sun.elevation_deg > 0)) return null;
  const whole = shade.areas.reduce((a, b) => a + b, 0);
  const of = (table: YardShade['pool']) =>
    table === null ? 1 : sunlitShare(table, month, sun.azimuth_deg, sun.elevation_deg);
  return {
    pool: of(shade.pool),
    collector: shade.parts.reduce((sum, part, i) => sum + (shade.areas[i] / whole) * of(part), 0),
  };
}
