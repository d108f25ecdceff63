import type { Notice } from '../numeric/notice';
import { fromLimits, scaled } from './component';
import { type FlowOutcome, flowFrom } from './flow';
import { type Stopwatch, timed } from './stopwatch';

export interface FrontTest extends Stopwatch {
  /** water between the valve and where the warm front was felt [m³] */
  loopVolume_m3: number;
  /** doubt of that volume, ± share [–] */
  volumeLimitShare: number;
  /** how sharply the front's middle was told, ± share of the delay [–]; 0.1 is common practice */
  smearLimitShare?: number;
}

/**
 * Flow from the delay of the warm front after the valve is opened, V̇ = V_loop/t. The front is smeared by the
 * header and by tubes that do not run alike: time its middle, not its first warmth.
 *
 * @param test a person's readings; `times_s` are delays of repeated openings, each after standing in the sun
 * @throws {DomainError} a limit negative or not finite
 * @example frontFlow({ times_s: [60, 63, 61], loopVolume_m3: 0.02, volumeLimitShare: 0.05, reactionLimit_s: 1 })
 */
export function frontFlow(test: FrontTest): FlowOutcome {
  const time = timed({ scatterAlone_s: 3, ...test }, 'front');
  const notices: Notice[] = [...time.notices];
  const sane = test.loopVolume_m3 > 0 && test.loopVolume_m3 < Infinity;
  if (!sane)
    notices.push({
      code: 'front-volume',
      severity: 'unsure',
      path: '/loopVolume_m3',
      message: 'The loop must hold some water for a front to be late.',
    });
  if (!sane || time.mean_s === undefined) return { flow: undefined, notices };
  const flow = test.loopVolume_m3 / time.mean_s;
  return {
    flow: flowFrom('front', flow, [
      ...scaled(time.components, -flow / time.mean_s),
      fromLimits('front.volume', 'water held by the loop', flow, test.volumeLimitShare),
      fromLimits('front.smear', 'telling the middle of the warm front', flow, test.smearLimitShare ?? 0.1),
    ]),
    notices,
  };
}
