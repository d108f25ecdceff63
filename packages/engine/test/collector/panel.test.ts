import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { solvePanel } from '../../src/collector/panel';
import { preparePanel } from '../../src/collector/panel-prepare';
import type { PanelDescription, PanelElement } from '../../src/collector/panel-types';
import { marchTube } from '../../src/collector/tube';
import { waterEnthalpy, waterHeatCapacity } from '../../src/fluids/water';
import { AIR, BORE, conditions, evenFlow, OD, seriesPanel, WALL } from './panel-fixture';
import { openTube, outerState } from './panel-probe';

const finite = (list: Float64Array) => list.every((x) => Number.isFinite(x));

describe('one panel', () => {
  const layout = seriesPanel(3, 10);
  const panel = preparePanel(layout);
  const flow = evenFlow(3, 10, 0.8);
  const sun = conditions(layout);
  const out = solvePanel(panel, flow, 27, sun);
  test('converges, closes its energy to 1e-9, and agrees with ṁcΔT', () => {
    expect(out.converged).toBe(true);
    expect(out.closure).toBeLessThan(1e-9);
    expect(out.heat_W).toBeGreaterThan(500);
    expect(out.massFlow_kgs).toBeCloseTo(0.8, 12);
    expect(out.heat_W).toBeCloseTo(0.8 * out.heatCapacity_JkgK * (out.outlet_C! - 27), 6);
  });
  test('one heat capacity stands for enthalpy within 1e-4 of the heat', () => {
    const enthalpy = 0.8 * (waterEnthalpy(out.outlet_C!) - waterEnthalpy(27));
    expect(Math.abs(out.heat_W / enthalpy - 1)).toBeLessThan(1e-4);
    expect(out.heatCapacity_JkgK).toBeCloseTo(waterHeatCapacity((out.outlet_C! + 27) / 2), 3);
  });
  test('every tube of a bank with the same inlet leaves alike; later banks start warmer', () => {
    const tubes = layout.elements.flatMap((e, i) => (e.kind === 'pipe' && e.bore_m === BORE ? [i] : []));
    expect(out.elementOutlet_C[tubes[0]]).toBeGreaterThan(27);
    expect(out.elementOutlet_C[tubes[25]]).toBeGreaterThan(out.elementOutlet_C[tubes[5]]);
    for (const t of tubes) expect(out.elementHeat_W[t]).toBeGreaterThan(0);
  });
  test('a second solution starts from the first and says the same', () => {
    const again = solvePanel(panel, flow, 27, sun);
    expect(again.iterations).toBeLessThanOrEqual(3);
    expect(again.heat_W / out.heat_W).toBeCloseTo(1, 6);
  });
  // Published: water freezes at 0 °C. A hundred metres of tube in a gale of −40 °C take it far below.
  test('says where the water would freeze', () => {
    const pieces = [{ length_m: 100, outside: 0 }];
    const tube: PanelElement = {
      kind: 'pipe',
      from: 0,
      to: 1,
      bore_m: BORE,
      outerDiameter_m: OD,
      wallConductivity_WmK: WALL,
      pieces,
    };
    const at = (air_C: number) =>
      solvePanel(preparePanel({ nodeCount: 2, elements: [tube] }), [0.05], 20, {
        outside: [openTube({ ...AIR, air_C, sky_C: air_C - 15, wind_ms: 20 })],
        absorbed_Wm: [0],
      });
    const cold = at(-40);
    expect(cold.converged).toBe(true);
    expect(cold.outlet_C).toBeLessThan(0);
    expect(cold.frozen).toBe(true);
    expect(at(10).frozen).toBe(false);
    expect(out.frozen).toBe(false);
  });
  test('one tube by the panel is one tube by hand', () => {
    const one: PanelDescription = {
      nodeCount: 2,
      elements: [
        {
          kind: 'pipe',
          from: 0,
          to: 1,
          bore_m: BORE,
          outerDiameter_m: OD,
          wallConductivity_WmK: WALL,
          pieces: [
            { length_m: 4, outside: 0 },
            { length_m: 6, outside: 0 },
          ],
        },
      ],
    };
    const moment = { outside: [openTube(AIR)], absorbed_Wm: [18, 0] };
    const solved = solvePanel(preparePanel(one), [0.05], 26, moment);
    const probe = preparePanel(one);
    solvePanel(probe, [0.05], 26, moment);
    const inner_mKW = solved.waterResistance_mKW[0] + solved.wallResistance_mKW[0];
    const pieces = [4, 6].map((length_m, k) => {
      const state = outerState(moment.outside[0], probe.surface_C[k]);
      return {
        length_m,
        outer_WmK: state.conductance_WmK,
        surroundings_C: state.surroundings_C,
        absorbed_Wm: [18, 0][k],
        inner_mKW,
      };
    });
    const hand = marchTube(pieces, 26, 0.05 * solved.heatCapacity_JkgK);
    expect(solved.outlet_C).toBeCloseTo(hand.outlet_C, 8);
    expect(solved.heat_W).toBeCloseTo(hand.heat_W, 5);
  });
});

