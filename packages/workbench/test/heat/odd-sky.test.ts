import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { expect, it } from 'vitest';
import { sayIn } from '../../src/flow/say';
import { resolveMoment } from '../../src/heat/moment';
import { oddSkyNotices } from '../../src/heat/odd-sky';

const project = startProject({ ...usualAnswers('metric', 40), tubes: 12, passes: 2 });
const told = (at: string, sky: number | 'clear') =>
  oddSkyNotices(resolveMoment(project, { at, sky }), sayIn('metric'));

// Invariant: what falls on the level above the air bounds what any meter reads, but for clouds beside the sun.
it('doubts a sky that no sun of the moment can give', () => {
  expect(told('2026-06-12T23:00', 800)[0].message).toContain('the sun is down');
  const early = told('2026-06-12T06:30', 1400)[0];
  expect(early.code).toBe('sky-reading-odd');
  expect(early.message).toMatch(/1400 W\/m² at 06:30 .* no more than \d+ W\/m²/);
  for (const [at, sky] of [
    ['2026-06-12T12:30', 900],
    ['2026-06-12T12:30', 1400],
    ['2026-06-12T23:00', 0],
    ['2026-06-12T23:00', 'clear'],
  ] as const)
    expect(told(at, sky)).toEqual([]);
  expect(told('2026-06-12T12:30', 1700)).toHaveLength(1);
});
