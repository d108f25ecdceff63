import { describe, expect, test } from 'vitest';
import { prepareNetwork } from '../../src/hydraulics/network';
import type { LinkLaw } from '../../src/hydraulics/network-types';
import { preparePump, pumpHead, pumpPower } from '../../src/hydraulics/pump';
import { GRAVITY_MS2 } from '../../src/numeric/constants';
import { MU, network, node, pipe, RHO, type Row, weight } from './small-network';

describe('single laws between two held heads', () => {
  const drop = 1.5;
  const through = (law: LinkLaw, head = drop) =>
    prepareNetwork(network([node('a', 0, head), node('b', 0, 0)], [['x', 0, 1, law]])).solve();

  test('valve and device pass the flow their definitions give', () => {
    const valve = through({ kind: 'valve', bore_m: 0.04, kv_m3h: 12 });
    // by definition (IEC 60534-1): 1 bar·(Q/Kv)²·ρ/1000
    const perKv = (valve.flow_kgs[0]! / RHO) * (3600 / 12);
    expect(1e5 * perKv ** 2 * (RHO / 1000)).toBeCloseTo(drop * weight, 5);
    const device = through({ kind: 'device', bore_m: 0.04, ratedLoss_Pa: 5000, ratedFlow_m3s: 0.001 });
    expect(5000 * (device.flow_kgs[0]! / RHO / 0.001) ** 2).toBeCloseTo(drop * weight, 5);
  });

  test('filter: k1·µ·Q + k2·ρ·Q²', () => {
    const q = through({ kind: 'filter', bore_m: 0.04, k1: 5e9, k2: 5e5 }).flow_kgs[0]! / RHO;
    expect(5e9 * MU * q + 5e5 * RHO * q * q).toBeCloseTo(drop * weight, 5);
  });

  test('a fitting may resist one way more than the other', () => {
    const law: LinkLaw = { kind: 'fitting', bore_m: 0.04, coefficient: 2, reverseCoefficient: 8 };
    expect(through(law).flow_kgs[0]! / -through(law, -drop).flow_kgs[0]!).toBeCloseTo(2, 9);
  });

  test('an outlet under water leaves one velocity head, and its mouth has the pressure outside', () => {
    const s = through({ kind: 'outlet', bore_m: 0.03 });
    expect(s.velocity_ms[0]! ** 2 / (2 * GRAVITY_MS2)).toBeCloseTo(drop, 9);
    expect(s.toPressure_Pa[0]).toBeCloseTo(0, 4);
    const inward = through({ kind: 'outlet', bore_m: 0.03 }, -drop);
    expect((0.5 * inward.velocity_ms[0]! ** 2) / (2 * GRAVITY_MS2)).toBeCloseTo(drop, 9);
  });

  test('an outlet in the air at height z: H = z + V²/2g inside, no pressure at the mouth', () => {
    const z = 0.7;
    const s = prepareNetwork(
      network(
        [node('a', 0, 3), node('b', z), node('air', z, z)],
        [
          ['pipe', 0, 1, pipe(4, 0.03)],
          ['mouth', 1, 2, { kind: 'outlet', bore_m: 0.03 }],
        ],
      ),
    ).solve();
    const velocityHead = s.velocity_ms[1]! ** 2 / (2 * GRAVITY_MS2);
    expect(s.head_m[1]).toBeCloseTo(z + velocityHead, 9);
    expect(s.toPressure_Pa[1]).toBeCloseTo(0, 4);
    expect(s.toPressure_Pa[0]).toBeCloseTo(0, 4);
  });

  test('a coil loses more than the straight pipe of its length', () => {
    const straight = through(pipe(30, 0.016));
    const coil = through({
      kind: 'coil',
      length_m: 30,
      bore_m: 0.016,
      roughness_m: 1.5e-6,
      coilDiameter_m: 0.8,
    });
    expect(coil.report.converged).toBe(true);
    expect(coil.flow_kgs[0]).toBeLessThan(straight.flow_kgs[0]!);
  });

  test('the two other friction laws differ where friction is not known, and only there', () => {
    for (const [head, differs] of [
      [0.011, true],
      [2, false],
    ] as const) {
      const net = prepareNetwork(
        network([node('a', 0, head), node('b', 0, 0)], [['x', 0, 1, pipe(6, 0.016)]]),
      );
      const flows = (['churchill', 'laminar', 'blasius'] as const).map((friction) => {
        const s = net.solve({ friction });
        expect(s.report.converged).toBe(true);
        return s.flow_kgs[0]!;
      });
      expect(flows[1]! > flows[0]! * 1.001).toBe(differs);
      expect(flows[2]! < flows[0]! * 0.999).toBe(differs);
    }
  });
});

