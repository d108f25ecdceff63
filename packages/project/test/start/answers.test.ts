import { readFileSync } from 'node:fs';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { parseProject, readProject } from '../../src/file/read';
import { writeProject } from '../../src/file/write';
import type { Project } from '../../src/schema/project';
import { answersOf, withAnswers, withDoubt } from '../../src/start/answers';
import { POOL_PIPE } from '../../src/start/pool-pipe';
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

const picked = (from: FirstAnswers, names: string[]): Partial<FirstAnswers> =>
  Object.fromEntries(names.map((name) => [name, from[name as keyof FirstAnswers]]));

/** A begun project after some weeks: what the first questions do not ask for was changed by hand. */
function livedIn(project: Project): Project {
  const { collector, loop, pool } = project;
  const [section] = collector.sections;
  const [bank, ...others] = section.banks;
  return {
    ...project,
    notes: 'leaks at the reducer',
    site: { ...project.site, groundAlbedo: 0.3 },
    pool: { ...pool, shallow_m: 1, deep_m: 2, wish_C: 30, floor: 'dark', lining: 'vinyl' },
    collector: {
      ...collector,
      placement: { ...collector.placement, x_m: 7, y_m: 11, width_m: 9 },
      surface: { ...collector.surface, absorptance: 0.9 },
      supports: { ...collector.supports, spacing_m: 0.6 },
      sections: [{ ...section, banks: [{ ...bank, blocked: [2, 5] }, ...others] }],
    },
    loop: {
      ...loop,
      pump: { ...loop.pump, speed: 0.8 },
      filter: loop.filter && { ...loop.filter, dirt: 3 },
      feed: [
        ...loop.feed,
        { kind: 'valve', id: 'feed-valve', role: 'isolating', type: 'ball', opening: 0.5 },
      ],
      outlets: loop.outlets.slice(0, 1),
    },
  };
}

/** Parts of the file that follow from each answer, keys of any depth under a first one. */
const REACH: Record<keyof FirstAnswers, string[]> = {
  name: ['name'],
  units: ['units', 'leadIn_m', 'across_m'],
  place: ['place'],
  latitude_deg: ['latitude_deg'],
  longitude_deg: ['longitude_deg'],
  elevation_m: ['elevation_m'],
  timeZone: ['timeZone'],
  poolLength_m: ['outline'],
  poolWidth_m: ['outline'],
  poolDepth_m: ['shallow_m', 'deep_m'],
  pumpShelf: ['shelf'],
  loopPipe: ['pipe', 'leadIn_m', 'across_m'],
  headerPipe: ['supply', 'gather', 'across_m'],
  tubePipe: ['pipe', 'leadIn_m', 'across_m'],
  tubes: ['count', 'across_m'],
  tubeLength_m: ['length_m'],
  passes: ['banks', 'handovers', 'taps'],
  pitch_m: ['pitch_m', 'across_m', 'leadIn_m'],
  facing_deg: ['facing_deg'],
  tilt_deg: ['tilt_deg'],
  lift_m: ['lowestHeight_m', 'endHeight_m'],
  distance_m: ['length_m'],
  mounting: ['mounting', 'backing'],
  unsure: ['unsure'],
};

/** The project without what stands under some keys. */
function without(project: Project, keys: readonly string[]): Project {
  const cut = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(cut);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value)
        .filter(([key]) => !keys.includes(key))
        .map(([key, part]) => [key, cut(part)]),
    );
  };
  return cut(project) as Project;
}

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

  it('begin with the pool pipe that the usual pump needs, for whoever asks', () => {
    for (const units of ['us', 'metric'] as const)
      expect(usualAnswers(units).loopPipe).toBe(POOL_PIPE[units]);
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

  it('change a new project into the one begun with those answers', () => {
    fc.assert(
      fc.property(answers, answers, fc.subarray(Object.keys(usualAnswers('us'))), (was, other, names) => {
        const change = picked(other, names);
        const now = withAnswers(startProject(was), change);
        expect(now).toEqual(startProject({ ...was, ...change }));
      }),
      { numRuns: 60, seed: 11 },
    );
  });

  it('leave all that the person did since as it was, to the letter, whichever of them change', () => {
    const mine = livedIn(startProject(usualAnswers('us')));
    const was = answersOf(mine);
    if (was === null) throw new Error('the answers can still be told');
    expect(withAnswers(mine, was)).toBe(mine);
    fc.assert(
      fc.property(answers, fc.subarray(Object.keys(usualAnswers('us'))), (other, names) => {
        const change = picked(other, names);
        const now = withAnswers(mine, change);
        expect(parseProject(now).ok).toBe(true);
        expect(answersOf(now)).toEqual({ ...was, ...change });
        // what the answers may reach, put back, leaves the file as it was
        const follows = new Set(names.flatMap((name) => REACH[name as keyof FirstAnswers]));
        const beside = (p: Project) => writeProject(without(p, [...follows]));
        expect(beside(now)).toBe(beside(mine));
      }),
      { numRuns: 80, seed: 5 },
    );
  });

  it('leave the examples alone, which have outgrown them', () => {
    for (const name of ['quince-yard', 'tern-roof']) {
      const text = readFileSync(new URL(`../../../../examples/${name}.json`, import.meta.url), 'utf8');
      const read = readProject(text);
      if (!read.ok) throw new Error(`${name} is not read`);
      expect(writeProject(withAnswers(read.project, { place: 'elsewhere', tubes: 3 }))).toBe(text);
    }
  });

  it('put a new pass beside the ones there are, and keep a floor’s shape when its mean depth changes', () => {
    const mine = livedIn(startProject(usualAnswers('us')));
    const more = withAnswers(mine, { passes: 3 }).collector.sections[0];
    expect(more.banks.map((b) => b.id)).toEqual(['A1', 'A2', 'A3']);
    expect(more.banks[0].blocked).toEqual([2, 5]);
    expect(more.handovers).toHaveLength(2);
    const { shallow_m, deep_m } = withAnswers(mine, { poolDepth_m: 2.1 }).pool;
    expect([shallow_m, deep_m]).toEqual([1.4, 2.8]);
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
    const [section] = project.collector.sections;
    const [bank, other] = section.banks;
    if (bank.kind !== 'tubes') throw new Error('a new panel is of tubes');
    const uneven = [{ ...bank, count: 9 }, other];
    const collector = { ...project.collector, sections: [{ ...section, banks: uneven }] };
    expect(answersOf({ ...project, collector })).toBeNull();
    expect(withAnswers(two, { passes: 5 })).toBe(two);
  });

  it('hold each doubt once', () => {
    expect(withDoubt(['pump'], 'pump', true)).toEqual(['pump']);
    expect(withDoubt(['pump', 'pool'], 'pump', false)).toEqual(['pool']);
  });
});