describe('flow of any kind', () => {
  const layout = seriesPanel(2, 8);
  const sun = conditions(layout);
  test('turned round, a panel of even pieces gives the same heat', () => {
    const there = solvePanel(preparePanel(layout), evenFlow(2, 8, 0.5), 27, sun);
    const back = solvePanel(
      preparePanel(layout),
      evenFlow(2, 8, 0.5).map((m) => -m),
      27,
      sun,
    );
    expect(back.heat_W).toBeCloseTo(there.heat_W, 2);
    expect(back.outlet_C).toBeCloseTo(there.outlet_C!, 5);
  });
  test('standing still: no heat, no outlet, tubes at their standing temperature', () => {
    const out = solvePanel(preparePanel(layout), new Float64Array(layout.elements.length), 27, sun);
    expect(out.converged).toBe(true);
    expect(out.heat_W).toBe(0);
    expect(out.outlet_C).toBeNull();
    const tube = layout.elements.findIndex((e) => e.kind === 'pipe' && e.bore_m === BORE);
    expect(out.elementMean_C[tube]).toBeCloseTo(out.elementStanding_C[tube], 9);
    expect(out.elementMean_C[tube]).toBeGreaterThan(30);
    expect(finite(out.node_C) && finite(out.elementOutlet_C)).toBe(true);
  });
  test('heat goes to nothing with the flow: never more than warming all of it to the standing temperature', () => {
    for (const m of [1, 0.3, 0.1, 0.01, 1e-4, 1e-7, 1e-12, 1e-300]) {
      const out = solvePanel(preparePanel(layout), evenFlow(2, 8, m), 27, sun);
      expect(out.converged).toBe(true);
      expect(out.closure).toBeLessThan(1e-9);
      const span = Math.max(...out.elementStanding_C) - Math.min(...out.elementStanding_C, 27);
      expect(Math.abs(out.heat_W)).toBeLessThanOrEqual(m * out.heatCapacity_JkgK * span);
    }
  });
  test('one blocked tube stands hot while the rest carry on', () => {
    const share = new Array<number>(8).fill(1 / 7);
    share[3] = 0;
    const out = solvePanel(preparePanel(layout), evenFlow(2, 8, 0.5, share), 27, sun);
    const tubes = layout.elements.flatMap((e, i) => (e.kind === 'pipe' && e.bore_m === BORE ? [i] : []));
    expect(out.elementHeat_W[tubes[3]]).toBe(0);
    expect(out.elementMean_C[tubes[3]]).toBeGreaterThan(out.elementMean_C[tubes[2]] + 2);
    expect(out.closure).toBeLessThan(1e-9);
  });
  test('water that circles inside is settled, and its heat is the tube’s', () => {
    // a ring of two tubes hung on a flow that passes one of its nodes
    const tube = (from: number, to: number): PanelElement => ({
      kind: 'pipe',
      from,
      to,
      bore_m: BORE,
      outerDiameter_m: OD,
      wallConductivity_WmK: WALL,
      pieces: [{ length_m: 6, outside: 0 }],
    });
    const ring: PanelDescription = {
      nodeCount: 4,
      elements: [{ kind: 'link', from: 0, to: 1 }, tube(1, 2), tube(2, 1), { kind: 'link', from: 1, to: 3 }],
    };
    const out = solvePanel(preparePanel(ring), [0.2, 0.03, 0.03, 0.2], 27, {
      outside: [openTube(AIR)],
      absorbed_Wm: [22, 22],
    });
    expect(out.converged).toBe(true);
    expect(out.closure).toBeLessThan(1e-9);
    expect(out.heat_W).toBeGreaterThan(10);
    expect(out.node_C[2]).toBeGreaterThan(out.node_C[1]);
  });
  test('any graph, any flows: finite, closed, and no water outside the range of what it met', () => {
    const d = (min: number, max: number) => fc.double({ min, max, noNaN: true });
    fc.assert(
      fc.property(
        fc.integer({ min: 2, max: 8 }),
        fc.array(fc.tuple(fc.nat(7), fc.nat(7), d(-0.4, 0.4), d(0, 25), fc.nat(3)), {
          minLength: 1,
          maxLength: 14,
        }),
        d(5, 45),
        (nodeCount, raw, inlet) => {
          const elements: PanelElement[] = raw.map(([a, b, , , kind]) => {
            const ends = {
              from: a % nodeCount,
              to: (b % nodeCount === a % nodeCount ? a + 1 : b) % nodeCount,
            };
            if (kind === 0) return { kind: 'link', ...ends };
            if (kind === 1)
              return {
                kind: 'rated',
                ...ends,
                area_m2: 2,
                coefficients: { eta0: 0.85, bu: 0.04, b1: 11.56, b2: 4.37 },
                conditions: 0,
              };
            return {
              kind: 'pipe',
              ...ends,
              bore_m: BORE,
              outerDiameter_m: OD,
              wallConductivity_WmK: WALL,
              ...(kind === 2 ? { coilDiameter_m: 1 } : {}),
              pieces: [
                { length_m: 3, outside: 0 },
                { length_m: 5, outside: 0 },
              ],
            };
          });
          // small flows are made exactly zero: blocked
          const flow = raw.map((r) => (Math.abs(r[2]) < 0.05 ? 0 : r[2]));
          const absorbed = raw.flatMap((r, i) => (elements[i].kind === 'pipe' ? [r[3], 0] : []));
          const moment = {
            outside: [openTube(AIR)],
            absorbed_Wm: absorbed,
            rated: [{ net_Wm2: 700, wind_ms: 1, air_C: 22 }],
          };
          const out = solvePanel(preparePanel({ nodeCount, elements }), flow, inlet, moment);
          for (const list of [
            out.node_C,
            out.elementHeat_W,
            out.elementInlet_C,
            out.elementOutlet_C,
            out.elementMean_C,
            out.reynolds,
          ])
            expect(finite(list)).toBe(true);
          expect(Number.isFinite(out.heat_W + out.closure)).toBe(true);
          if (out.converged) {
            expect(out.closure).toBeLessThan(1e-9);
            const hottest = Math.max(inlet, ...out.elementStanding_C) + 1e-6;
            for (const t of out.node_C) expect(t).toBeLessThanOrEqual(hottest);
          }
        },
      ),
      { seed: 51, numRuns: 150 },
    );
  });
});

