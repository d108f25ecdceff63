import { type Component, fromLimits } from './component';
import { combine } from './coverage';
import type { HeatMeasurement } from './heat';

/** What a step asks of a person. */
export type Effort = 'minutes' | 'hour' | 'purchase';

export interface Advice {
  step: string;
  message: string;
  effort: Effort;
  /** 95 % half-width after it, joint with the expected heat's when that was given [W] */
  expandedUncertainty_W: number;
  /** what it takes off the interval now [–], 0…1 */
  shrink: number;
}

type Change = (c: Component) => Component | undefined;

interface Step {
  step: string;
  message: string;
  effort: Effort;
  change: Change;
  added?: (measured: HeatMeasurement) => Component[];
}

/**
 * What the next step would buy: each changes the components it acts on, the interval is made again, and the
 * steps are ranked by how much of the interval they take off; those that take off less than 2 % are left out.
 * Steps that sharpen the expectation instead (wind, sky) count when its components are given, since the verdict
 * rests on both.
 *
 * @param measured the heat with its components
 * @param expected components of the expected heat [W]: sources `expected.wind`, `expected.sun`, …
 * @returns best first
 * @example nextSteps(measured)[0]?.step // 'onePail'
 */
export function nextSteps(measured: HeatMeasurement, expected: readonly Component[] = []): Advice[] {
  const all = [...measured.components, ...expected];
  const now = combine(all).expandedUncertainty;
  if (!(now > 0)) return [];
  return STEPS.flatMap(({ step, message, effort, change, added }) => {
    if (!all.some((c) => change(c) !== c)) return [];
    const after = all.flatMap((c) => change(c) ?? []);
    const then = combine([...after, ...(added?.(measured) ?? [])]).expandedUncertainty;
    const shrink = 1 - then / now;
    return shrink < 0.02 ? [] : [{ step, message, effort, expandedUncertainty_W: then, shrink }];
  }).sort((a, b) => b.shrink - a.shrink);
}

const times = (c: Component, factor: number): Component => ({ ...c, effect: c.effect * factor });
const isClass = (c: Component): boolean =>
  /^thermometer\.(inlet|outlet)\.class$|^thermometer\.class\.shared$/.test(c.source);
const isTimed = (c: Component): boolean =>
  /^(pail|front)\.(repeats|timeResolution|fillLine)|^stopwatch\.reaction/.test(c.source);

/** Three more readings: the scatter stays, its mean and its knowledge improve. */
const repeated =
  (pattern: RegExp): Change =>
  (c) => {
    if (!pattern.test(c.source)) return c;
    const n = c.repeats ?? 1;
    return { ...c, effect: c.effect * Math.sqrt(n / (n + 3)), dof: n + 2, repeats: n + 3 };
  };

const limited = (measured: HeatMeasurement, source: string, label: string, limit: number): Component =>
  fromLimits(source, label, measured.capacityFlow_WK, limit);

const STEPS: readonly Step[] = [
  {
    step: 'onePail',
    message: 'Hold both thermometers in one pail, stir, read three times: what they differ by is taken off.',
    effort: 'minutes',
    change: (c) => (isClass(c) ? undefined : c),
    added: (m) => [
      limited(m, 'onePail.drift', 'drift since the check in one pail', 0.05),
      ...m.components
        .filter((c) => /^thermometer\.(inlet|outlet)\.resolution$/.test(c.source))
        .map((c) => ({ ...c, source: `${c.source}.onePail` })),
    ],
  },
  {
    step: 'moreTimes',
    message: 'Time three more runs.',
    effort: 'minutes',
    change: repeated(/^(pail|front)\.repeats/),
  },
  {
    step: 'moreTemperatures',
    message: 'Read both thermometers three more times, in pairs.',
    effort: 'minutes',
    change: repeated(/^(rise|inlet|outlet)\.repeats/),
  },
  {
    step: 'weighPail',
    message: 'Weigh the pail empty and full: a kilogram is a litre, and its volume is known to 0.5 %.',
    effort: 'minutes',
    change: (c) => (/^pail\.volume/.test(c.source) ? times(c, 0.2) : c),
  },
  {
    step: 'secondPail',
    message: 'Repeat with a second pail of another make.',
    effort: 'minutes',
    change: (c) => (/^pail\.volume/.test(c.source) ? times(c, Math.SQRT1_2) : c),
  },
  {
    step: 'biggerPail',
    message: 'Use a vessel three times as big: thumb and fill line count a third.',
    effort: 'minutes',
    change: (c) => (isTimed(c) ? times(c, 1 / 3) : c),
  },
  {
    step: 'holdInStream',
    message: 'Hold the thermometers in the streaming water itself, at collector inlet and outlet.',
    effort: 'minutes',
    change: (c) => (/^place\./.test(c.source) ? undefined : c),
    added: (m) => [
      limited(m, 'place.inlet', 'where the inlet thermometer was held', 0.05),
      limited(m, 'place.outlet', 'where the outlet thermometer was held', 0.05),
    ],
  },
  {
    step: 'steadySun',
    message:
      'Wait for steady sun: three transit times and one time constant without a cloud halve the scatter.',
    effort: 'hour',
    change: (c) => (/^(rise|inlet|outlet)\.repeats/.test(c.source) ? times(c, 0.5) : c),
  },
  {
    step: 'secondMethod',
    message: 'Measure the flow a second way and combine.',
    effort: 'hour',
    change: (c) =>
      /^(pail|meter|rotameter|gauges|front|stopwatch|flow)\./.test(c.source) ? times(c, Math.SQRT1_2) : c,
  },
  {
    step: 'betterThermometer',
    message: 'Use thermometers good to ±0.1 K.',
    effort: 'purchase',
    change: (c) => (isClass(c) ? undefined : c),
    added: (m) => [
      limited(m, 'thermometer.inlet.class', 'class of the inlet thermometer', 0.1),
      limited(m, 'thermometer.outlet.class', 'class of the outlet thermometer', 0.1),
    ],
  },
  {
    step: 'windAtCollector',
    message: 'Measure the wind beside the collector, or repeat on a calm day or behind a shelter.',
    effort: 'hour',
    change: (c) => (c.source === 'expected.wind' ? times(c, 1 / 3) : c),
  },
  {
    step: 'clearSky',
    message: 'Repeat under a sky without clouds, when the sun is known best.',
    effort: 'hour',
    change: (c) => (c.source === 'expected.sun' ? times(c, 0.5) : c),
  },
];
