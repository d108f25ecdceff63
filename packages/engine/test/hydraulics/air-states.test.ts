import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { relievedPressures } from '../../src/hydraulics/air-pressure';
import { prepareAir } from '../../src/hydraulics/air-states';
import type { AirInlet, AirSolution } from '../../src/hydraulics/air-types';
import { frictionFactorChurchill } from '../../src/hydraulics/friction';
import type { NetworkDescription } from '../../src/hydraulics/network-types';
import { GRAVITY_MS2 } from '../../src/numeric/constants';
import { DomainError } from '../../src/numeric/errors';
import { findRoot } from '../../src/numeric/roots';
import { atSpeed, buildLoop, type Loop } from './air-loop';

const bleed = (): Omit<AirInlet, 'node' | 'elevation_m'> => ({ kind: 'bleed', openPressure_Pa: 0 });
const breaker = (openPressure_Pa: number) => (): Omit<AirInlet, 'node' | 'elevation_m'> => ({
  kind: 'vacuumBreaker',
  openPressure_Pa,
});
const flows = (loop: Loop, answer: AirSolution) =>
  loop.layout.tubes.map((tube) => answer.solution.flow_kgs[tube.link]!);
const ofPath = (loop: Loop, values: readonly number[], path: string) =>
  values.filter((_, t) => loop.layout.tubes[t]!.path === path);

/** Checks that every tube and every space agrees with the solution it came with. */
function expectConsistent(loop: Loop, answer: AirSolution): void {
  const head = answer.solution.head_m;
  for (const [t, tube] of loop.layout.tubes.entries()) {
    const { state, mouthPressure_Pa, missingLift_m } = answer.tubes[t]!;
    const flow = answer.solution.flow_kgs[tube.link]!;
    expect(Number.isFinite(flow)).toBe(true);
    const open = answer.spaces[tube.space!]!.open;
    if (!open) expect(state).toBe('full');
    // a millimetre of water is 10 Pa; states are exact to a tenth of that
    if (state === 'full' && open) expect(mouthPressure_Pa).toBeGreaterThan(-1);
    if (state === 'outfall') expect(flow).toBeGreaterThan(0);
    if (state === 'unfilled' || state === 'airBound') {
      expect(flow).toBe(0);
      // what pushes into it does not reach the crown: the header's head less its velocity head there
      const { from } = loop.network.links[tube.link]!;
      const header = loop.network.tees.find((tee) => tee.branch === tube.link && tee.node === from)!;
      const speed = Math.max(
        ...header.run.map((leg) => (leg === null ? 0 : Math.abs(answer.solution.velocity_ms[leg]!))),
      );
      const reach = head[from]! - speed ** 2 / (2 * GRAVITY_MS2);
      expect(reach).toBeLessThan(tube.crown_m + 1e-4);
      expect(missingLift_m).toBeCloseTo(Math.max(0, tube.crown_m - reach), 9);
    }
  }
  for (const [s, { inlet }] of loop.layout.spaces.entries()) {
    const { open, inletPressure_Pa } = answer.spaces[s]!;
    if (inlet === null || inletPressure_Pa === null) continue;
    if (open) expect(inletPressure_Pa).toBeLessThan(1e-2);
    else expect(inletPressure_Pa).toBeGreaterThan(-inlet.openPressure_Pa - 1e-2);
  }
  // mass at every node between held heads
  const net = new Float64Array(head.length);
  let most = 0;
  for (const [i, { from, to }] of loop.network.links.entries()) {
    const flow = answer.solution.flow_kgs[i]!;
    net[from]! -= flow;
    net[to]! += flow;
    most = Math.max(most, Math.abs(flow));
  }
  for (const [n, node] of loop.network.nodes.entries())
    if (node.fixedHead_m === undefined) expect(Math.abs(net[n]!)).toBeLessThan(1e-8 * most + 1e-12);
}

