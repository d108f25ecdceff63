import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Say } from '../flow/say';
import type { TestDayValues } from './values';

/** Shares as people say them. */
const SHARES: readonly (readonly [upTo: number, words: string])[] = [
  [0.07, 'a little'],
  [0.14, 'a tenth'],
  [0.225, 'a fifth'],
  [0.29, 'a quarter'],
  [0.42, 'a third'],
  [0.58, 'half'],
  [Infinity, 'more than half'],
];

/** @example shareWords(0.26) // 'a quarter' */
export function shareWords(share: number): string {
  return SHARES.find(([upTo]) => Math.abs(share) <= upTo)?.[1] ?? 'more than half';
}

/**
 * The verdict as the face says it.
 *
 * @example verdictWords({ verdict: 'low', difference_W: -2500, expected_W: 10_000 }) // 'low by a quarter'
 */
export function verdictWords(v: Pick<TestDayValues, 'verdict' | 'difference_W' | 'expected_W'>): string {
  if (v.verdict === null) return 'nothing to judge yet';
  if (v.verdict === 'agrees') return 'agrees';
  if (v.verdict === 'cannotTell') return 'cannot tell';
  const share = v.expected_W ? (v.difference_W ?? 0) / Math.abs(v.expected_W) : 1;
  return `${v.verdict} by ${shareWords(share)}`;
}

/** What the verdict asks for. */
export function verdictNotices(v: TestDayValues, path: string, say: Say): Notice[] {
  if (v.verdict === null || v.heat_W === null || v.expected_W === null) return [];
  const [worst] = [...v.contributions, ...v.expectedContributions].sort(
    (a, b) => b.standardUncertainty_W - a.standardUncertainty_W,
  );
  const doubt = worst?.label ?? '';
  if (v.verdict === 'low')
    return [
      {
        code: 'heat-low',
        severity: 'heat',
        path,
        message: `It gave ${say(v.heat_W, 'heatRate')} where ${say(v.expected_W, 'heatRate')} was to be expected: ${verdictWords(v)}, of which ${say(v.surely_W ?? 0, 'heatRate')} is beyond all doubt.`,
        remedy: lowRemedy(v),
      },
    ];
  if (v.verdict === 'high')
    return [
      {
        code: 'heat-high',
        severity: 'unsure',
        path,
        message: `It gave ${say(v.heat_W, 'heatRate')} where ${say(v.expected_W, 'heatRate')} was to be expected: ${verdictWords(v)}. A heater seldom beats its model: look at the readings first.`,
        remedy:
          'Check both thermometers in one pail, and the pail’s volume; then whether the panel is more sheltered than described.',
      },
    ];
  if (v.verdict === 'cannotTell')
    return [
      {
        code: 'heat-cannot-tell',
        severity: 'unsure',
        path,
        message: `Measured and expected do not contradict each other, but the doubt is too wide to tell a good heater from a poor one.${doubt ? ` Most of it: ${doubt}.` : ''}`,
        remedy: v.advice[0]?.message ?? 'Repeat on a clear day.',
      },
    ];
  return [];
}

/** Less water than the loop should give, or as much water and less heat. */
function lowRemedy(v: TestDayValues): string {
  const { flow_m3s, flowExpanded_m3s, expectedFlow_m3s } = v;
  if (
    flow_m3s !== null &&
    expectedFlow_m3s !== null &&
    flow_m3s + (flowExpanded_m3s ?? 0) < 0.9 * expectedFlow_m3s
  )
    return 'The flow is low too: clean filter and baskets, see how the valve stands, look for a kinked or clogged pipe.';
  return 'The flow is as expected, so look at the panel: feel each tube for ones that stand still, look for shade, dust or faded black.';
}
