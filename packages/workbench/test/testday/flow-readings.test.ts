import type { TestDay } from '@sunlap/project/schema/life';
import { describe, expect, it } from 'vitest';
import { solveFlow } from '../../src/flow/flow-basic';
import { carriedTo, flowReadings } from '../../src/testday/flow-readings';
import { loopFacts } from '../../src/testday/loop-facts';
import { loop, pipe, project, WALL_OUTLET } from '../fixtures';

/** Readings made from the network's own flows must give those flows back: each way by the others' truth. */
const two = loop({
  outlets: [
    { ...WALL_OUTLET, bore_m: 0.02 },
    { ...WALL_OUTLET, bore_m: 0.02, id: 'second', path: [pipe('far', 6)] },
  ],
});
const p = project({ loop: two });
const facts = loopFacts(p, solveFlow(p, { water_C: 26 }));
const bare = { id: 'd', at: '2026-05-10T12:30' };
const read = (day: Partial<TestDay>) => {
  const [reading] = flowReadings(p, { ...bare, ...day }, facts);
  return { ...reading, flow: reading.outcome.flow! };
};
const pail = { volume_m3: 0.02, volumeLimit_m3: 0.0004, reaction_s: 0.3 };
const times = (flow: number) => [0.02 / flow, 0.02 / flow + 0.05, 0.02 / flow - 0.05];

describe('flow from the file’s readings', () => {
  it('parts the water in this loop, so that places matter', () => {
    expect(facts.parted).toBe(true);
    expect(facts.split).toBeCloseTo(facts.collector_m3s / facts.pump_m3s, 12);
  });

  it('a pail that catches all gives the pump’s flow', () => {
    const { flow, at } = read({ pail: { ...pail, times_s: times(facts.pump_m3s) } });
    expect(at).toBe('pump');
    expect(flow.flow_m3s / facts.pump_m3s).toBeCloseTo(1, 6);
  });

  it('a pail at one of two outlets stands for all of it, less surely', () => {
    const here = facts.outletFlow_m3s('second')!;
    const { flow } = read({ pail: { ...pail, times_s: times(here), outlet: 'second' } });
    const all = read({ pail: { ...pail, times_s: times(here) } });
    expect(flow.flow_m3s / facts.pump_m3s).toBeCloseTo(1, 6);
    expect(flow.expandedUncertainty_m3s / flow.flow_m3s).toBeGreaterThan(
      all.flow.expandedUncertainty_m3s / all.flow.flow_m3s,
    );
  });

  it('an outlet lifted to the pail is brought back to service by the network', () => {
    const lifted = facts.outletFlowLifted_m3s('second', 0.1)!;
    expect(lifted).toBeLessThan(facts.outletFlow_m3s('second')!);
    const { flow, outcome } = read({
      pail: { ...pail, times_s: times(lifted), outlet: 'second', outletLift_m: 0.1 },
    });
    expect(flow.flow_m3s / facts.pump_m3s).toBeCloseTo(1, 6);
    expect(outcome.notices.map((n) => n.path)).toContain('/pail/outletLift_m');
  });

  it('gauges give the pump’s flow through its curve', () => {
    const head = facts.pumpCurve.head_m(facts.pump_m3s);
    const { flow, at } = read({
      gauges: {
        pressureIn_Pa: head * facts.density_kgm3 * 9.80665 + facts.suction_Pa,
        pressureOut_Pa: head * facts.density_kgm3 * 9.80665 + facts.suction_Pa - 5000,
        vacuumIn_Pa: -facts.suction_Pa,
        limit_Pa: 2000,
      },
    });
    expect(at).toBe('pump');
    expect(flow.flow_m3s / facts.pump_m3s).toBeCloseTo(1, 4);
  });

  it('without a vacuum gauge the loop as drawn stands in, said and less sure', () => {
    const head = facts.pumpCurve.head_m(facts.pump_m3s);
    const pressure = head * facts.density_kgm3 * 9.80665 + facts.suction_Pa;
    const day = { pressureIn_Pa: pressure, pressureOut_Pa: pressure - 5000, limit_Pa: 1000 };
    const without = read({ gauges: day });
    const withVacuum = read({ gauges: { ...day, vacuumIn_Pa: -facts.suction_Pa } });
    expect(without.flow.flow_m3s).toBeCloseTo(withVacuum.flow.flow_m3s, 9);
    expect(without.flow.expandedUncertainty_m3s).toBeGreaterThan(withVacuum.flow.expandedUncertainty_m3s);
    expect(without.outcome.notices.map((n) => n.code)).toContain('gauges-no-vacuum');
  });

  it('the warm front gives the collector’s flow, from either end of it', () => {
    const delays = (volume: number) => {
      const t = volume / facts.collector_m3s;
      return [t, t + 1, t - 1];
    };
    const last = facts.frontVolume_m3('last', 'poolOutlet');
    const first = facts.frontVolume_m3('first', 'poolOutlet');
    expect(last).toBeGreaterThan(first);
    expect(facts.frontVolume_m3('last', 'collectorOutlet')).toBeLessThan(last);
    for (const [front, volume] of [
      ['last', last],
      ['first', first],
    ] as const) {
      const { flow, at } = read({ warmFront: { delays_s: delays(volume), limit_s: 1, front } });
      expect(at).toBe('collector');
      expect(flow.flow_m3s / facts.collector_m3s).toBeCloseTo(1, 6);
    }
  });

  it('carries a flow to where the rise was measured, and counts the doubt of the split', () => {
    const { flow } = read({ pail: { ...pail, times_s: times(facts.pump_m3s) } });
    const carried = carriedTo(flow, 'pump', 'collector', facts)!;
    expect(carried.flow_m3s / facts.collector_m3s).toBeCloseTo(1, 6);
    expect(carried.components.map((c) => c.source)).toContain('flow.split');
    expect(carriedTo(flow, 'pump', 'pump', facts)).toBe(flow);
    const whole = project({ loop: loop({ bypass: { kind: 'none' } }) });
    const undivided = loopFacts(whole, solveFlow(whole, { water_C: 26 }));
    expect(carriedTo(flow, 'pump', 'collector', undivided)).toBe(flow);
  });
});