describe('pump', () => {
  const curve = { kind: 'parabola', shutOffHead_m: 18, coefficient_s2m5: 6e5 } as const;
  const loop = (speed: number, more: Partial<Extract<LinkLaw, { kind: 'pump' }>> = {}, outside = 0) =>
    prepareNetwork(
      network(
        [node('pool', 0, 0), node('after'), node('outside', 0, outside)],
        [
          ['pump', 0, 1, { kind: 'pump', bore_m: 0.045, curve, speed, ...more }],
          ['pipe', 1, 2, pipe(20, 0.04, 6)],
        ],
      ),
    ).solve();

  test.each([1, 0.5, 0.1])('works where its curve meets the pipe, at speed %d', (speed) => {
    const s = loop(speed);
    expect(s.report.converged).toBe(true);
    expect(s.head_m[1]).toBeCloseTo(pumpHead(preparePump(curve), speed, s.flow_kgs[0]! / RHO), 8);
    expect(s.headLoss_m[0]).toBeCloseTo(-s.head_m[1]!, 8);
  });

  test('stopped with nothing to drive it: no flow, no head, converged', () => {
    const s = loop(0);
    expect(s.report.converged).toBe(true);
    expect(Math.abs(s.flow_kgs[0]!)).toBeLessThan(1e-12);
  });

  // 2⁻¹⁰⁷⁴ is the least number above 0: Q/s would leave all numbers
  test.each([5e-324, 1e-300, 1e-12])('turning at %d it has stopped', (speed) => {
    const s = loop(speed);
    expect(s.report.converged).toBe(true);
    expect(Math.abs(s.flow_kgs[0]!)).toBeLessThan(1e-12);
    expect(loop(speed, {}, 2).flow_kgs[0]).toBe(loop(0, {}, 2).flow_kgs[0]);
    expect(pumpHead(preparePump(curve), speed, 0.001)).toBe(0);
    const power = { kind: 'points', flow_m3s: [0, 4e-3], power_W: [500, 900] } as const;
    expect(pumpPower(power, 20, speed, 0.001, 0, 1000, 9.80665)).toBe(0);
  });

  test('stopped, it lets water back; a check valve does not', () => {
    expect(loop(0, {}, 2).flow_kgs[0]).toBeLessThan(-0.1);
    const held = loop(0, { checkValve: true }, 2);
    expect(held.report.converged).toBe(true);
    expect([...held.flow_kgs]).toEqual([0, 0]);
    expect([...held.shut]).toEqual([1, 0]);
    expect(held.head_m[1]).toBe(2);
    const running = loop(1, { checkValve: true }, 2);
    expect([...running.shut]).toEqual([0, 0]);
    expect(running.flow_kgs[0]).toBeGreaterThan(0.1);
  });

  test('a running pump against too much head and a check valve: shut, not backwards', () => {
    expect(loop(0.2, {}, 12).flow_kgs[0]).toBeLessThan(-0.1);
    expect(loop(0.2, { checkValve: true }, 12).flow_kgs[0]).toBe(0);
  });

  test('a dead-headed pump stands at its shut-off head', () => {
    const s = prepareNetwork(
      network(
        [node('pool', 0, 0), node('after'), node('beyond'), node('end', 0, 0)],
        [
          ['pump', 0, 1, { kind: 'pump', bore_m: 0.045, curve, speed: 1 }],
          ['valve', 1, 2, { kind: 'valve', bore_m: 0.045, kv_m3h: 0 }],
          ['return', 2, 3, pipe(5, 0.04)],
        ],
      ),
    ).solve();
    expect(s.report.converged).toBe(true);
    expect(s.head_m[1]).toBeCloseTo(18, 9);
    expect(s.flow_kgs[1]).toBe(0);
    expect(s.fromPressure_Pa[1]).toBeCloseTo(18 * weight, 3);
  });
});

test('two equal parallel sections at different heights share equally, whatever the slope', () => {
  // invariant, 1e-9, buoyancy off
  const heights = [-1.5, 4, 0.3];
  const sections = heights.flatMap((_, k): Row[] => [
    [`up ${k}`, 1, 3 + 2 * k, pipe(3, 0.02, 2)],
    [`tube ${k}`, 3 + 2 * k, 4 + 2 * k, pipe(24, 0.0158, 3), { density_kgm3: 985 }],
    [`down ${k}`, 4 + 2 * k, 2, pipe(3, 0.02, 2)],
  ]);
  const net = prepareNetwork(
    network(
      [
        node('source', 0, 6),
        node('split'),
        node('merge'),
        ...heights.flatMap((z, k) => [node(`low ${k}`, z), node(`high ${k}`, z + 0.2 * k)]),
        node('sink', 0, 0),
      ],
      [['feed', 0, 1, pipe(10, 0.04)], ...sections, ['return', 2, 9, pipe(10, 0.04)]],
    ),
  );
  const tubes = (buoyancy: boolean) => {
    const s = net.solve({ buoyancy });
    expect(s.report.converged).toBe(true);
    return [2, 5, 8].map((i) => s.flow_kgs[i]!);
  };
  const equal = tubes(false);
  for (const f of equal) expect(Math.abs(f / equal[0]! - 1)).toBeLessThan(1e-9);
  // warm tubes that rise are helped by a little when it is on
  const helped = tubes(true);
  expect(helped[2]! / helped[0]! - 1).toBeGreaterThan(1e-6);
  expect(helped[2]! / helped[0]! - 1).toBeLessThan(1e-2);
});

