import { readFileSync } from 'node:fs';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { check } from '../../src/check/check';
import { structureNotices } from '../../src/check/structure';
import { flow } from '../../src/flow/flow';
import { numberRuns, sayIn } from '../../src/flow/say';
import { collector, loop, pipe, project, section, TEST_TABLES, tubes, valve } from '../fixtures';

const say = sayIn('metric');
const structure = (p: Project) => structureNotices(p, TEST_TABLES, say);
const codes = (p: Project) => flow(p, { tables: TEST_TABLES, startUp: false }).notices.map((n) => n.code);
const withLoop = (over: Parameters<typeof loop>[0]) => project({ loop: loop(over) });

describe('structure', () => {
  const cases: [string, string, Project][] = [
    ['unknown-pipe', '/loop/feed/0/pipe', withLoop({ feed: [pipe('f', 5, { pipe: 'no-such' })] })],
    [
      'unknown-section',
      '/collector/plumbing/section',
      project({ collector: collector([section('a')], { section: 'z' }) }),
    ],
    [
      'section-not-plumbed',
      '/collector/sections/1',
      project({ collector: collector([section('a'), section('b')], { section: 'a' }) }),
    ],
    [
      'duplicate-id',
      '/collector/sections/1/id',
      project({ collector: collector([section('a'), section('a')]) }),
    ],
    ['plumbing-part-unclear', '/collector/plumbing', project({ collector: collector([section('a')], {}) })],
    [
      'tube-number-too-high',
      '/collector/sections/0/banks/0/blocked/0',
      project({ collector: collector([section('a', { banks: [tubes('t', { blocked: [11] })] })]) }),
    ],
    [
      'handovers-unclear',
      '/collector/sections/0/handovers',
      project({
        collector: collector([section('a', { banks: [tubes('t'), tubes('u', { across_m: 0.9 })] })]),
      }),
    ],
    [
      'tubes-overlap',
      '/collector/sections/0/banks/0',
      project({
        collector: collector([section('a', { banks: [tubes('t'), tubes('u', { across_m: 0.015 })] })]),
      }),
    ],
    [
      'headers-overlap',
      '/collector/sections/0/banks/1/gather',
      project({
        collector: collector([section('a', { banks: [tubes('t'), tubes('u', { across_m: 0.035 })] })]),
      }),
    ],
    [
      'tubes-shade-each-other',
      '/collector/sections/0/banks/0',
      project({
        collector: collector([
          section('a', { banks: [tubes('t'), tubes('u', { across_m: 0.01, depth_m: 0.06 })] }),
        ]),
      }),
    ],
    ['heights-disagree', '/loop/feed/0', withLoop({ feed: [pipe('f', 5, { endHeight_m: 3 })] })],
    [
      'outlet-not-under-water',
      '/loop/outlets/0/height_m',
      withLoop({ outlets: [{ id: 'o', kind: 'underWater', height_m: 0.4, path: [] }] }),
    ],
    [
      'profile-beyond-pipe',
      '/loop/feed/0/profile',
      withLoop({ feed: [pipe('f', 5, { profile: [{ at_m: 9, height_m: 1 }] })] }),
    ],
    [
      'unknown-bank',
      '/repairs/0/bank',
      project({ repairs: [{ id: 'r', date: '2026-01-01', section: 'a', bank: 'zz', what: 'plugged' }] }),
    ],
  ];
  it.each(cases)('%s at %s', (code, path, p) => {
    const notice = structure(p).find((n) => n.code === code);
    expect(notice?.path).toBe(path);
    expect(notice!.message.length).toBeGreaterThan(20);
  });

  it('says nothing of a design that fits together', () => {
    expect(structure(project())).toEqual([]);
  });

  it('takes rising pump points out and says so; a droop near shut-off is only told', () => {
    const points = (heads: number[]) =>
      withLoop({
        pump: {
          ...loop().pump,
          curve: { kind: 'points', points: heads.map((head_m, i) => ({ flow_m3s: i * 0.0015, head_m })) },
        },
      });
    expect(structure(points([14, 12, 13, 5])).map((n) => n.code)).toEqual(['pump-curve-rises']);
    expect(structure(points([13.8, 14, 12, 5])).map((n) => n.code)).toEqual(['pump-curve-droops']);
    expect(flow(points([14, 12, 13, 5]), { tables: TEST_TABLES, startUp: false }).solver.converged).toBe(
      true,
    );
  });

  it('knows the least pitch of tees and the published spacing of supports', () => {
    const banks = [
      tubes('t', {
        pipe: 'pvc-sch40-1/2',
        pitch_m: 0.06,
        supply: { pipe: 'pvc-sch40-1' },
        gather: { pipe: 'pvc-sch40-1' },
      }),
    ];
    const p = project({
      collector: collector([section('a', { banks })], undefined, {
        supports: { spacing_m: 1.4, bearing_m: 0.04, heightError_m: 0.002 },
      }),
    });
    const found = structureNotices(p, STANDARD_TABLES, sayIn('us')).map((n) => n.code);
    expect(found).toContain('pitch-below-tees');
    expect(found).toContain('supports-too-far-apart');
  });
});

