import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { expect, it } from 'vitest';
import { heat } from '../../src/heat/heat';

const project = startProject({ ...usualAnswers('metric', 40), tubes: 12, passes: 2 });

// Invariant: no answer below freezing without a word.
it('says that water freezes in a panel whose water comes out below 0 °C', () => {
  const at = '2026-01-12T04:00';
  const codes = (air_C: number) =>
    heat(project, { at, water_C: 1, air_C, wind_ms: 12, sky: 'clear' }, { breaker: false }).notices.map(
      (n) => n.code,
    );
  expect(codes(-40)).toContain('water-freezes');
  expect(codes(20)).not.toContain('water-freezes');
});
