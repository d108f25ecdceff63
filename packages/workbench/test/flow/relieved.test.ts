import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { flow } from '../../src/flow/flow';

/** A panel 8 m up on a roof, with or without a vacuum breaker at its top. */
function roof(breaker: boolean): Project {
  const project = startProject({
    ...usualAnswers('us'),
    lift_m: 8,
    mounting: 'roof',
    pumpShelf: 'single-1hp',
  });
  const { collector } = project;
  const [section] = collector.sections;
  const last = section.banks[section.banks.length - 1];
  if (!breaker) return project;
  return {
    ...project,
    collector: {
      ...collector,
      taps: [
        ...collector.taps,
        {
          id: 'breaker',
          at: { section: section.id, bank: last.id, header: 'gather', end: 'last' },
          purpose: 'vacuumBreaker',
        },
      ],
    },
  };
}

describe('pressure behind a vacuum breaker that is open', () => {
  it('is the air’s, not that of a siphon, so that nothing is said to collapse', () => {
    const held = flow(roof(false));
    const open = flow(roof(true));
    const codes = (f: typeof open) => f.notices.map((n) => n.code);
    // the same roof without one: the return hangs full, 8 m of water under the air's pressure
    expect(held.result.lowestPressure.absolute_Pa).toBeLessThan(50_000);
    expect(codes(held)).toContain('pressure-low');
    expect(open.result.vacuumBreaker?.state).toBe('open');
    expect(open.result.lowestPressure.absolute_Pa).toBeGreaterThan(80_000);
    expect(codes(open)).not.toContain('pressure-low');
    expect(codes(open)).not.toContain('pressure-low');
    for (const { id, way, startGauge_Pa, endGauge_Pa } of open.result.loop.pieces)
      if (way === 'through') expect(Math.min(startGauge_Pa, endGauge_Pa), id).toBeGreaterThanOrEqual(0);
  });
});
