import { findTee, leastPitch_m } from '@sunlap/data/fittings';
import { findPipe, findPipeFamily } from '@sunlap/data/pipes';
import { usualAnswers } from '@sunlap/project/start/start-project';
import type { UnitSystem } from '@sunlap/project/units/kinds';

/** Pitches are marked to this: an eighth of an inch, or half a centimetre [m]. */
const MARK_m = { us: 0.003175, metric: 0.005 };

/**
 * The usual pitch of the tubes, or the least at which the tees of these pipes go together, rounded up to a mark.
 *
 * @example pitchFor('pvc-sch40-1-1/2', 'pvc-sch40-3/4', 'us') // 0.085725: 3-3/8 in
 */
export function pitchFor(headerPipe: string, tubePipe: string, units: UnitSystem): number {
  const usual = usualAnswers(units).pitch_m;
  const [header, tube] = [findPipe(headerPipe), findPipe(tubePipe)];
  const system = header === undefined ? undefined : findPipeFamily(header.family)?.fittings;
  if (header === undefined || tube === undefined || system === undefined) return usual;
  const tee = findTee(system, header.nominal, tube.nominal);
  if (tee === undefined) return usual;
  const least = leastPitch_m(tee);
  const mark = MARK_m[units];
  return least <= usual ? usual : Number((Math.ceil(least / mark - 1e-6) * mark).toFixed(6));
}