describe('running', () => {
  it('dead-heads on both bypass valves shut: legal, damage, with the order of turning', () => {
    const p = withLoop({
      bypass: {
        kind: 'twoValves',
        toCollector: valve('up', 0, { name: 'Valve up', role: 'toCollector' }),
        pastValve: valve('by', 0, { name: 'Valve past', role: 'past' }),
        past: [pipe('past', 1)],
      },
    });
    const answer = flow(p, { tables: TEST_TABLES, startUp: false });
    expect(answer.solver.converged).toBe(true);
    expect(answer.result.flow_m3s).toBe(0);
    expect(answer.result.pump.head_m).toBeCloseTo(14, 6);
    const notice = answer.notices.find((n) => n.code === 'bypass-both-shut')!;
    expect(notice.severity).toBe('damage');
    expect(notice.remedy).toMatch(/open Valve up first, then close Valve past/);
  });

  it('watches the suctions: rating, single drain, unknown cover', () => {
    const drain = { id: 'd', kind: 'mainDrain' as const, depth_m: 2, path: [pipe('p', 8, { pipe: 'two' })] };
    expect(codes(withLoop({ suctions: [drain] }))).toEqual(
      expect.arrayContaining(['suction-single', 'suction-cover-unknown']),
    );
    const rated = flow(withLoop({ suctions: [{ ...drain, coverRating_m3s: 0.001 }] }), {
      tables: TEST_TABLES,
      startUp: false,
    });
    expect(rated.notices[0]).toMatchObject({ code: 'suction-cover-overloaded', severity: 'safety' });
  });

  it('holds velocities, devices and turnover against their limits', () => {
    const p = withLoop({
      toBypass: [
        pipe('thin', 2, { pipe: 'one' }),
        {
          kind: 'device',
          id: 'heater',
          name: 'Heater',
          type: 'heater',
          loss: { flow_m3s: 0.002, drop_Pa: 5000 },
          minFlow_m3s: 0.01,
        },
      ],
      turnoverTarget_h: 1,
    });
    expect(codes(p)).toEqual(
      expect.arrayContaining(['pipe-velocity-high', 'device-flow-low', 'turnover-long']),
    );
  });

  it('reports an open drain, a stopped pump and a shut way', () => {
    const at = { section: 'a', bank: 'a1', header: 'supply' as const, end: 'last' as const };
    const open = project({
      collector: collector([section('a')], undefined, {
        taps: [{ id: 'd', at, purpose: 'drain', open: true }],
      }),
    });
    expect(codes(open)).toContain('tap-runs');
    expect(codes(withLoop({ pump: { ...loop().pump, speed: 0 } }))).toContain('pump-stopped');
    expect(codes(withLoop({ toPump: [valve('v', 0)] }))).toContain('no-flow');
  });

  it('says low pressure at a high collector with a free return', () => {
    const high = project({
      collector: collector([section('a')], undefined, {
        placement: { x_m: 0, y_m: 8, facing_deg: 180, tilt_deg: 20, lowestHeight_m: 8.5, mounting: 'roof' },
      }),
    });
    const notice = flow(high, { tables: TEST_TABLES, startUp: false }).notices.find((n) =>
      n.code.startsWith('pressure-'),
    );
    expect(notice?.message).toMatch(/of vacuum/);
  });

  it('ranks what it finds, worst first, and every notice is complete', () => {
    const answer = check(project(), { tables: TEST_TABLES, startUp: false });
    const rank = { safety: 0, damage: 1, heat: 2, unsure: 3, info: 4 };
    const order = answer.notices.map((n) => rank[n.severity]);
    expect([...order].sort((a, b) => a - b)).toEqual(order);
    for (const n of answer.notices) {
      expect(n.code).toMatch(/^[a-z]+(-[a-z]+)+$/);
      expect(n.path === '' || n.path.startsWith('/')).toBe(true);
      expect(n.message).not.toMatch(/NaN|undefined|Infinity/);
    }
    expect(answer.result.hottestDry_C).toBeGreaterThan(40);
    expect(answer.result.leak.downTo).toBe('skimmer');
  });

  it('writes tube numbers the short way', () => {
    expect(numberRuns([3, 1, 2, 7, 9, 8, 2])).toBe('1–3, 7–9');
  });
});

describe('the example projects', () => {
  it.each(['quince-yard', 'tern-roof'])('%s: nothing broken, everything solved', (name) => {
    const p: Project = JSON.parse(
      readFileSync(new URL(`../../../../examples/${name}.json`, import.meta.url), 'utf8'),
    );
    const answer = check(p, { startUp: false });
    expect(answer.solver.converged).toBe(true);
    expect(answer.notices.filter((n) => n.code.startsWith('unknown-') || n.code === 'duplicate-id')).toEqual(
      [],
    );
    for (const n of answer.notices) expect(n.message).not.toMatch(/NaN|undefined/);
  });
});
