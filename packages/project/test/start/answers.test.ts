import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseProject } from '../../src/file/read';
import { answersOf, withAnswers, withDoubt } from '../../src/start/answers';
import { type FirstAnswers, startProject, usualAnswers } from '../../src/start/start-project';

const answers = fc
  .record({
    units: fc.constantFrom('us' as const, 'metric' as const),
    latitude_deg: fc.integer({ min: -66, max: 66 }),
    poolLength_m: fc.integer({ min: 2, max: 25 }),
    poolDepth_m: fc.constantFrom(1, 1.25, 1.4, 2),
    tubes: fc.integer({ min: 1, max: 60 }),
    tubeLength_m: fc.constantFrom(2, 3.048, 6.096),
    passes: fc.integer({ min: 1, max: 6 }),
    tilt_deg: fc.integer({ min: 0, max: 60 }),
    unsure: fc.uniqueArray(fc.constantFrom('place' as const, 'pool' as const, 'pump' as const)),
  })
  .map(
    (some): FirstAnswers => ({
      ...usualAnswers(some.units, some.latitude_deg),
      ...some,
      unsure: some.unsure,
    }),
  );

describe('the first answers', () => {
  it('come back out of the project made from them, and every such project is a valid file', () => {
    fc.assert(
      fc.property(answers, (given) => {
        const project = startProject(given);
        expect(answersOf(project)).toEqual(given);
        expect(parseProject(project).ok).toBe(true);
      }),
      { numRuns: 60, seed: 7 },
    );
  });

  it('change one thing and leave what the questions do not ask for', () => {
    const project = {
      ...startProject(usualAnswers('us')),
      notes: 'kept',
      testDays: [{ id: 'd1', at: '2026-04-12T11:00' }],
    };
    const next = withAnswers(project, { passes: 4, unsure: ['pump'] });
    expect(next.collector.sections[0].banks).toHaveLength(4);
    expect(next.notes).toBe('kept');
    expect(next.testDays).toBe(project.testDays);
    expect(next.unsure).toEqual(['pump']);
    expect(withAnswers(next, { unsure: [] }).unsure).toBeUndefined();
  });

  it('are not read out of a project that has outgrown them', () => {
    const project = startProject(usualAnswers('us'));
    const two = {
      ...project,
      collector: {
        ...project.collector,
        sections: [...project.collector.sections, ...project.collector.sections],
      },
    };
    expect(answersOf(two)).toBeNull();
    expect(withAnswers(two, { passes: 5 })).toBe(two);
  });

  it('hold each doubt once', () => {
    expect(withDoubt(['pump'], 'pump', true)).toEqual(['pump']);
    expect(withDoubt(['pump', 'pool'], 'pump', false)).toEqual(['pool']);
  });
});