describe('a loop without a way in for air', () => {
  it('flows the same at any height: what starves upper tubes is air', () => {
    fc.assert(
      fc.property(
        fc.array(fc.double({ min: 0.1, max: 4, noNaN: true }), { minLength: 3, maxLength: 3 }),
        fc.double({ min: 0.2, max: 1.5, noNaN: true }),
        (heights, speed) => {
          // sections of equal pipe: the builder's risers are as long as the section is high, so lift all alike
          const lift = heights[0]!;
          const low = buildLoop({ heights_m: [1, 1, 1], plumbing: [[0], [1], [2]], speed });
          const high: NetworkDescription = {
            ...low.network,
            nodes: low.network.nodes.map((node) =>
              node.id.startsWith('s0') ? { ...node, elevation_m: node.elevation_m + lift } : node,
            ),
          };
          const a = flows(low, prepareAir(low.network, low.layout).solve());
          const b = flows(low, prepareAir(high, low.layout).solve());
          for (const [t, flow] of a.entries()) expect(Math.abs(flow / b[t]! - 1)).toBeLessThan(1e-9);
          // and equal sections share equally, whatever stands above whatever
          for (let t = 0; t < 4; t++) expect(Math.abs(b[t]! / b[t + 4]! - 1)).toBeLessThan(1e-9);
        },
      ),
      { numRuns: 6, seed: 1 },
    );
  });

  it('is full with one network solution, siphon and all', () => {
    const loop = buildLoop({ heights_m: [3], plumbing: [[0]], speed: 0.3 });
    const answer = prepareAir(loop.network, loop.layout).solve();
    expect(answer).toMatchObject({ converged: true, solves: 1, message: '' });
    expect(answer.tubes.every((tube) => tube.state === 'full' && tube.cause === 'none')).toBe(true);
    expect(answer.tubes[0]!.mouthPressure_Pa).toBeLessThan(-25_000);
  });
});

describe('one tube over a high point', () => {
  const bore = 0.0209;
  const [up, crown] = [10, 2.5];
  const curve = { kind: 'parabola', shutOffHead_m: 6, coefficient_s2m5: 4e7 } as const;
  const network: NetworkDescription = {
    referenceDensity_kgm3: 996,
    viscosity_Pas: 8.1e-4,
    nodes: [
      { id: 'pool', elevation_m: 0, fixedHead_m: 0 },
      { id: 'pump', elevation_m: 0 },
      { id: 'top', elevation_m: crown - bore / 2 },
      { id: 'outlet', elevation_m: 0, fixedHead_m: 0 },
    ],
    links: [
      { id: 'pump', from: 0, to: 1, law: { kind: 'pump', bore_m: 0.04, curve, speed: 1 } },
      { id: 'up', from: 1, to: 2, law: { kind: 'pipe', length_m: up, bore_m: bore, roughness_m: 0 } },
      { id: 'down', from: 2, to: 3, law: { kind: 'pipe', length_m: 4, bore_m: 0.04, roughness_m: 0 } },
    ],
    tees: [],
  };
  const layout = {
    tubes: [{ link: 1, discharge: 'to' as const, crown_m: crown, space: 0, path: 'only' }],
    spaces: [
      {
        id: 'top',
        inlet: { kind: 'bleed' as const, node: 2, elevation_m: crown, openPressure_Pa: 0 },
        downLeg: { link: 2, angle_deg: 90 },
      },
    ],
  };

  it('runs as an outfall where pump and lift meet, as a root finder says on the raw equations', () => {
    // verified: independent solution of H(Q) = fL/D·V²/2g + z_crown + V²/2g
    const area = (Math.PI / 4) * bore ** 2;
    const lack = (v: number) => {
      const f = frictionFactorChurchill((996 * v * bore) / 8.1e-4, 0);
      return 6 - 4e7 * (v * area) ** 2 - ((f * up) / bore + 1) * (v ** 2 / (2 * GRAVITY_MS2)) - crown;
    };
    const { root } = findRoot(lack, 1e-3, 5);
    const answer = prepareAir(network, layout).solve();
    expect(answer.tubes[0]).toMatchObject({ state: 'outfall', cause: 'bleed' });
    expect(answer.solution.velocity_ms[1]! / root).toBeCloseTo(1, 6);
  });

  it('stays dry, with the missing lift, when the pump cannot reach', () => {
    const links = [...network.links];
    links[0] = { ...links[0]!, law: { kind: 'pump', bore_m: 0.04, curve, speed: 0.5 } };
    const answer = prepareAir({ ...network, links }, layout).solve();
    expect(answer.tubes[0]).toMatchObject({ state: 'unfilled', cause: 'bleed', mouthPressure_Pa: null });
    // shut-off 6 m × 0.5² = 1.5 m
    expect(answer.tubes[0]!.missingLift_m).toBeCloseTo(1, 9);
    expect(answer.solution.flow_kgs[1]).toBe(0);
  });

  it('runs the other way round when its link is drawn the other way', () => {
    const links = [...network.links];
    links[1] = { ...links[1]!, from: 2, to: 1 };
    const turned = { ...layout, tubes: [{ ...layout.tubes[0]!, discharge: 'from' as const }] };
    const a = prepareAir(network, layout).solve();
    const b = prepareAir({ ...network, links }, turned).solve();
    expect(b.tubes[0]!.state).toBe('outfall');
    expect(b.solution.flow_kgs[1]! / -a.solution.flow_kgs[1]!).toBeCloseTo(1, 8);
  });

  it('refuses a layout that does not fit', () => {
    const tube = layout.tubes[0]!;
    const space = layout.spaces[0]!;
    for (const bad of [
      { ...layout, tubes: [{ ...tube, link: 9 }] },
      { ...layout, tubes: [tube, tube] },
      { ...layout, tubes: [{ ...tube, space: 1 }] },
      { ...layout, tubes: [{ ...tube, crown_m: Number.NaN }] },
      { ...layout, spaces: [{ ...space, inlet: { ...space.inlet, node: -1 } }] },
      { ...layout, spaces: [{ ...space, inlet: { ...space.inlet, elevation_m: Number.NaN } }] },
      { ...layout, spaces: [{ ...space, inlet: { ...space.inlet, openPressure_Pa: -1 } }] },
      { ...layout, spaces: [{ ...space, downLeg: { link: 3, angle_deg: 0 } }] },
    ])
      expect(() => prepareAir(network, bad)).toThrow(DomainError);
  });
});

