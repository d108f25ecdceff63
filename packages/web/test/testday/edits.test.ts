import { parseProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  addPair,
  addSamePail,
  addTime,
  dayOf,
  daysByDate,
  dropPair,
  dropSamePail,
  dropTime,
  localTime,
  newDay,
  setTouch,
  setTube,
  touchOf,
  tubeOf,
  withDay,
  withoutDay,
} from '../../src/sheets/testday/edits';

const project = startProject(usualAnswers('us'));
const at = { section: 'A', bank: 'A1', tube: 3 };

describe('edits of a test day', () => {
  it('keep the raw readings and leave a legal file, whatever is done', () => {
    const number = fc.double({ min: -50, max: 120, noNaN: true });
    const act = fc.oneof(
      fc.record({
        kind: fc.constant('time' as const),
        a: fc.double({ min: 0, max: 7200, noNaN: true }),
        b: number,
      }),
      fc.record({
        kind: fc.constantFrom(
          'pair' as const,
          'same' as const,
          'tube' as const,
          'touch' as const,
          'drop' as const,
        ),
        a: number,
        b: number,
      }),
    );
    fc.assert(
      fc.property(fc.array(act, { maxLength: 25 }), (acts) => {
        let day = newDay(project, '2026-04-12T11:00');
        const times: number[] = [];
        for (const { kind, a, b } of acts) {
          if (kind === 'time') {
            day = addTime(day, 'us', a);
            times.push(a);
          }
          if (kind === 'pair') day = addPair(day, a, b);
          if (kind === 'same') day = addSamePail(day, a, b);
          if (kind === 'tube') day = setTube(day, at, a);
          if (kind === 'touch') day = setTouch(day, at, a > 35 ? 'hot' : a > 0 ? 'warm' : null);
          if (kind === 'drop') day = dropSamePail(dropPair(day, 0), 0);
        }
        expect(day.pail?.times_s).toEqual(times);
        expect(parseProject(withDay(project, day)).ok).toBe(true);
      }),
      { numRuns: 40, seed: 4 },
    );
  });

  it('take a run, a pair and a tube back out', () => {
    let day = addTime(addTime(newDay(project, '2026-04-12T11:00'), 'us', 14.2), 'us', 140);
    day = dropTime(day, 1);
    expect(day.pail?.times_s).toEqual([14.2]);
    day = dropPair(addPair(addPair(day, 26, 28), 26.1, 28.2), 0);
    expect(day.inlet?.readings).toEqual([{ value_C: 26.1 }]);
    expect(day.outlet?.readings).toEqual([{ value_C: 28.2 }]);
    day = setTube(setTouch(day, at, 'hot'), at, 41);
    expect([touchOf(day, at), tubeOf(day, at)]).toEqual(['hot', 41]);
    day = setTube(setTouch(day, at, null), at, null);
    expect(day).not.toHaveProperty('touch');
    expect(day).not.toHaveProperty('tubes');
  });

  it('give each day a name of its own and look at the latest', () => {
    const first = newDay(project, '2026-04-12T11:00');
    const two: Project = withDay(
      withDay(project, first),
      newDay(withDay(project, first), '2026-04-12T13:00'),
    );
    expect(two.testDays.map((d) => d.id)).toEqual(['day-2026-04-12', 'day-2026-04-12-2']);
    const earlier = withDay(two, newDay(two, '2025-05-01T12:00'));
    expect(dayOf(earlier, null)?.id).toBe('day-2026-04-12-2');
    expect(daysByDate(earlier)[0].id).toBe('day-2025-05-01');
    expect(dayOf(withoutDay(project, 'x'), null)).toBeNull();
  });

  it('say the time at the site, not on the device', () => {
    expect(localTime(new Date('2026-04-12T17:05:00Z'), 'America/Denver')).toBe('2026-04-12T11:05');
    expect(localTime(new Date('2026-12-31T23:30:00Z'), 'Asia/Tokyo')).toBe('2027-01-01T08:30');
    expect(localTime(new Date(0), 'Nowhere/Land')).toMatch(/^19(69|70)-\d\d-\d\dT\d\d:\d\d$/);
  });
});
