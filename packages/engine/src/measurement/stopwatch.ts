import { DomainError } from '../numeric/errors';
import type { Notice } from '../numeric/notice';
import { mean, standardDeviation } from '../numeric/statistics';
import { type Component, fromJudgement, fromLimits, fromReadings, fromResolution } from './component';

/** Times taken by hand. */
export interface Stopwatch {
  times_s: readonly number[];
  /** a constant lateness of the thumb between start and stop, ± [s]; common practice 0.3 */
  reactionLimit_s: number;
  /** last digit shown [s]; 0.01 on most */
  resolution_s?: number;
  /** what a single time scatters by, when there is no second one [s]; common practice 0.4 */
  scatterAlone_s?: number;
}

/** Mean time with its components [s], or undefined when no usable time is left. */
export interface Timed {
  mean_s: number | undefined;
  components: Component[];
  notices: Notice[];
}

/**
 * Mean of stopwatch times: repeats as type A with n − 1 degrees of freedom, reaction and resolution as limits.
 * A single time borrows its scatter from common practice, believed to ±35 %, which JCGM 100 eq. G.3 turns
 * into four degrees of freedom. Times of zero, less or none at all are left out with a notice.
 *
 * @param watch  times and limits; times are a person's, limits ≥ 0
 * @param source prefix of the component names; the reaction is named once for a person, whatever is timed
 * @throws {DomainError} a limit negative or not finite
 * @example timed({ times_s: [61.2, 60.4, 61.9], reactionLimit_s: 0.3 }, 'pail').mean_s // 61.1667
 */
export function timed(watch: Stopwatch, source: string): Timed {
  const notices: Notice[] = [];
  const good: number[] = [];
  watch.times_s.forEach((t, i) => {
    if (t > 0 && t < Infinity) good.push(t);
    else
      notices.push({
        code: 'time-impossible',
        severity: 'unsure',
        path: `/times_s/${i}`,
        message: `${t} s is no time for water to run; it is left out.`,
        remedy: 'Take this time again: start as the first water falls in, stop as it reaches the mark.',
      });
  });
  if (!(watch.reactionLimit_s >= 0))
    throw new DomainError('reaction limit', watch.reactionLimit_s, '[0, ∞) s');
  if (good.length === 0) {
    notices.push({
      code: 'time-none',
      severity: 'unsure',
      path: '/times_s',
      message: 'There is no usable time, so no flow.',
      remedy: 'Time at least three runs.',
    });
    return { mean_s: undefined, components: [], notices };
  }
  const t = mean(good);
  const components = [
    good.length > 1
      ? fromReadings(`${source}.repeats`, 'scatter of the times', 1, good)
      : fromJudgement(`${source}.repeats`, 'scatter of a single time', 1, watch.scatterAlone_s ?? 0.4, 0.35),
    fromLimits('stopwatch.reaction', 'reaction at the stopwatch', 1, watch.reactionLimit_s),
    fromResolution(
      `${source}.timeResolution`,
      'last digit of the stopwatch',
      1,
      good,
      watch.resolution_s ?? 0.01,
    ),
  ];
  if (good.length === 1)
    notices.push({
      code: 'time-single',
      severity: 'unsure',
      path: '/times_s',
      message: 'One time alone shows no scatter; a usual one is assumed.',
      remedy: 'Two more runs take a minute and say what the scatter really is.',
    });
  else if (good.length === 2)
    notices.push({
      code: 'time-pair',
      severity: 'unsure',
      path: '/times_s',
      message: 'Two times say little about scatter: Student’s factor is 12.7; with three it is 4.3.',
      remedy: 'Take a third.',
    });
  if (good.length > 1 && standardDeviation(good) > 0.25 * t)
    notices.push({
      code: 'time-scatter',
      severity: 'unsure',
      path: '/times_s',
      message: `The times differ from ${Math.min(...good)} to ${Math.max(...good)} s: more than a thumb explains.`,
      remedy: 'Look for a pump drawing air or a valve being moved; drop a run that went wrong.',
    });
  if (t < 5)
    notices.push({
      code: 'time-short',
      severity: 'unsure',
      path: '/times_s',
      message: `In ${t.toPrecision(2)} s the thumb matters as much as the water.`,
      remedy: 'Use a bigger vessel, or catch a known share of the flow.',
    });
  return { mean_s: t, components, notices };
}
