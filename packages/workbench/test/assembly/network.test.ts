import { prepareNetwork } from '@sunlap/engine/hydraulics/network';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { elementAt } from '../../src/assembly/heat-layout';
import { pathHeights_m } from '../../src/assembly/heights';
import { assembleNetwork } from '../../src/assembly/network';
import { airLayout } from '../../src/flow/air-layout';
import { createLoopSolver } from '../../src/flow/solver';
import { collector, loop, pipe, project, section, TEST_TABLES, tubes, valve } from '../fixtures';

const tables = TEST_TABLES;
const assemble = (p: Project) => assembleNetwork(p, tables);
const solve = (p: Project) => {
  const assembled = assemble(p);
  const solution = createLoopSolver().solve(assembled, airLayout(assembled, p));
  return { assembled, q: (link: number) => solution.network.flow_kgs[link], solution };
};

describe('project to network', () => {
  it('gives every link its place in the file', () => {
    const p = project({
      collector: collector([section('a', { banks: [tubes('a1'), tubes('a2', { across_m: 0.8 })] })]),
    });
    const { infos, banks } = assemble(p);
    for (const info of infos) {
      let value: unknown = p;
      for (const key of info.path.split('/').slice(1))
        value = (value as Record<string, unknown> | undefined)?.[key];
      // assumed hand-overs point at the place where they would be described
      if (!info.path.includes('/joins/')) expect(value, info.path).toBeDefined();
    }
    expect(banks).toHaveLength(2);
    banks.forEach((bank, b) => {
      expect(bank.units.map((l) => [infos[l].role, infos[l].bank, infos[l].unit])).toEqual(
        Array.from({ length: 10 }, (_, i) => ['tube', b, i]),
      );
      expect(bank.supply).toHaveLength(11);
    });
    expect(elementAt(p, '/loop/feed/0')?.id).toBe('feed');
  });

  it('caps the header ends that nothing is joined to: one run leg', () => {
    const { description, banks } = assemble(project());
    expect(banks[0].supply[10]).toBe(-1);
    const last = description.tees.find((t) => t.node === banks[0].supplyTees[9])!;
    expect(last.run[1]).toBeNull();
    expect(last.branch).toBe(banks[0].units[9]);
  });

  it('takes blocked and air-bound tubes out, exactly', () => {
    const p = project({
      collector: collector([section('a', { banks: [tubes('a1', { blocked: [2], airBound: [5] })] })]),
    });
    const { assembled, q } = solve(p);
    const flows = assembled.banks[0].units.map(q);
    expect(flows[1]).toBe(0);
    expect(flows[4]).toBe(0);
    expect(flows.filter((f) => f > 0)).toHaveLength(8);
  });

  it('feeds headers at both ends alike: mirrored flows', () => {
    const both = section('a', { inletEnds: ['first', 'last'], outletEnds: ['first', 'last'] });
    const { assembled, q } = solve(project({ collector: collector([both]) }));
    const flows = assembled.banks[0].units.map(q);
    for (let i = 0; i < 5; i++) expect(flows[i]).toBeCloseTo(flows[9 - i], 9);
    const { supply } = assembled.banks[0];
    expect(q(supply[0])).toBeCloseTo(-q(supply[10]), 9);
  });

  it('honours typed suction shares, whatever the pipes would do', () => {
    const base = loop();
    for (const share of [0.2, 0.9]) {
      const p = project({
        loop: loop({
          suctions: [
            { ...base.suctions[0], share },
            { id: 'drain', kind: 'mainDrain', depth_m: 1.8, path: [pipe('d', 15)] },
          ],
        }),
      });
      const { assembled, q } = solve(p);
      const [skimmer, drain] = assembled.suctions.map((s) => q(s.throttle));
      expect(skimmer / (skimmer + drain)).toBeCloseTo(share, 6);
    }
  });

  it('shares a three-way valve by its opening: all or nothing at the ends', () => {
    const at = (toCollector: number) => {
      const { assembled, q } = solve(
        project({
          loop: loop({ bypass: { kind: 'threeWay', id: 'b', toCollector, past: [pipe('past', 1)] } }),
        }),
      );
      return [q(assembled.valves.toCollector), q(assembled.valves.past)];
    };
    expect(at(0)[0]).toBe(0);
    expect(at(1)[1]).toBe(0);
    const shares = [0.2, 0.4, 0.6, 0.8].map((o) => {
      const [to, past] = at(o);
      return to / (to + past);
    });
    expect([...shares].sort((a, b) => a - b)).toEqual(shares);
  });

  it('splits equal parallel pipes evenly, and as an explicit split does', () => {
    const run = pipe('x', 6, { pipe: 'one' });
    const three = solve(project({ loop: loop({ feed: [{ ...run, parallel: 3 }] }) }));
    const branches = ['p', 'q', 'r'].map((id) => [{ ...run, id }]);
    const split = solve(project({ loop: loop({ feed: [{ kind: 'split', id: 's', branches }] }) }));
    const lanes = three.assembled.infos.flatMap((info, l) =>
      info.path === '/loop/feed/0' ? [three.q(l)] : [],
    );
    expect(lanes).toHaveLength(3);
    for (const lane of lanes) expect(lane).toBeCloseTo(lanes[0], 9);
    expect(three.q(three.assembled.collectorLink)).toBeCloseTo(split.q(split.assembled.collectorLink), 7);
  });

  it('puts the losses of a named tee on its branch', () => {
    const branches = [[pipe('run', 2)], [pipe('branch', 2, { pipe: 'one' })]];
    const flows = [false, true].map((tee) => {
      const p = project({
        loop: loop({ feed: [pipe('in', 1), { kind: 'split', id: 's', tee, branches }, pipe('out', 1)] }),
      });
      const { assembled, q } = solve(p);
      const at = assembled.infos.findIndex((i) => i.path === '/loop/feed/1/branches/1/0');
      expect(
        assembled.description.tees.filter((t) => assembled.infos[t.branch].path.startsWith('/loop')),
      ).toHaveLength(tee ? 2 : 0);
      return q(at) / q(assembled.collectorLink);
    });
    expect(flows[1]).not.toBeCloseTo(flows[0], 3);
  });

  it('keeps a return with its own mouth apart from the pool outlets', () => {
    const own = { id: 'own', kind: 'overWater' as const, height_m: 0.2, path: [pipe('o', 1)] };
    const { assembled, q } = solve(project({ loop: loop({ returnOutlet: own }) }));
    const [mouth, outlet] = assembled.outlets.map((o) => q(o.mouth));
    expect(mouth).toBeCloseTo(q(assembled.collectorLink), 9);
    expect(mouth + outlet).toBeCloseTo(q(assembled.pump.link), 9);
  });

  it('carries recursive plumbing: two in series beside one', () => {
    const sections = ['a', 'b', 'c'].map((id, i) => section(id, { u_m: 7 * i, outletEnds: ['last'] }));
    const p = project({
      collector: collector(sections, {
        parallel: [
          { series: [{ section: 'a' }, { section: 'b' }] },
          { section: 'c', before: [valve('v', 0.5, { pipe: 'one' }), pipe('x', 3)] },
        ],
      }),
    });
    const { assembled, q } = solve(p);
    const through = assembled.sections.map((s) => s.enter.reduce((sum, e) => sum + e.sign * q(e.link), 0));
    expect(through[0]).toBeCloseTo(through[1], 9);
    expect(through[0] + through[2]).toBeCloseTo(q(assembled.collectorLink), 9);
    expect(assembled.assumed.length).toBeGreaterThan(0);
  });

  it('runs a bank without headers as one chain or side by side', () => {
    const coil = {
      kind: 'coil' as const,
      id: 'k',
      across_m: 0,
      depth_m: 0.02,
      count: 3,
      pipe: 'thin',
      length_m: 40,
      shape: 'flat' as const,
      innerDiameter_m: 0.4,
      outerDiameter_m: 1.2,
    };
    const chain = solve(
      project({ collector: collector([section('a', { banks: [{ ...coil, join: 'series' }] })]) }),
    );
    const flows = chain.assembled.banks[0].units.map(chain.q);
    expect(flows[0]).toBeCloseTo(flows[2], 9);
    expect(flows[0]).toBeCloseTo(chain.q(chain.assembled.collectorLink), 9);
    const wide = solve(
      project({ collector: collector([section('a', { banks: [{ ...coil, join: 'parallel' }] })]) }),
    );
    const sum = wide.assembled.banks[0].units.reduce((s, l) => s + wide.q(l), 0);
    expect(sum).toBeCloseTo(wide.q(wide.assembled.collectorLink), 9);
    expect(sum).toBeGreaterThan(flows[0]);
  });

  it('reuses its analysis when only numbers change', () => {
    const p = project();
    const prepared = prepareNetwork(assemble(p).description);
    const longer = project({
      collector: collector([section('a', { banks: [tubes('a1', { length_m: 9, pitch_m: 0.09 })] })]),
    });
    expect(prepared.update(assemble(longer).description)).toBe(true);
    const wider = project({ collector: collector([section('a', { banks: [tubes('a1', { count: 11 })] })]) });
    expect(prepared.update(assemble(wider).description)).toBe(false);
  });

  it('leaves out what leads nowhere instead of throwing', () => {
    const p = project({
      collector: collector([section('a')], { parallel: [{ section: 'nobody' }, { section: 'a' }] }),
    });
    expect(solve(p).solution.converged).toBe(true);
    const empty = project({ collector: collector([section('a')], {}) });
    expect(solve(empty).assembled.banks[0]).toBeUndefined();
  });
});

describe('heights along a path', () => {
  it('climbs evenly between known heights, stays level after the last', () => {
    expect(pathHeights_m([pipe('a', 1), pipe('b', 3)], 0, 2)).toEqual([0.5, 2]);
    expect(pathHeights_m([pipe('a', 1, { endHeight_m: 4 }), pipe('b', 3)], 0, null)).toEqual([4, 4]);
    expect(pathHeights_m([pipe('a', 2), valve('v', 1), pipe('b', 2, { endHeight_m: 1 })], 0, 3)).toEqual([
      1.5, 1.5, 3,
    ]);
  });
});
