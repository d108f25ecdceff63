import type { Notice } from '../numeric/notice';
import { type Component, fromLimits, scaled } from './component';
import { type FlowOutcome, flowFrom } from './flow';
import { type Stopwatch, timed } from './stopwatch';

export interface PailTest extends Stopwatch {
  /** volume to the fill line [m³] */
  volume_m3: number;
  /** doubt of that volume, ± [m³] */
  volumeLimit_m3: number;
  /** doubt of where the water stood against the line, ± [m³] */
  fillLineLimit_m3?: number;
  /** part of the flow that went into the pail [–], 0…1; 1 when left out */
  shareCaught?: number;
  shareCaughtLimit?: number;
  /** how much higher the outlet was held than where it usually ends [m]; negative when lower */
  lift_m?: number;
  /** the loop's flow with its outlet raised by so much [m³/s], from the network */
  flowAtLift_m3s?: (lift_m: number) => number;
  /** name of the pail, when the same one serves in several tests */
  pail?: string;
}

/**
 * Flow by pail and stopwatch, V̇ = V/(t·x)·r: volume over mean time, over the share x that was caught, times
 * r = V̇(0)/V̇(lift) when the outlet was lifted to the pail and the network's answer is at hand. Half of that
 * correction is taken as its own limit (common practice); without the network nothing is corrected and a notice says so.
 *
 * @param test a person's readings
 * @returns flow [m³/s] as it runs in service, or none with the reasons
 * @throws {DomainError} a limit negative or not finite
 * @example pailFlow({ volume_m3: 0.02, volumeLimit_m3: 0, times_s: [61.2, 60.4, 61.9], reactionLimit_s: 0.3 })
 * // flow 3.2698e-4 m³/s = 19.62 L/min
 */
export function pailFlow(test: PailTest): FlowOutcome {
  const time = timed(test, 'pail');
  const notices: Notice[] = [...time.notices];
  const share = test.shareCaught ?? 1;
  if (!(test.volume_m3 > 0 && test.volume_m3 < Infinity))
    notices.push({
      code: 'pail-volume',
      severity: 'unsure',
      path: '/volume_m3',
      message: 'A pail needs a volume above zero.',
      remedy: 'Weigh the water: a kilogram is a litre.',
    });
  if (!(share > 0 && share <= 1))
    notices.push({
      code: 'pail-share',
      severity: 'unsure',
      path: '/shareCaught',
      message: 'The share caught must lie between nothing and all of the flow.',
    });
  const usable = test.volume_m3 > 0 && test.volume_m3 < Infinity && share > 0 && share <= 1;
  if (!usable || time.mean_s === undefined) return { flow: undefined, notices };

  const asCaught = test.volume_m3 / time.mean_s / share;
  const lift = liftRatio(test, notices);
  const flow = asCaught * lift.ratio;
  const volume = test.pail === undefined ? 'pail.volume' : `pail.volume.${test.pail}`;
  const components: Component[] = [
    ...scaled(time.components, -flow / time.mean_s),
    fromLimits(volume, 'volume of the pail', flow / test.volume_m3, test.volumeLimit_m3),
    fromLimits('pail.fillLine', 'reading the fill line', flow / test.volume_m3, test.fillLineLimit_m3 ?? 0),
    fromLimits('pail.share', 'share of the flow caught', -flow / share, test.shareCaughtLimit ?? 0),
    fromLimits('pail.lift', 'outlet lifted to the pail', asCaught, Math.abs(lift.ratio - 1) / 2),
  ];
  return { flow: flowFrom('pail', flow, components), notices };
}

function liftRatio(test: PailTest, notices: Notice[]): { ratio: number } {
  const lift = test.lift_m ?? 0;
  if (lift === 0) return { ratio: 1 };
  const inService = test.flowAtLift_m3s?.(0);
  const lifted = test.flowAtLift_m3s?.(lift);
  if (inService !== undefined && lifted !== undefined && inService > 0 && lifted > 0) {
    const ratio = inService / lifted;
    notices.push({
      code: 'pail-lifted',
      severity: 'info',
      path: '/lift_m',
      message: `With the outlet back in its place the flow is ${((ratio - 1) * 100).toFixed(1)} % ${ratio < 1 ? 'less' : 'more'}; that is corrected.`,
    });
    return { ratio };
  }
  notices.push({
    code: 'pail-lifted-uncorrected',
    severity: 'unsure',
    path: '/lift_m',
    message: `The outlet was ${Math.abs(lift)} m ${lift > 0 ? 'above' : 'below'} its usual end, so ${lift > 0 ? 'less' : 'more'} water ran than in service; not corrected.`,
    remedy:
      'Hold the pail at the height of the usual outlet, or describe the loop so that it can be corrected.',
  });
  return { ratio: 1 };
}
