import { doc, fresh, latestFull } from '../app/state';
import { useSide } from '../compute/side';
import type { Banded, HomeReadout } from '../compute/side-protocol';
import type { Study } from '../compute/usecases';

/** The home screen's answers with the bands that come from rival models. */
function readoutsOf({ heat, flow }: Study): Record<HomeReadout, Banded> | null {
  const band = heat?.band.heat_W;
  if (heat === null || band === undefined) return null;
  const { heat_W, poolPerSunnyDay_K } = heat.result;
  const { collectorFlow_m3s } = flow.result;
  const of = (v: number) => (heat_W > 0 ? (poolPerSunnyDay_K * v) / heat_W : poolPerSunnyDay_K);
  return {
    heat_W: { value: heat_W, band },
    flow_m3s: {
      value: collectorFlow_m3s,
      band: flow.band.collectorFlow_m3s ?? { low: collectorFlow_m3s, high: collectorFlow_m3s },
    },
    poolPerSunnyDay_K: { value: poolPerSunnyDay_K, band: { low: of(band.low), high: of(band.high) } },
  };
}

/** The answers with their whole bands: rival models, and everything that was answered with "don't know". */
export function useReadouts(): { readouts: Record<HomeReadout, Banded> | null; fresh: boolean } {
  const { project, moment } = doc.value;
  const full = latestFull.value;
  const now = full !== null && 'study' in full ? readoutsOf(full.study) : null;
  const unsure = (project.unsure ?? []).length > 0;
  const ask = unsure && fresh.value && now !== null ? { project, moment, readouts: now } : null;
  const wide = useSide('doubts', 'doubts', ask, [ask === null ? null : full]);
  if (now === null || !unsure) return { readouts: now, fresh: fresh.value && now !== null };
  const { answer } = wide;
  if (answer === null) return { readouts: null, fresh: false };
  return {
    readouts: {
      heat_W: { ...now.heat_W, band: answer.heat_W },
      flow_m3s: { ...now.flow_m3s, band: answer.flow_m3s },
      poolPerSunnyDay_K: { ...now.poolPerSunnyDay_K, band: answer.poolPerSunnyDay_K },
    },
    fresh: fresh.value && wide.fresh,
  };
}
