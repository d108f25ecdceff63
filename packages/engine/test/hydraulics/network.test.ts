import { describe, expect, test } from 'vitest';
import { prepareNetwork } from '../../src/hydraulics/network';
import type { NetworkDescription } from '../../src/hydraulics/network-types';
import { DomainError } from '../../src/numeric/errors';
import { loopNetwork, randomLoop, seeded } from './random-loop';
import { network, node, pipe, RHO, weight } from './small-network';

describe('solver', () => {
  const build = (head: number): NetworkDescription => ({
    ...network(
      [node('a', 0, head), node('b'), node('c'), node('d', 0, 0)],
      [
        ['feed', 0, 1, pipe(3, 0.03)],
        ['branch', 1, 2, pipe(8, 0.0158)],
        ['run', 1, 2, pipe(30, 0.03, 4)],
        ['return', 2, 3, pipe(3, 0.03)],
      ],
    ),
    tees: [
      { node: 1, branch: 1, run: [0, 2], branchBore_m: 0.0158, headerBore_m: 0.03 },
      { node: 2, branch: 1, run: [2, 3], branchBore_m: 0.0158, headerBore_m: 0.03 },
    ],
  });

  test('a warm start leads to the same flows in fewer steps, and an update keeps the analysis', () => {
    const net = prepareNetwork(build(5));
    const first = net.solve();
    expect(net.update(build(5.2))).toBe(true);
    const warm = net.solve({ start: first });
    const cold = prepareNetwork(build(5.2)).solve();
    expect(warm.report.iterations).toBeLessThanOrEqual(cold.report.iterations);
    for (const [i, f] of warm.flow_kgs.entries()) expect(f / cold.flow_kgs[i]!).toBeCloseTo(1, 8);
    const longer = build(5);
    expect(net.update({ ...longer, links: longer.links.slice(0, 3), tees: longer.tees.slice(0, 1) })).toBe(
      false,
    );
    expect(net.solve().report.converged).toBe(true);
  });

  test('tees close the energy from end to end', () => {
    for (const tees of ['default', 'gardel', 'ideal', 'constant'] as const) {
      const s = prepareNetwork(build(5)).solve({ tees });
      expect(s.report.converged).toBe(true);
      for (const way of [
        [0, 1, 3],
        [0, 2, 3],
      ]) {
        const lost = way.reduce(
          (sum, i) => sum + s.headLoss_m[i]! + s.fromTeeLoss_m[i]! + s.toTeeLoss_m[i]!,
          0,
        );
        expect(lost).toBeCloseTo(5, 7);
      }
    }
  });

  test('a tee’s node has the total head of the combined leg, and pressures follow at link ends', () => {
    const s = prepareNetwork(build(5)).solve();
    expect(s.toTeeLoss_m[0]).toBeCloseTo(0, 12);
    expect(s.fromTeeLoss_m[3]).toBeCloseTo(0, 12);
    const dynamic = 0.5 * RHO * s.velocity_ms[1]! ** 2;
    const expected = weight * (s.head_m[1]! - s.fromTeeLoss_m[1]!) - dynamic;
    expect(s.fromPressure_Pa[1]).toBeCloseTo(expected, 6);
  });

  test('not converged names the worst link, how bad, and never looks converged', () => {
    const { report } = prepareNetwork(build(5)).solve({ maxIterations: 1, tolerance: 1e-14 });
    expect(report.converged).toBe(false);
    expect(report.residual).toBeGreaterThan(1);
    expect(['feed', 'branch', 'run', 'return']).toContain(report.worst);
    expect(report.message).toMatch(report.worst);
  });

  test('two starts agree here, so no other solution is reported', () => {
    const s = prepareNetwork(build(5)).solve({ twoStarts: true });
    expect(s.other).toBeUndefined();
  });

  test('scale: lengths and pressures a thousandth or a thousandfold still converge', () => {
    for (const scale of [1e-3, 1e3]) {
      const net = build(5 * scale);
      const s = prepareNetwork(net).solve();
      expect(s.report.converged).toBe(true);
      expect(Math.abs(s.flow_kgs[0]! - s.flow_kgs[1]! - s.flow_kgs[2]!)).toBeLessThan(1e-10 * s.flow_kgs[0]!);
    }
  });

  test.each<[string, (d: NetworkDescription) => unknown]>([
    ['a dangling end', (d) => ({ ...d, links: [...d.links, { ...d.links[0]!, to: 9 }] })],
    ['a link from a node to itself', (d) => ({ ...d, links: [{ ...d.links[0]!, to: 0 }] })],
    ['a tee whose leg ends elsewhere', (d) => ({ ...d, tees: [{ ...d.tees[0]!, branch: 3 }] })],
    ['a tee with a leg twice', (d) => ({ ...d, tees: [{ ...d.tees[0]!, branch: 0 }] })],
    ['a tee with neither run leg', (d) => ({ ...d, tees: [{ ...d.tees[0]!, run: [null, null] }] })],
    ['a tee that misses a link', (d) => ({ ...d, tees: [{ ...d.tees[0]!, run: [0, null] }] })],
    ['two tees at a node', (d) => ({ ...d, tees: [d.tees[0]!, d.tees[0]!] })],
    ['a bore of nothing', (d) => ({ ...d, links: [{ ...d.links[0]!, law: pipe(1, 0) }], tees: [] })],
    [
      'a length that is no number',
      (d) => ({ ...d, links: [{ ...d.links[0]!, law: pipe(Number.NaN, 1) }], tees: [] }),
    ],
    ['no density', (d) => ({ ...d, referenceDensity_kgm3: Number.NaN })],
    ['no viscosity', (d) => ({ ...d, viscosity_Pas: 0 })],
    [
      'an outlet into a free node',
      (d) => ({
        ...d,
        links: d.links.map((l, i) => (i === 1 ? { ...l, law: { kind: 'outlet', bore_m: 0.02 } } : l)),
      }),
    ],
  ])('%s is refused', (_, change) => {
    expect(() => prepareNetwork(change(build(5)) as NetworkDescription)).toThrow(DomainError);
  });

  test('options that are none are refused', () => {
    expect(() => prepareNetwork(build(5)).solve({ tolerance: Number.NaN })).toThrow(DomainError);
    expect(() => prepareNetwork(build(5)).solve({ maxIterations: 0 })).toThrow(DomainError);
  });
});

