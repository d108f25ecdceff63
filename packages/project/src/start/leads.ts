import { headerTee } from '@sunlap/data/headerTee';
import { endToEndGap_m, joinableOf } from '@sunlap/data/joinable';
import type { Project } from '../schema/project';

/** Leads are marked to this: an eighth of an inch, or half a centimetre [m]. */
const MARK_m = { us: 0.003175, metric: 0.005 } as const;

/**
 * Lead-in that a header needs where pipe of another size is joined to it: what sits in the outermost tee, a piece of
 * header that fills two sockets, and half the reducer, rounded up to a mark.
 *
 *   G + 2 S + gap / 2
 *
 * @returns [m]; 0 where the table lacks a pipe
 * @example reducedLead_m('pvc-sch40-1-1/2', 'pvc-sch40-1/2', 'pvc-sch40-2', 'us') // 0.073025: 2-7/8 in
 */
export function reducedLead_m(
  headerPipe: string,
  tubePipe: string,
  poolPipe: string,
  units: Project['units'],
): number {
  const [header, tube, pool] = [joinableOf(headerPipe), joinableOf(tubePipe), joinableOf(poolPipe)];
  if (!header || !tube || !pool || headerPipe === poolPipe) return 0;
  const lead = headerTee(header, tube).run_m + 2 * header.socket_m + endToEndGap_m(header, pool) / 2;
  const mark = MARK_m[units];
  return Number((Math.ceil(lead / mark - 1e-6) * mark).toFixed(6));
}
