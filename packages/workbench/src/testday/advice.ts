import type { Advice } from '@sunlap/engine/measurement/advice';
import type { Component } from '@sunlap/engine/measurement/component';
import { combine } from '@sunlap/engine/measurement/coverage';
import type { TestDay } from '@sunlap/project/schema/life';
import { DOUBTS } from '../first/doubts';

/** A step that buys less of the interval than this is not worth a word. */
const LEAST = 0.02;

interface OwnStep {
  readonly step: string;
  readonly message: string;
  readonly effort: Advice['effort'];
  readonly source: string;
  /** What it leaves of that doubt [–]. */
  readonly leaves: number;
}

const OWN: readonly OwnStep[] = [
  {
    step: 'airAtTubes',
    message: 'Read the air in the shade at the height of the tubes, with the same probe as the water.',
    effort: 'minutes',
    source: 'expected.air',
    leaves: 0.35,
  },
  {
    step: 'allWater',
    message:
      'Turn all the water to the collector for the test: then nobody has to guess how the valve parts it.',
    effort: 'minutes',
    source: 'flow.split',
    leaves: 0,
  },
  ...DOUBTS.map(
    ({ doubt, settle }): OwnStep => ({
      step: `settle-${doubt}`,
      message: settle,
      effort: 'minutes',
      source: `expected.unsure.${doubt}`,
      leaves: 0.2,
    }),
  ),
];

/**
 * The engine's advice without what the person has done already, and with what a project adds: the air, the valve,
 * each "don't know". Best first.
 */
export function dayAdvice(
  day: TestDay,
  given: readonly Advice[],
  measured: readonly Component[],
  expected: readonly Component[],
): Advice[] {
  const all = [...measured, ...expected];
  const now = combine(all).expandedUncertainty;
  if (!(now > 0)) return [];
  const own = OWN.flatMap(({ step, message, effort, source, leaves }): Advice[] => {
    if (!all.some((c) => c.source === source)) return [];
    const after = all.map((c) => (c.source === source ? { ...c, effect: c.effect * leaves } : c));
    const then = combine(after.filter((c) => c.effect !== 0)).expandedUncertainty;
    const shrink = 1 - then / now;
    return shrink < LEAST ? [] : [{ step, message, effort, expandedUncertainty_W: then, shrink }];
  });
  const { sky, irradiance_Wm2, windAt, wind_ms } = day.weather ?? {};
  const done = new Set<string>();
  if (sky === 'clear' || irradiance_Wm2 !== undefined) done.add('clearSky');
  if (wind_ms !== undefined && windAt === 'collector') done.add('windAtCollector');
  return [...given.filter((a) => !done.has(a.step)), ...own].sort((a, b) => b.shrink - a.shrink);
}