describe('three sections at different heights, 3/4 in tubes', () => {
  const heights_m = [0.5, 1.5, 3];

  it('starves the upper ones when air gets in, lowest first to live, and says by how much', () => {
    const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]], inlet: bleed });
    const air = prepareAir(loop.network, loop.layout);
    const states = [0.2, 0.6, 1.2].map((speed) => {
      air.update(atSpeed(loop, speed));
      const answer = air.solve();
      expect(answer.converged).toBe(true);
      expectConsistent(loop, answer);
      return [0, 4, 8].map((t) => answer.tubes[t]!.state);
    });
    expect(states[0]).toEqual(['outfall', 'unfilled', 'unfilled']);
    expect(states[1]).toEqual(['outfall', 'outfall', 'unfilled']);
    expect(states[2]).toEqual(['full', 'outfall', 'outfall']);
  });

  it('names the cause: what lets air in, or that it is trapped', () => {
    const cause = (options: Partial<Parameters<typeof buildLoop>[0]>, before: 'full' | 'empty') => {
      const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]], speed: 0.5, ...options });
      const { state, cause: why } = prepareAir(loop.network, loop.layout).solve({ before }).tubes[8]!;
      return `${state} ${why}`;
    };
    expect(cause({ inlet: bleed }, 'full')).toBe('unfilled bleed');
    expect(cause({ inlet: breaker(3000) }, 'full')).toBe('unfilled vacuumBreaker');
    expect(cause({ inlet: () => ({ kind: 'openOutlet', openPressure_Pa: 0 }) }, 'full')).toBe(
      'unfilled openOutlet',
    );
    expect(cause({}, 'empty')).toBe('airBound trappedAir');
    expect(cause({}, 'full')).toBe('full none');
  });

  it('does not let air in by a breaker that its suction does not open', () => {
    const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]], speed: 0.5, inlet: breaker(60_000) });
    const answer = prepareAir(loop.network, loop.layout).solve();
    expect(answer.solves).toBe(1);
    expect(answer.spaces.every((space) => !space.open && space.margin_Pa! > 0)).toBe(true);
  });

  it('remembers: what is full when turned down may stay full where a start would leave it dry', () => {
    const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]] });
    const air = prepareAir(atSpeed(loop, 1.4), loop.layout);
    const high = air.solve({ before: 'empty' });
    expect(high.tubes.every((tube) => tube.state === 'full')).toBe(true);
    air.update(atSpeed(loop, 0.5));
    const turnedDown = air.solve({ before: high.memory });
    const started = air.solve({ before: 'empty' });
    expect(turnedDown.tubes.every((tube) => tube.state === 'full')).toBe(true);
    expect(started.tubes[8]!.state).toBe('airBound');
    expect(ofPath(loop, flows(loop, turnedDown), 'section 2')[0]).toBeGreaterThan(0);
  });

  it('carries water through more tubes the more sections stand in series', () => {
    const dry = (plumbing: readonly (readonly number[])[]) => {
      const loop = buildLoop({ heights_m, plumbing, speed: 0.6, inlet: bleed });
      const answer = prepareAir(loop.network, loop.layout).solve();
      expect(answer.converged).toBe(true);
      expectConsistent(loop, answer);
      return {
        dry: answer.tubes.filter((tube) => tube.state === 'unfilled').length,
        flow: answer.solution.flow_kgs[loop.pump]!,
      };
    };
    const parallel = dry([[0], [1], [2]]);
    const mixed = dry([[0, 1], [2]]);
    const series = dry([[0, 1, 2]]);
    expect([parallel.dry, mixed.dry, series.dry]).toEqual([4, 0, 0]);
    expect(parallel.flow).toBeGreaterThan(mixed.flow);
    expect(mixed.flow).toBeGreaterThan(series.flow);
  });

  it('has no suction in pipe that air has reached, and keeps it where water stands', () => {
    const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]], speed: 0.6, inlet: bleed });
    const answer = prepareAir(loop.network, loop.layout).solve();
    const place = (id: string) => loop.network.links.findIndex((link) => link.id === id);
    const relieved = relievedPressures(loop.network, loop.layout, answer);
    expect(answer.solution.fromPressure_Pa[place('s2/out')]).toBeLessThan(-20_000);
    expect(Math.min(...relieved.fromPressure_Pa, ...relieved.toPressure_Pa)).toBeGreaterThan(-10_000);
    for (const id of ['s1/out', 's2/out', 's2/gat0']) {
      expect(relieved.fromPressure_Pa[place(id)]).toBe(0);
    }
    // suction side of the pump: still water, still under suction
    const suction = place('suction pipe');
    expect(relieved.toPressure_Pa[suction]).toBe(answer.solution.toPressure_Pa[suction]);
    // without air nothing is relieved
    const full = buildLoop({ heights_m, plumbing: [[0], [1], [2]], speed: 0.6 });
    const siphon = prepareAir(full.network, full.layout).solve();
    expect(relievedPressures(full.network, full.layout, siphon)).toEqual(siphon.solution);
  });

  it('leaves marked tubes out and says so', () => {
    const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]], inlet: bleed });
    const tubes = loop.layout.tubes.map((tube, t) =>
      t === 1
        ? { ...tube, mark: 'blocked' as const }
        : t === 2
          ? { ...tube, mark: 'airBound' as const }
          : tube,
    );
    const answer = prepareAir(loop.network, { ...loop.layout, tubes }).solve();
    expect(answer.tubes[1]).toMatchObject({ state: 'blocked', cause: 'marked' });
    expect(answer.tubes[2]).toMatchObject({ state: 'airBound', cause: 'marked' });
    expect(answer.solution.flow_kgs[tubes[1]!.link]).toBe(0);
    expect(answer.solution.flow_kgs[tubes[0]!.link]).toBeGreaterThan(0);
  });

  it('reports the network it was given, and its trouble', () => {
    const loop = buildLoop({ heights_m, plumbing: [[0], [1], [2]], speed: 0.5, inlet: bleed });
    const air = prepareAir(loop.network, loop.layout);
    const answer = air.solve();
    expect(answer.solution.flow_kgs).toHaveLength(loop.network.links.length);
    expect(answer.solution.head_m).toHaveLength(loop.network.nodes.length);
    const cut = air.solve({ solve: { maxIterations: 1, tolerance: 1e-12 } });
    expect(cut.converged).toBe(false);
    expect(cut.message).not.toBe('');
  });
});