describe('invariants of a whole panel', () => {
  const layout = seriesPanel(2, 6);
  const heat = (inlet: number, absorbed: number, wind: number, total: number) =>
    solvePanel(
      preparePanel(layout),
      evenFlow(2, 6, total),
      inlet,
      conditions(layout, absorbed, { ...AIR, wind_ms: wind }),
    ).heat_W;
  const d = (min: number, max: number) => fc.double({ min, max, noNaN: true });
  test('more sun gives more, warmer water gives less, more flow gives more while it gains', () => {
    fc.assert(
      fc.property(d(18, 38), d(5, 25), d(0, 6), d(0.02, 1.5), (inlet, sun, wind, total) => {
        const here = heat(inlet, sun, wind, total);
        expect(heat(inlet, sun + 1, wind, total)).toBeGreaterThan(here);
        expect(heat(inlet + 1, sun, wind, total)).toBeLessThan(here);
        // Re passes from laminar to turbulent along the way: films only get better
        if (here > 5) expect(heat(inlet, sun, wind, total * 1.3)).toBeGreaterThan(here);
      }),
      { seed: 52, numRuns: 40 },
    );
  });
  test('wind takes heat from a panel warmer than the air, and brings some to a colder one', () => {
    expect(heat(32, 22, 3, 0.5)).toBeLessThan(heat(32, 22, 1, 0.5));
    expect(heat(12, 0, 3, 0.5)).toBeGreaterThan(heat(12, 0, 1, 0.5));
  });
  test('two panels side by side give twice the heat of one', () => {
    const once = layout.elements;
    const twice: PanelDescription = {
      nodeCount: 2 * layout.nodeCount,
      elements: [
        ...once,
        ...once.map((e) => ({ ...e, from: e.from + layout.nodeCount, to: e.to + layout.nodeCount })),
      ],
    };
    const flow = evenFlow(2, 6, 0.4);
    const both = solvePanel(preparePanel(twice), [...flow, ...flow], 27, conditions(twice));
    const one = solvePanel(preparePanel(layout), flow, 27, conditions(layout));
    expect(both.heat_W / one.heat_W).toBeCloseTo(2, 9);
    expect(both.outlet_C).toBeCloseTo(one.outlet_C!, 9);
  });
  test('a hotter return is not more heat', () => {
    const slow = solvePanel(preparePanel(layout), evenFlow(2, 6, 0.05), 27, conditions(layout));
    const fast = solvePanel(preparePanel(layout), evenFlow(2, 6, 0.6), 27, conditions(layout));
    expect(slow.outlet_C!).toBeGreaterThan(fast.outlet_C!);
    expect(slow.heat_W).toBeLessThan(fast.heat_W);
  });
});

