import type { Interval } from '@sunlap/workbench/results';
import { doc, fresh, latestFull } from '../app/state';
import { useSide } from '../compute/side';

/** Heat now with its whole band: rival models, and everything that was answered with "don't know". */
export function useHeatBand(): { band: Interval | null; fresh: boolean } {
  const { project, moment } = doc.value;
  const full = latestFull.value;
  const heat = fresh.value && full !== null && 'study' in full ? full.study.heat : null;
  const band = heat?.band.heat_W ?? null;
  const unsure = (project.unsure ?? []).length > 0;
  const ask =
    heat === null || band === null || !unsure ? null : { project, moment, heat_W: heat.result.heat_W, band };
  const wide = useSide('doubts', 'doubts', ask, [ask === null ? null : full]);
  if (!unsure) return { band, fresh: fresh.value };
  return { band: wide.answer, fresh: fresh.value && wide.fresh && wide.answer !== null };
}