describe('any loop', () => {
  const anything = fc.record({
    heights_m: fc.array(
      fc.integer({ min: -3, max: 40 }).map((z) => z / 10),
      { minLength: 3, maxLength: 3 },
    ),
    plumbing: fc.constantFrom([[0], [1], [2]], [[0, 1], [2]], [[0, 1, 2]], [[2, 1, 0]], [[0, 2], [1]], [[1]]),
    tubes: fc.integer({ min: 1, max: 5 }),
    headerRise_m: fc.constantFrom(0, 0.05, 0.3, -0.1),
    speed: fc.integer({ min: 0, max: 160 }).map((s) => s / 100),
    tubeBore_m: fc.constantFrom(0.0158, 0.0209),
    opens: fc.array(fc.constantFrom(null, 0, 3000, 20_000), { minLength: 3, maxLength: 3 }),
    before: fc.constantFrom('full' as const, 'empty' as const),
    tees: fc.constantFrom('default' as const, 'gardel' as const, 'ideal' as const),
  });

  it('finds states that agree with the water, and never NaN', () => {
    fc.assert(
      fc.property(anything, ({ opens, before, tees, ...options }) => {
        const loop = buildLoop({
          ...options,
          inlet: (section) => {
            const open = opens[section];
            return open === null || open === undefined ? null : breaker(open)();
          },
        });
        const answer = prepareAir(loop.network, loop.layout).solve({ before, solve: { tees } });
        expect(answer.message).toBe('');
        expect(answer.converged).toBe(true);
        expectConsistent(loop, answer);
      }),
      { numRuns: 80, seed: 7 },
    );
  });
});