describe('pieces, neighbours, rated absorbers', () => {
  test('a shade edge is marched, not averaged', () => {
    const tube = (first: number, second: number) =>
      solvePanel(
        preparePanel({
          nodeCount: 2,
          elements: [
            {
              kind: 'pipe',
              from: 0,
              to: 1,
              bore_m: BORE,
              outerDiameter_m: OD,
              wallConductivity_WmK: WALL,
              pieces: [
                { length_m: 10, outside: 0 },
                { length_m: 10, outside: 0 },
              ],
            },
          ],
        }),
        [0.004],
        25,
        { outside: [openTube(AIR)], absorbed_Wm: [first, second] },
      ).heat_W;
    expect(tube(0, 18)).toBeGreaterThan(tube(18, 0) * 1.02);
    expect(tube(9, 9)).toBeGreaterThan(tube(18, 0));
    expect(tube(9, 9)).toBeLessThan(tube(0, 18));
  });
  test('a cold neighbour takes heat from a hot one; alike they change nothing', () => {
    const pair = (view: number, second: number) => {
      const tube = (n: number, other: number): PanelElement => ({
        kind: 'pipe',
        from: 2 * n,
        to: 2 * n + 1,
        bore_m: BORE,
        outerDiameter_m: OD,
        wallConductivity_WmK: WALL,
        pieces: [{ length_m: 6, outside: 0 }],
        neighbours: { left: -1, right: other, view, emittance: 0.92 },
      });
      return solvePanel(
        preparePanel({ nodeCount: 4, elements: [tube(0, 1), tube(1, 0)] }),
        [0.01, 0.01],
        30,
        { outside: [openTube(AIR)], absorbed_Wm: [18, second] },
      );
    };
    // the neighbour counts by its mean, the tube warms along its length
    expect(pair(0.3, 18).heat_W).toBeCloseTo(pair(0, 18).heat_W, 1);
    expect(pair(0.3, 0).elementHeat_W[0]).toBeLessThan(pair(0, 0).elementHeat_W[0] - 0.5);
    expect(pair(0.3, 0).elementHeat_W[1]).toBeGreaterThan(pair(0, 0).elementHeat_W[1] + 0.5);
    // one takes what the other gives, apart from what goes to the air on the way
    expect(Math.abs(pair(0.3, 0).heat_W - pair(0, 0).heat_W)).toBeLessThan(0.5);
  });
  test('a rated absorber gives its tested heat at its own mean temperature', () => {
    const c = { eta0: 0.9, bu: 0.02, b1: 10, b2: 3 };
    const panel = preparePanel({
      nodeCount: 2,
      elements: [{ kind: 'rated', from: 0, to: 1, area_m2: 20, coefficients: c, conditions: 0 }],
    });
    const out = solvePanel(panel, [1.2], 27, {
      outside: [],
      absorbed_Wm: [],
      rated: [{ net_Wm2: 704.704, wind_ms: 1, air_C: 22 }],
    });
    const mean = (27 + out.outlet_C!) / 2;
    const tested = 20 * (c.eta0 * (1 - c.bu) * 704.704 - (c.b1 + c.b2) * (mean - 22));
    // logarithmic for arithmetic mean: NTU²/12 of 0.05²
    expect(Math.abs(out.heat_W / tested - 1)).toBeLessThan(5e-4);
  });
  test('misuse is refused, NaN included', () => {
    const layout = seriesPanel(1, 2);
    const panel = preparePanel(layout);
    const sun = conditions(layout);
    const flow = evenFlow(1, 2, 0.1);
    expect(() => solvePanel(panel, flow, Number.NaN, sun)).toThrow(RangeError);
    expect(() =>
      solvePanel(
        panel,
        flow.map(() => Number.NaN),
        27,
        sun,
      ),
    ).toThrow(RangeError);
    expect(() => solvePanel(panel, flow.slice(1), 27, sun)).toThrow(RangeError);
    expect(() => solvePanel(panel, flow, 27, { ...sun, absorbed_Wm: [1] })).toThrow(RangeError);
    expect(() => solvePanel(panel, flow, 27, { ...sun, outside: [] })).toThrow(RangeError);
    expect(() => preparePanel({ nodeCount: 1, elements: [{ kind: 'link', from: 0, to: 1 }] })).toThrow(
      RangeError,
    );
  });
});
