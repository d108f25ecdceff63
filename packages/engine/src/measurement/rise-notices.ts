import { exact } from '../numeric/exact';
import type { Notice } from '../numeric/notice';
import type { Rise, RiseTest } from './rise-types';

/** Where the thermometers were held, when that is worth a word. */
export function placeNotices(test: RiseTest, notices: Notice[]): void {
  for (const side of ['inlet', 'outlet'] as const) {
    const place = test[side].place;
    if (place === 'elsewhere')
      notices.push({
        code: 'place-elsewhere',
        severity: 'unsure',
        path: `/${side}/place`,
        message: 'This thermometer was not in the water of the loop, so the rise means little.',
        remedy:
          'Hold one where water enters the collector and one where it leaves, or both in the same pail first.',
      });
    if (place === 'skimmer' || place === 'pool')
      notices.push({
        code: 'place-not-bulk',
        severity: 'unsure',
        path: `/${side}/place`,
        message: 'Water at the surface is not the water the pump draws; ±0.5 K is allowed for that.',
        remedy: 'Read the water that enters the collector, or an arm’s length down away from the return.',
      });
  }
}

/** A rise that is negative, lost in its doubt, or below the pool. */
export function signNotices(test: RiseTest, found: Rise, notices: Notice[]): void {
  if (test.pool_C !== undefined && found.outlet_C < test.pool_C - found.expandedUncertainty_K)
    notices.push({
      code: 'return-colder-than-pool',
      severity: 'heat',
      path: '/outlet/readings_C',
      message: 'The return is colder than the pool: just now the collector cools it.',
      remedy:
        'In the evening that means close the valve; at noon, check for swapped thermometers or a return mixed with other water.',
    });
  if (found.rise_K < -found.expandedUncertainty_K)
    notices.push({
      code: 'rise-negative',
      severity: 'heat',
      path: '/outlet/readings_C',
      message: `The water leaves ${exact(Math.abs(found.rise_K))} K colder than it came: heat is lost, or inlet and outlet were swapped.`,
      remedy: 'Exchange the two thermometers and read again.',
    });
  else if (Math.abs(found.rise_K) <= found.expandedUncertainty_K)
    notices.push({
      code: 'rise-lost',
      severity: 'unsure',
      path: '/outlet/readings_C',
      message: `A rise of ${exact(found.rise_K)} K cannot be told from none with these thermometers (±${exact(found.expandedUncertainty_K)} K).`,
      remedy:
        'Compare both thermometers in one pail, and throttle the flow for the time of the test so that the rise grows.',
    });
}