describe('numbers that no network has', () => {
  const own: NetworkDescription = {
    ...network(
      [node('a', 0, 5), node('b'), node('c', 0, 0), node('d', 0, 0)],
      [
        ['feed', 0, 1, pipe(3, 0.03)],
        ['branch', 1, 2, pipe(8, 0.0158)],
        ['run', 1, 3, pipe(30, 0.03, 4)],
      ],
    ),
    tees: [{ node: 1, branch: 1, run: [0, 2], branchBore_m: 0.0158, headerBore_m: 0.03 }],
  };
  const at = (n: number, change: object): NetworkDescription => ({
    ...own,
    nodes: own.nodes.map((other, i) => (i === n ? { ...other, ...change } : other)),
  });
  const tee = (change: object): NetworkDescription => ({ ...own, tees: [{ ...own.tees[0]!, ...change }] });

  test.each([
    ['an elevation', at(1, { elevation_m: Number.NaN })],
    ['a held head', at(0, { fixedHead_m: Number.NaN })],
    ['an inflow', at(1, { inflow_kgs: Number.NaN })],
    ['an inflow at a tee', at(1, { inflow_kgs: 0.1 })],
    ['an inflow where the head is held', at(2, { inflow_kgs: 0.1 })],
    ['a branch bore', tee({ branchBore_m: -0.0158 })],
    ['a header bore', tee({ headerBore_m: -0.03 })],
    ['a coefficient', tee({ constant: { branchIn: Number.NaN, branchOut: 1, runIn: 0, runOut: 0 } })],
  ])('%s are refused, also in an update of the same structure', (_, wrong) => {
    expect(() => prepareNetwork(wrong)).toThrow(DomainError);
    const net = prepareNetwork(own);
    expect(() => net.update(wrong)).toThrow(DomainError);
    // and leave what was loaded as it was
    expect(net.solve().report.converged).toBe(true);
  });
});

describe('an update that is refused', () => {
  test('leaves the network as it was, whichever link it breaks off at', () => {
    const own = network(
      [node('a', 0, 5), node('b'), node('c', 0, 0)],
      [
        ['first', 0, 1, pipe(3, 0.03)],
        ['second', 1, 2, pipe(8, 0.0158)],
      ],
    );
    const net = prepareNetwork(own);
    const before = net.solve().flow_kgs[0];
    const wider = { ...own.links[0]!, law: pipe(3, 0.01) };
    const wrong = { ...own.links[1]!, law: pipe(Number.NaN, 0.0158) };
    expect(() => net.update({ ...own, links: [wider, wrong] })).toThrow(DomainError);
    expect(net.description).toBe(own);
    expect(net.solve().flow_kgs[0]).toBe(before);
    const third = { ...wrong, id: 'third' };
    expect(() => net.update({ ...own, links: [wider, own.links[1]!, third] })).toThrow(DomainError);
    expect(net.solve().flow_kgs[0]).toBe(before);
  });
});

describe('no solution within the steps allowed', () => {
  test('is held against the whole problem, and took no more steps than those', () => {
    const random = seeded(5);
    let failed = 0;
    for (let k = 0; k < 4; k++) {
      const shape = randomLoop(random);
      const net = prepareNetwork(loopNetwork({ ...shape, checkValve: false }));
      const near = net.solve();
      for (const maxIterations of [1, 3, 6, 12]) {
        for (const start of [undefined, near]) {
          const { report } = net.solve({ maxIterations, start, tees: 'gardel' });
          expect(report.iterations).toBeLessThanOrEqual(maxIterations);
          if (report.converged) continue;
          failed++;
          expect(report.residual).toBeGreaterThan(1);
          expect(report.message).toContain(`after ${report.iterations} steps`);
        }
      }
    }
    expect(failed).toBeGreaterThan(8);
  });
});
