import { DomainError } from '../numeric/errors';
import { exact } from '../numeric/exact';
import type { Notice } from '../numeric/notice';
import { mean } from '../numeric/statistics';
import { type Component, fromLimits, fromReadings, fromResolution } from './component';
import { combine } from './coverage';
import { placeLimit } from './place';
import { placeNotices, signNotices } from './rise-notices';
import type { Rise, RiseOutcome, RiseTest } from './rise-types';

/**
 * Rise of temperature over the collector, with resolution, class, calibration, place and scatter of each
 * thermometer.
 *
 * Readings taken in pairs (as many at the inlet as at the outlet) are differenced first, so that a drift both
 * saw drops out; a reading that cannot be takes its partner with it. Where fewer than two whole pairs are left,
 * and otherwise, each side scatters alone. Class errors of correlation r are one shared error √r and
 * two own √(1 − r) (JCGM 100:2008, F.1.2.3), so that every component of the rise is independent. A check in
 * one pail replaces the classes by what the check leaves: its scatter, both last digits once more, and drift;
 * the correlation it amounts to is r = (u₁² + u₂² − u_Δ²)/(2u₁u₂).
 *
 * @param test a person's readings [°C]
 * @throws {DomainError} a limit negative or not finite, or correlation outside 0…1
 * @example rise({ inlet: { readings_C: [26], … }, outlet: { readings_C: [29], … } }).rise?.rise_K // 3
 */
export function rise(test: RiseTest): RiseOutcome {
  const r = test.classCorrelation ?? 0;
  if (!(r >= 0 && r <= 1)) throw new DomainError('correlation of the thermometers', r, '[0, 1]');
  const notices: Notice[] = [];
  const pairs = test.inlet.readings_C.length === test.outlet.readings_C.length;
  const whole = pairs ? wholePairs(test.inlet.readings_C, test.outlet.readings_C) : { inlet: [], outlet: [] };
  const paired = whole.inlet.length > 1;
  const goodInlet = sane(test.inlet.readings_C, '/inlet/readings_C', paired, notices);
  const goodOutlet = sane(test.outlet.readings_C, '/outlet/readings_C', paired, notices);
  const inlet = paired ? whole.inlet : goodInlet;
  const outlet = paired ? whole.outlet : goodOutlet;
  if (inlet.length === 0 || outlet.length === 0) return { rise: undefined, notices };
  placeNotices(test, notices);

  const check = onePail(test, notices);
  const components: Component[] = [
    ...scatter(inlet, outlet, paired),
    fromResolution(
      'thermometer.inlet.resolution',
      'last digit of the inlet thermometer',
      -1,
      inlet,
      test.inlet.thermometer.resolution_K,
    ),
    fromResolution(
      'thermometer.outlet.resolution',
      'last digit of the outlet thermometer',
      1,
      outlet,
      test.outlet.thermometer.resolution_K,
    ),
    fromLimits(
      'place.inlet',
      'where the inlet thermometer was held',
      -1,
      test.inlet.placeLimit_K ?? placeLimit(test.inlet.place),
    ),
    fromLimits(
      'place.outlet',
      'where the outlet thermometer was held',
      1,
      test.outlet.placeLimit_K ?? placeLimit(test.outlet.place),
    ),
    ...(check ? check.components : classes(test, r)),
  ].filter((c) => c.effect !== 0);
  const warm = mean(outlet) - (test.outlet.thermometer.offset_K ?? 0) - (check?.offset ?? 0);
  const cool = mean(inlet) - (test.inlet.thermometer.offset_K ?? 0);
  const u = combine(components);
  const result: Rise = {
    rise_K: warm - cool,
    inlet_C: cool,
    outlet_C: warm,
    standardUncertainty_K: u.standardUncertainty,
    expandedUncertainty_K: u.expandedUncertainty,
    dof: u.dof,
    components,
    offset_K: check?.offset ?? 0,
    correlation: check ? impliedCorrelation(test, check.components) : r,
  };
  signNotices(test, result, notices);
  return { rise: result, notices };
}

/** Running water of a pool's heater, on an open scale of its ends; false for what is no number [°C]. */
const isWater = (t: number): boolean => t > 0 && t < 100;

/** The readings of which both can be, in their order. */
function wholePairs(inlet: readonly number[], outlet: readonly number[]) {
  const good = inlet.flatMap((t, i) => (isWater(t) && isWater(outlet[i]!) ? [i] : []));
  return { inlet: good.map((i) => inlet[i]!), outlet: good.map((i) => outlet[i]!) };
}