test('buoyancy: a warm riser beside a cold one turns by (1 − ρ/ρ_ref)·height', () => {
  const height = 3;
  const s = prepareNetwork(
    network(
      [node('pool', 0, 0), node('top', height), node('bottom')],
      [
        ['warm', 0, 1, pipe(height, 0.03), { density_kgm3: 985 }],
        ['cold', 1, 2, pipe(height, 0.03)],
        ['back', 2, 0, pipe(0.1, 0.03)],
      ],
    ),
  );
  const running = s.solve();
  expect(running.report.converged).toBe(true);
  expect(running.flow_kgs[0]).toBeGreaterThan(0);
  const lost = running.headLoss_m.reduce((sum, h) => sum + h, 0);
  expect(lost).toBeCloseTo((1 - 985 / RHO) * height, 9);
  const off = s.solve({ buoyancy: false });
  expect(off.report.converged).toBe(true);
  expect(Math.abs(off.flow_kgs[0]!)).toBeLessThan(1e-12);
});

describe('closed links and still water', () => {
  const rows: Row[] = [
    ['feed', 0, 1, pipe(5, 0.03)],
    ['through', 1, 2, pipe(5, 0.03)],
    ['beside', 1, 3, pipe(5, 0.03)],
    ['beside too', 3, 2, pipe(5, 0.03)],
    ['return', 2, 4, pipe(5, 0.03)],
  ];
  const nodes = [node('a', 0, 2), node('b'), node('c'), node('d', 1.2), node('e', 0, 0)];
  const closing = (...ids: string[]) =>
    network(
      nodes,
      rows.map(([id, from, to, law]): Row => [id, from, to, law, { closed: ids.includes(id) }]),
    );

  test('a closed link is as if it were not there', () => {
    const s = prepareNetwork(closing('beside')).solve();
    const without = prepareNetwork(network(nodes, [rows[0]!, rows[1]!, rows[4]!])).solve();
    expect(s.flow_kgs[0]).toBeCloseTo(without.flow_kgs[0]!, 10);
    expect(s.flow_kgs[2]).toBe(0);
    expect(Math.abs(s.flow_kgs[3]!)).toBeLessThan(1e-12);
    expect(s.still[3]).toBe(0);
  });

  test('a part cut off is still water: no flow, pressure from its elevation', () => {
    const s = prepareNetwork(closing('beside', 'beside too')).solve();
    expect([...s.still]).toEqual([0, 0, 0, 1, 0]);
    expect(s.report.converged).toBe(true);
    expect(s.toPressure_Pa[2]).toBeCloseTo(-1.2 * weight, 6);
  });

  test('everything closed is a solution too', () => {
    const s = prepareNetwork(closing('feed', 'through', 'beside', 'beside too', 'return')).solve();
    expect(s.report).toMatchObject({ converged: true, worst: '' });
    expect(s.flow_kgs.every((f) => f === 0)).toBe(true);
  });

  test('a network held nowhere is still', () => {
    const s = prepareNetwork(network([node('a'), node('b')], [['x', 0, 1, pipe(1, 0.02)]])).solve();
    expect(s.report.converged).toBe(true);
    expect([...s.still]).toEqual([1, 1]);
  });

  test('water put in where nothing leads out is said, not solved', () => {
    const trapped = network([{ ...node('a'), inflow_kgs: 1 }, node('b')], [['x', 0, 1, pipe(1, 0.02)]]);
    const { report } = prepareNetwork(trapped).solve();
    expect(report.converged).toBe(false);
    expect(report.message).toMatch('a');
  });

  test('a check valve shuts against flow and opens with it, inside a loop', () => {
    const loop = (head: number) =>
      prepareNetwork(
        network(
          [node('a', 0, head), node('b'), node('c', 0, 1)],
          [
            ['check', 0, 1, { kind: 'checkValve', bore_m: 0.03, coefficient: 3 }],
            ['beside', 0, 1, pipe(40, 0.01)],
            ['on', 1, 2, pipe(4, 0.02)],
          ],
        ),
      ).solve();
    const with_ = loop(2);
    expect([...with_.shut]).toEqual([0, 0, 0]);
    expect(with_.flow_kgs[0]).toBeGreaterThan(with_.flow_kgs[1]!);
    const against = loop(0);
    expect(against.flow_kgs[0]).toBe(0);
    expect([...against.shut]).toEqual([1, 0, 0]);
    expect(against.flow_kgs[1]).toBeLessThan(0);
  });
});
