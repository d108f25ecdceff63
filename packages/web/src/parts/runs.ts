import type { Study } from '../compute/usecases';
import { t } from '../text/catalogue';
import type { Readout } from './readout';

/** Why no flow can be had at what is shown, in a word; null where water runs. */
export function standsStill({ flow }: Study): string | null {
  const r = flow.result;
  if (!r.attainable) return t.read.notReached;
  return r.collectorFlow_m3s > 0 ? null : t.read.stopped;
}

/** A dash for each answer that hangs on a flow which is not to be had, and the reason under the first. */
export function dashed(readouts: readonly Readout[], why: string, keep: ReadonlySet<string>): Readout[] {
  return readouts.map((r, i) => {
    if (keep.has(r.id)) return r;
    const { word: _word, band: _band, difference: _difference, sub: _sub, ...rest } = r;
    return { ...rest, value: null, ...(i === 0 ? { sub: why } : {}) };
  });
}
