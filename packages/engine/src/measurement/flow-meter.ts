import type { Notice } from '../numeric/notice';
import { mean } from '../numeric/statistics';
import { fromLimits, fromReadings, scaled } from './component';
import { type FlowOutcome, flowFrom } from './flow';
import { timed } from './stopwatch';

export interface MeterTest {
  first_m3: number;
  second_m3: number;
  elapsed_s: number;
  /** last digit or mark of the register [m³] */
  resolution_m3: number;
  /** class of the meter, ± share of the volume [–] */
  limitShare: number;
  reactionLimit_s: number;
}

/**
 * Flow from a water meter's two readings, V̇ = (R₂ − R₁)/t. Each reading is uncertain by half the last mark;
 * the scatter of a timed interval read off a moving register is the reaction.
 *
 * @param test a person's readings
 * @throws {DomainError} a limit negative or not finite
 * @example meterFlow({ first_m3: 12, second_m3: 12.1, elapsed_s: 300, resolution_m3: 1e-4, limitShare: 0.02,
 *   reactionLimit_s: 0.5 }).flow?.flow_m3s // 3.333e-4
 */
export function meterFlow(test: MeterTest): FlowOutcome {
  const volume = test.second_m3 - test.first_m3;
  const notices: Notice[] = [];
  if (!(volume > 0 && volume < Infinity))
    notices.push({
      code: 'meter-backwards',
      severity: 'unsure',
      path: '/second_m3',
      message: 'The second reading is not above the first, so no water passed by it.',
      remedy:
        'Look for swapped readings, a register that rolled over, or a meter fitted the wrong way round.',
    });
  const time = timed(
    { times_s: [test.elapsed_s], reactionLimit_s: test.reactionLimit_s, scatterAlone_s: 0 },
    'meter',
  );
  notices.push(
    ...time.notices.filter((n) => n.code !== 'time-single').map((n) => ({ ...n, path: '/elapsed_s' })),
  );
  if (!(volume > 0 && volume < Infinity) || time.mean_s === undefined) return { flow: undefined, notices };
  const flow = volume / time.mean_s;
  if (volume < 20 * test.resolution_m3)
    notices.push({
      code: 'meter-coarse',
      severity: 'unsure',
      path: '/second_m3',
      message: 'Only a few marks of the register passed.',
      remedy: 'Wait longer between the readings: the doubt falls in proportion.',
    });
  return {
    flow: flowFrom('meter', flow, [
      ...scaled(time.components, -flow / time.mean_s),
      fromLimits('meter.first', 'first reading of the register', -1 / time.mean_s, test.resolution_m3 / 2),
      fromLimits('meter.second', 'second reading of the register', 1 / time.mean_s, test.resolution_m3 / 2),
      fromLimits('meter.class', 'class of the meter', flow, test.limitShare),
    ]),
    notices,
  };
}

export interface RotameterTest {
  readings_m3s: readonly number[];
  fullScale_m3s: number;
  /** class, ± share of full scale [–] */
  limitOfFullScale: number;
  /** distance between marks [m³/s] */
  division_m3s: number;
}

/**
 * Flow from a rotameter: mean reading, class as a share of full scale, and half a mark of reading. The scale is
 * taken as made for water; between 15 and 35 °C its density moves a reading by less than 0.3 %.
 *
 * @param test a person's readings
 * @throws {DomainError} a limit negative or not finite
 * @example rotameterFlow({ readings_m3s: [3e-4], fullScale_m3s: 6e-4, limitOfFullScale: 0.05, division_m3s: 2e-5 })
 */
export function rotameterFlow(test: RotameterTest): FlowOutcome {
  const notices: Notice[] = [];
  const good = test.readings_m3s.filter((v, i) => {
    const sane = v > 0 && v <= test.fullScale_m3s;
    if (!sane)
      notices.push({
        code: 'rotameter-scale',
        severity: 'unsure',
        path: `/readings_m3s/${i}`,
        message: 'A float at rest or beyond its scale gives no flow; this reading is left out.',
        remedy: 'Use a rotameter whose scale holds the flow in its upper half.',
      });
    return sane;
  });
  if (good.length === 0) return { flow: undefined, notices };
  const flow = mean(good);
  if (flow < 0.2 * test.fullScale_m3s)
    notices.push({
      code: 'rotameter-low',
      severity: 'unsure',
      path: '/readings_m3s',
      message: 'The float stands low in its scale, where its class is a large share of the reading.',
      remedy: 'A smaller rotameter would read this flow better.',
    });
  return {
    flow: flowFrom('rotameter', flow, [
      ...(good.length > 1 ? [fromReadings('rotameter.repeats', 'scatter of the float', 1, good)] : []),
      fromLimits('rotameter.class', 'class of the rotameter', test.fullScale_m3s, test.limitOfFullScale),
      fromLimits('rotameter.reading', 'reading between the marks', 0.5, test.division_m3s),
    ]),
    notices,
  };
}
