import type { Collector, Plumbing } from '@sunlap/project/schema/collector';
import type { Loop, Outlet } from '@sunlap/project/schema/loop';
import { describe, expect, it } from 'vitest';
import { flow } from '../../src/flow/flow';
import { solveFlow } from '../../src/flow/flow-basic';
import { collector, loop, pipe, project, section, TEST_TABLES, tubes } from '../fixtures';

const tables = TEST_TABLES;

/** Invented: three sections of ten 3/4 in tubes on a slope, each 0.9 m higher than the last. */
function terraces(plumbing?: Plumbing, over: Partial<Collector> = {}, loopOver: Partial<Loop> = {}) {
  const sections = [0, 1, 2].map((i) =>
    section('abc'[i], {
      v_m: 0.9 * i,
      banks: [tubes(`${'abc'[i]}1`, { pipe: 'threeQuarter', length_m: 12, pitch_m: 0.08 })],
    }),
  );
  const ways: Plumbing = {
    parallel: [0, 1, 2].map((i) => ({
      section: 'abc'[i],
      before: [pipe(`up${i}`, 3, { pipe: 'one' })],
      after: [pipe(`down${i}`, 3, { pipe: 'one' })],
    })),
  };
  return project({
    collector: collector(sections, plumbing ?? ways, {
      placement: { x_m: 0, y_m: 6, facing_deg: 180, tilt_deg: 90, lowestHeight_m: 0.5, mounting: 'rack' },
      ...over,
    }),
    loop: loop({
      bypass: { kind: 'threeWay', id: 'b', toCollector: 1, past: [pipe('past', 1)] },
      ...loopOver,
    }),
  });
}

const FALL: Outlet = { id: 'fall', kind: 'overWater', height_m: 0.3, path: [] };
const dryTubes = (p: ReturnType<typeof project>, options = {}) =>
  flow(p, { tables, startUp: false, ...options }).result.collector.banks.map(
    (b) => b.tubes.filter((t) => t.state === 'unfilled' || t.state === 'airBound').length,
  );

describe('three parallel sections at different heights', () => {
  it('share equally when full, whatever the height: height cancels', () => {
    const { solution, assembled } = solveFlow(terraces(), { tables, solve: { buoyancy: false } });
    const shares = assembled.sections.map((s) =>
      s.enter.reduce((sum, e) => sum + e.sign * solution.network.flow_kgs[e.link], 0),
    );
    const mean = (shares[0] + shares[1] + shares[2]) / 3;
    for (const s of shares) expect(Math.abs(s / mean - 1)).toBeLessThan(1e-9);
  });

  it('come alive from below upwards, and stay full when turned down', () => {
    const { start } = flow(terraces(), { tables }).result;
    const alive = start.sections.map((s) => s.aliveAtSpeed!);
    expect(alive.every((s) => s > 0)).toBe(true);
    expect([...alive].sort((a, b) => a - b)).toEqual(alive);
    expect(alive[2]).toBeGreaterThan(alive[0]);
    // hysteresis: a full section runs on at less than it took to start
    const top = start.sections[2];
    expect(top.runsDownToSpeed!).toBeLessThan(top.aliveAtSpeed!);
    expect(top.runsDownTo_m3s!).toBeLessThan(top.aliveAt_m3s!);
    expect(start.leastStartSpeed!).toBeGreaterThanOrEqual(alive[2] - 1e-9);
  });

  it('names what starves the upper tubes: an outlet open to the air', () => {
    const open = terraces(undefined, {}, { returnOutlet: FALL });
    const slow = { ...open, loop: { ...open.loop, pump: { ...open.loop.pump, speed: 0.6 } } };
    const answer = flow(slow, { tables, startUp: false });
    const dry = answer.result.collector.banks.map(
      (b) => b.tubes.filter((t) => t.state === 'unfilled').length,
    );
    expect(dry[0]).toBe(0);
    expect(dry[2]).toBeGreaterThan(0);
    const notice = answer.notices.find((n) => n.code === 'tubes-without-water')!;
    expect(notice.message).toMatch(/outlet lies open to the air/);
    expect(notice.message).toMatch(/short by/);
    expect(answer.result.collector.tubesWithoutWater).toBe(dry.reduce((a, b) => a + b, 0));
    // the same loop with its outlet under water runs full
    expect(dryTubes(terraces(undefined, {}, { pump: { ...slow.loop.pump } }))).toEqual([0, 0, 0]);
  });

  it('tells the vacuum breaker open from shut, with both flows', () => {
    const breaker = (opensAt_Pa: number) => {
      const at = { section: 'c', bank: 'c1', header: 'gather' as const, end: 'last' as const };
      const p = terraces(undefined, { taps: [{ id: 'vb', at, purpose: 'vacuumBreaker', opensAt_Pa }] });
      return { ...p, loop: { ...p.loop, pump: { ...p.loop.pump, speed: 0.6 } } };
    };
    const shut = flow(breaker(40_000), { tables, startUp: false });
    const open = flow(breaker(100), { tables, startUp: false });
    expect(shut.result.vacuumBreaker!.state).toBe('closed');
    expect(open.result.vacuumBreaker!.state).toBe('open');
    expect(open.result.vacuumBreaker!.collectorFlowOpen_m3s!).toBeLessThan(
      open.result.vacuumBreaker!.collectorFlowClosed_m3s!,
    );
    expect(shut.result.vacuumBreaker!.margin_Pa!).toBeGreaterThan(0);
    const notice = open.notices.find((n) => n.code === 'breaker-open')!;
    expect(notice.path).toBe('/collector/taps/0');
    expect(notice.message).toMatch(/instead of/);
    expect(shut.notices.some((n) => n.code === 'breaker-open')).toBe(false);
  });

  it('all parallel, lowest two in series, all in series: more head and fewer starved tubes with each step', () => {
    const series: Plumbing = { series: [{ section: 'a' }, { section: 'b' }, { section: 'c' }] };
    const mixed: Plumbing = {
      parallel: [
        {
          series: [{ section: 'a' }, { section: 'b' }],
          before: [pipe('u', 3, { pipe: 'one' })],
          after: [pipe('d', 3, { pipe: 'one' })],
        },
        { section: 'c', before: [pipe('u2', 3, { pipe: 'one' })], after: [pipe('d2', 3, { pipe: 'one' })] },
      ],
    };
    const flows = [undefined, mixed, series].map((plumbing) => {
      const { result } = flow(terraces(plumbing), { tables, startUp: false });
      return result;
    });
    const [parallel, two, three] = flows.map((r) => r.collectorFlow_m3s);
    expect(parallel).toBeGreaterThan(two);
    expect(two).toBeGreaterThan(three);
    // in series every tube of the top section gets its share or the whole loop stops
    const fall = { returnOutlet: FALL };
    const slowed = (plumbing?: Plumbing) => {
      const p = terraces(plumbing, {}, fall);
      return { ...p, loop: { ...p.loop, pump: { ...p.loop.pump, speed: 0.6 } } };
    };
    const dry = [undefined, mixed, series].map((plumbing) =>
      dryTubes(slowed(plumbing)).reduce((a, b) => a + b, 0),
    );
    expect(dry[2]).toBeLessThan(dry[0]);
  });
});
