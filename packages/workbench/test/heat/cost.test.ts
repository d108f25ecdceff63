import { describe, expect, it } from 'vitest';
import { tubeTargets } from '../../src/flow/costing';
import { sayIn } from '../../src/flow/say';
import { heat } from '../../src/heat/heat';
import { heatCosting } from '../../src/heat/heat-costing';
import { keptMass } from '../../src/heat/kept-mass';
import { heatWeather, resolveMoment } from '../../src/heat/moment';
import { solveHeat } from '../../src/heat/solve-heat';
import { collector, loop, project, section, TEST_TABLES as tables, tubes } from '../fixtures';

const NOON = {
  at: '2026-05-10T13:00',
  water_C: 26,
  air_C: 22,
  dewPoint_C: 11,
  wind_ms: 2,
  sky: 'clear' as const,
};
const one = (bank: Parameters<typeof tubes>[1], speed = 0.4) =>
  project({
    loop: loop({ pump: { ...loop().pump, speed } }),
    collector: collector([
      section('a', { outletEnds: ['last'], banks: [tubes('a1', { count: 20, ...bank })] }),
    ]),
  });
const solvedOf = (p: ReturnType<typeof project>) => {
  const now = resolveMoment(p, NOON);
  return solveHeat(p, heatWeather(p, now), NOON.water_C, { tables });
};

describe('what a finding costs', () => {
  it('keeps mass at every node while tubes carry what they are told', () => {
    const p = one({ pipe: 'threeQuarter' });
    const solved = solvedOf(p);
    const targets = tubeTargets(p, solved.flow, solved.flow.solution.network.flow_kgs, {
      kind: 'uneven',
      banks: [0],
    });
    const fixed = new Map([...targets!].map(([link, q]) => [solved.layout.elementOf[link], q]));
    const { panel } = solved.layout;
    const flow = keptMass(
      panel,
      solved.elementFlow_kgs,
      fixed,
      solved.layout.links.map(() => false),
    );
    const net = new Float64Array(panel.description.nodeCount);
    flow.forEach((q, e) => {
      const change = q - solved.elementFlow_kgs[e];
      net[panel.from[e]] -= change;
      net[panel.to[e]] += change;
    });
    for (const n of net) expect(Math.abs(n)).toBeLessThan(1e-10);
    for (const [e, q] of fixed) expect(flow[e]).toBe(q);
    expect(new Set(fixed.values()).size).toBe(1);
  });

  it('is nothing when the tubes share evenly already, and something when a starved panel does not', () => {
    const p = one({ pipe: 'threeQuarter' });
    const solved = solvedOf(p);
    const costing = heatCosting(p, solved, NOON.water_C, sayIn('metric'));
    const cost = costing({ kind: 'uneven', banks: [0] })!;
    expect(cost.cost_W).toBeGreaterThan(0);
    // unevenness costs in the second order: far less than the share of the water that is misplaced
    expect(cost.costShare).toBeLessThan(0.2);
    const none = costing({ kind: 'loop', flow_kgs: solved.flow.solution.network.flow_kgs })!;
    // same flows, same heat, within the solver's tolerance of a millionth of a degree
    expect(none.cost_W).toBeLessThan(0.01);
  });

  it('says it in the notice: blocked tubes cost about what they would bring', () => {
    const p = one({ blocked: [3, 4, 5, 6, 7] }, 1);
    const answer = heat(p, NOON, { tables, day: false, breaker: false });
    const notice = answer.notices.find((n) => n.code === 'tubes-marked-dead')!;
    expect(notice.cost).toMatch(/^Costs about [\d.]+ % of the heat, /);
    expect(notice.costShare).toBeCloseTo(notice.cost_W! / answer.result.heat_W, 12);
    const mended = heat(one({}, 1), NOON, { tables, day: false, breaker: false });
    const gained = mended.result.heat_W - answer.result.heat_W;
    // even sharing at the same flow against the mended loop's own flow and its own unevenness
    expect(notice.cost_W! / gained).toBeGreaterThan(0.75);
    expect(notice.cost_W! / gained).toBeLessThan(1.25);
  });
});