function sane(readings: readonly number[], path: string, paired: boolean, notices: Notice[]): number[] {
  const good: number[] = [];
  readings.forEach((t, i) => {
    if (isWater(t)) good.push(t);
    else
      notices.push({
        code: 'temperature-impossible',
        severity: 'unsure',
        path: `${path}/${i}`,
        message: `${t} °C is not running water; the reading is left out${paired ? ', with the one taken beside it' : ''}.`,
        remedy: 'See whether it was read in °F.',
      });
  });
  if (good.length === 0)
    notices.push({
      code: 'temperature-none',
      severity: 'unsure',
      path,
      message: 'There is no usable reading here, so no rise.',
      remedy: 'Read both thermometers three times, in pairs.',
    });
  return good;
}

function scatter(inlet: readonly number[], outlet: readonly number[], paired: boolean): Component[] {
  if (paired)
    return [
      fromReadings(
        'rise.repeats',
        'scatter of the rise',
        1,
        outlet.map((t, i) => t - inlet[i]!),
      ),
    ];
  const each: Component[] = [];
  if (inlet.length > 1) each.push(fromReadings('inlet.repeats', 'scatter at the inlet', -1, inlet));
  if (outlet.length > 1) each.push(fromReadings('outlet.repeats', 'scatter at the outlet', 1, outlet));
  return each;
}

function classes(test: RiseTest, r: number): Component[] {
  const a = test.inlet.thermometer.limit_K;
  const b = test.outlet.thermometer.limit_K;
  return [
    fromLimits(
      'thermometer.class.shared',
      'class error both thermometers share',
      Math.sqrt(r),
      Math.abs(b - a),
    ),
    fromLimits('thermometer.inlet.class', 'class of the inlet thermometer', -Math.sqrt(1 - r), a),
    fromLimits('thermometer.outlet.class', 'class of the outlet thermometer', Math.sqrt(1 - r), b),
  ];
}

function onePail(test: RiseTest, notices: Notice[]): { offset: number; components: Component[] } | undefined {
  if (test.onePail === undefined) return undefined;
  const { driftLimit_K = 0.05 } = test.onePail;
  const { inlet: inlet_C, outlet: outlet_C } = wholePairs(test.onePail.inlet_C, test.onePail.outlet_C);
  const most = Math.max(test.onePail.inlet_C.length, test.onePail.outlet_C.length);
  const inletDigit = test.inlet.thermometer.resolution_K;
  const outletDigit = test.outlet.thermometer.resolution_K;
  const difference = outlet_C.map((t, i) => t - inlet_C[i]!);
  const left = most - difference.length;
  if (left > 0 && difference.length > 0)
    notices.push({
      code: 'one-pail-left-out',
      severity: 'unsure',
      path: '/onePail',
      message: `Of ${most} pairs of readings in one pail, ${left} ${left === 1 ? 'is' : 'are'} not whole or not water between 0 and 100 °C, and left out.`,
      remedy: 'See whether they were read in °F.',
    });
  if (difference.length === 0) {
    notices.push({
      code: 'one-pail-none',
      severity: 'unsure',
      path: '/onePail',
      message: 'The check in one pail has no pair of readings and is not used.',
    });
    return undefined;
  }
  const known = (test.outlet.thermometer.offset_K ?? 0) - (test.inlet.thermometer.offset_K ?? 0);
  const offset = mean(difference) - known;
  const allowed = test.inlet.thermometer.limit_K + test.outlet.thermometer.limit_K;
  if (
    Math.abs(offset) >
    1.1 * allowed + test.inlet.thermometer.resolution_K + test.outlet.thermometer.resolution_K
  )
    notices.push({
      code: 'one-pail-apart',
      severity: 'unsure',
      path: '/onePail',
      message: `In one pail the thermometers differ by ${exact(Math.abs(offset))} K, more than both classes allow: one is faulty, or they were not in the same water.`,
      remedy: 'Tie them tip to tip, stir, wait three minutes, read again.',
    });
  return {
    offset,
    components: [
      ...(difference.length > 1
        ? [fromReadings('onePail.repeats', 'scatter of the check in one pail', -1, difference)]
        : []),
      fromResolution('onePail.inletResolution', 'last digit in the check, inlet', 1, inlet_C, inletDigit),
      fromResolution(
        'onePail.outletResolution',
        'last digit in the check, outlet',
        -1,
        outlet_C,
        outletDigit,
      ),
      fromLimits('onePail.drift', 'drift since the check in one pail', -1, driftLimit_K),
    ],
  };
}

function impliedCorrelation(test: RiseTest, check: readonly Component[]): number {
  const a = test.inlet.thermometer.limit_K / Math.sqrt(3);
  const b = test.outlet.thermometer.limit_K / Math.sqrt(3);
  if (!(a > 0 && b > 0)) return 0;
  const left = check.reduce((sum, c) => sum + c.effect ** 2, 0);
  return Math.max(-1, Math.min(1, (a * a + b * b - left) / (2 * a * b)));
}
