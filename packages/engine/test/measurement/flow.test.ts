import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { combineFlows } from '../../src/measurement/flow-combine';
import { frontFlow } from '../../src/measurement/flow-front';
import { type GaugeTest, gaugeFlow } from '../../src/measurement/flow-gauges';
import { meterFlow, rotameterFlow } from '../../src/measurement/flow-meter';
import { type PailTest, pailFlow } from '../../src/measurement/flow-pail';
import { DomainError } from '../../src/numeric/errors';

const pail: PailTest = {
  volume_m3: 0.02,
  volumeLimit_m3: 4e-4,
  times_s: [61.2, 60.4, 61.9],
  reactionLimit_s: 0.3,
};
const codes = (outcome: { notices: { code: string }[] }) => outcome.notices.map((n) => n.code);

describe('pail and stopwatch', () => {
  it('verified by hand: relative doubts add in squares', () => {
    const flow = pailFlow(pail).flow!;
    const t = 61.166667;
    const expected = Math.hypot(0.43333 / t, 0.3 / Math.sqrt(3) / t, 0.02 / Math.sqrt(3));
    // the stopwatch's last digit is already in the scatter
    expect(flow.standardUncertainty_m3s / flow.flow_m3s).toBeCloseTo(expected, 6);
    expect(flow.contributions[0]!.source).toBe('pail.volume');
    expect(flow.contributions.reduce((sum, c) => sum + c.share, 0)).toBeCloseTo(1, 12);
  });

  it('accounts for a share caught and for the outlet lifted to the pail', () => {
    const half = pailFlow({ ...pail, shareCaught: 0.5, shareCaughtLimit: 0.05 }).flow!;
    expect(half.flow_m3s / pailFlow(pail).flow!.flow_m3s).toBeCloseTo(2, 10);
    expect(half.components.find((c) => c.source === 'pail.share')?.effect).toBeCloseTo(
      (-half.flow_m3s * 0.1) / Math.sqrt(3),
      12,
    );
    const lifted = pailFlow({ ...pail, lift_m: 1, flowAtLift_m3s: (z) => 4e-4 * (1 - 0.1 * z) });
    expect(lifted.flow!.flow_m3s / pailFlow(pail).flow!.flow_m3s).toBeCloseTo(1 / 0.9, 10);
    expect(codes(lifted)).toContain('pail-lifted');
    const unknown = pailFlow({ ...pail, lift_m: 1 });
    expect(unknown.flow!.flow_m3s).toBe(pailFlow(pail).flow!.flow_m3s);
    expect(codes(unknown)).toContain('pail-lifted-uncorrected');
  });

  it('answers nonsense with sense', () => {
    const zero = pailFlow({ ...pail, times_s: [0, 61, 60] });
    expect(zero.flow!.flow_m3s).toBeCloseTo(0.02 / 60.5, 12);
    expect(zero.notices[0]).toMatchObject({ code: 'time-impossible', path: '/times_s/0' });
    const never = pailFlow({ ...pail, times_s: [0, -3, Number.NaN] });
    expect(never.flow).toBeUndefined();
    expect(codes(never)).toContain('time-none');
    const single = pailFlow({ ...pail, times_s: [61] });
    expect(codes(single)).toContain('time-single');
    expect(single.flow!.dof).toBeGreaterThan(4);
    expect(codes(pailFlow({ ...pail, times_s: [61, 62] }))).toContain('time-pair');
    expect(codes(pailFlow({ ...pail, times_s: [3, 3.1, 3] }))).toContain('time-short');
    expect(codes(pailFlow({ ...pail, times_s: [30, 60, 61] }))).toContain('time-scatter');
    expect(pailFlow({ ...pail, volume_m3: 0 }).flow).toBeUndefined();
    expect(codes(pailFlow({ ...pail, shareCaught: 0 }))).toContain('pail-share');
    expect(() => pailFlow({ ...pail, volumeLimit_m3: -1 })).toThrow(DomainError);
    expect(() => pailFlow({ ...pail, reactionLimit_s: Number.NaN })).toThrow(DomainError);
  });

  it('scales: ten times the pail in ten times the time, same flow, thumb a tenth', () => {
    fc.assert(
      fc.property(fc.double({ min: 2, max: 50, noNaN: true }), (k) => {
        const one = pailFlow(pail).flow!;
        const big = pailFlow({ ...pail, volume_m3: k * 0.02, times_s: pail.times_s.map((t) => k * t) }).flow!;
        expect(big.flow_m3s / one.flow_m3s).toBeCloseTo(1, 10);
        const thumb = (f: typeof one) => f.components.find((c) => c.source === 'stopwatch.reaction')!.effect;
        expect(thumb(one) / thumb(big)).toBeCloseTo(k, 8);
      }),
      { numRuns: 20 },
    );
  });
});

describe('meters', () => {
  const meter = {
    first_m3: 12,
    second_m3: 12.1,
    elapsed_s: 300,
    resolution_m3: 1e-4,
    limitShare: 0.02,
    reactionLimit_s: 0.5,
  };

  it('verified by hand: two readings', () => {
    const flow = meterFlow(meter).flow!;
    expect(flow.flow_m3s).toBeCloseTo(0.1 / 300, 12);
    const expected = Math.hypot(0.02, 0.5 / 300, 5e-4, 5e-4) / Math.sqrt(3);
    // half of the stopwatch's last digit is below the tolerance
    expect(flow.standardUncertainty_m3s / flow.flow_m3s).toBeCloseTo(expected, 6);
    expect(codes(meterFlow(meter))).toEqual([]);
  });

  it('answers nonsense with sense', () => {
    expect(codes(meterFlow({ ...meter, second_m3: 11 }))).toContain('meter-backwards');
    expect(meterFlow({ ...meter, elapsed_s: 0 }).flow).toBeUndefined();
    expect(meterFlow({ ...meter, elapsed_s: 0 }).notices[0]!.path).toBe('/elapsed_s');
    expect(codes(meterFlow({ ...meter, second_m3: 12.001 }))).toContain('meter-coarse');
  });

  it('a rotameter is doubtful by its full scale', () => {
    const rotameter = {
      readings_m3s: [3e-4, 3.1e-4, 2.9e-4],
      fullScale_m3s: 6e-4,
      limitOfFullScale: 0.05,
      division_m3s: 2e-5,
    };
    const flow = rotameterFlow(rotameter).flow!;
    expect(flow.flow_m3s).toBeCloseTo(3e-4, 12);
    expect(flow.standardUncertainty_m3s).toBeCloseTo(
      Math.hypot(3e-5 / Math.sqrt(3), 1e-5 / Math.sqrt(3), 1e-5 / Math.sqrt(3)),
      9,
    );
    expect(rotameterFlow({ ...rotameter, readings_m3s: [0] }).flow).toBeUndefined();
    expect(codes(rotameterFlow({ ...rotameter, readings_m3s: [5e-5, 9e-4] }))).toEqual([
      'rotameter-scale',
      'rotameter-low',
    ]);
  });
});

describe('gauges through the pump curve', () => {
  const pump = {
    head_m: (v: number) => 15 - 1e6 * v * v,
    flow_m3s: (h: number) => Math.sqrt((15 - h) / 1e6),
    maxFlow_m3s: 3.5e-3,
  };
  const ρg = 996 * 9.80665;
  const reading = (head: number) => ({ pressure_Pa: ρg * (head - 2), suction_Pa: -2 * ρg });
  const test: GaugeTest = {
    collectorIn: reading(11),
    collectorOut: reading(9),
    pressureLimit_Pa: 3000,
    suctionLimit_Pa: 2000,
    pressureDivision_Pa: 2000,
    pump,
    curveLimitShare: 0.05,
    density_kgm3: 996,
  };

  it('verified by hand: head, flow on a square curve, and the collector’s share', () => {
    const found = gaugeFlow(test);
    expect(found.head_m).toBeCloseTo(11, 9);
    expect(found.flow!.flow_m3s).toBeCloseTo(2e-3, 9);
    expect(found.flowOut_m3s).toBeCloseTo(Math.sqrt(6e-6), 9);
    expect(found.headRise_m).toBeCloseTo(2, 9);
    // two readings of one gauge, half a mark each, the class cancelled
    expect(found.headRiseUncertainty_m).toBeCloseTo((Math.SQRT2 * 1000) / Math.sqrt(3) / ρg, 9);
    // dV/dH = −1/(2·10⁶·V) = −250 µ(m³/s)/m; curve ±0.55 m
    const curve = found.flow!.components.find((c) => c.source === 'gauges.curve')!;
    expect(Math.abs(curve.effect)).toBeCloseTo((0.55 / Math.sqrt(3)) * 2.5e-4, 6);
  });

  it('minds the bores and the heights of the gauges', () => {
    const bores = gaugeFlow({ ...test, pressureBore_m: 0.03, suctionBore_m: 0.05 });
    expect(bores.head_m!).toBeGreaterThan(11);
    // the head is the still part plus the velocity heads at the very flow that it gives
    const v = bores.flow!.flow_m3s;
    const speed = (d: number) => v / ((Math.PI / 4) * d * d);
    expect(bores.head_m).toBeCloseTo(11 + (speed(0.03) ** 2 - speed(0.05) ** 2) / (2 * 9.80665), 3);
    expect(gaugeFlow({ ...test, heightDifference_m: 0.5 }).head_m).toBeCloseTo(11.5, 9);
  });

  it('answers nonsense with sense', () => {
    expect(codes(gaugeFlow({ ...test, collectorIn: reading(16) }))).toContain('gauges-above-curve');
    expect(gaugeFlow({ ...test, collectorIn: reading(16) }).flow).toBeUndefined();
    expect(codes(gaugeFlow({ ...test, collectorIn: reading(-1) }))).toContain('gauges-no-head');
    expect(codes(gaugeFlow({ ...test, collectorOut: reading(12) }))).toContain('gauges-swapped');
    expect(codes(gaugeFlow({ ...test, collectorIn: reading(1) }))).toContain('gauges-end-of-curve');
    expect(codes(gaugeFlow({ ...test, collectorIn: reading(14.8) }))).toContain('gauges-flat-curve');
    expect(() => gaugeFlow({ ...test, density_kgm3: Number.NaN })).toThrow(DomainError);
  });
});

describe('warm front', () => {
  it('verified by hand: volume over delay, smear the largest doubt', () => {
    const front = { times_s: [60, 63, 61], loopVolume_m3: 0.02, volumeLimitShare: 0.05, reactionLimit_s: 1 };
    const flow = frontFlow(front).flow!;
    expect(flow.flow_m3s).toBeCloseTo(0.02 / 61.33333, 9);
    expect(flow.contributions[0]!.source).toBe('front.smear');
    expect(frontFlow({ ...front, loopVolume_m3: 0 }).flow).toBeUndefined();
    expect(frontFlow({ ...front, times_s: [] }).flow).toBeUndefined();
  });
});

describe('several measurements of one flow', () => {
  const meterAt = (flow: number) =>
    meterFlow({
      first_m3: 0,
      second_m3: flow * 600,
      elapsed_s: 600,
      resolution_m3: 1e-4,
      limitShare: 0.03,
      reactionLimit_s: 0.5,
    }).flow!;
  const byPail = pailFlow(pail).flow!;

  it('weighs by doubt, lies between, and is better than each', () => {
    const both = combineFlows([byPail, meterAt(3.35e-4)]);
    expect(both.weights.reduce((a, b) => a + b)).toBeCloseTo(1, 12);
    expect(both.flow.flow_m3s).toBeGreaterThan(byPail.flow_m3s);
    expect(both.flow.flow_m3s).toBeLessThan(3.35e-4);
    expect(both.flow.standardUncertainty_m3s).toBeLessThan(byPail.standardUncertainty_m3s);
    expect(both.consistent).toBe(true);
    expect(both.notices).toEqual([]);
  });

  it('the same pail twice does not halve its doubt, another pail helps', () => {
    const same = combineFlows([byPail, byPail]).flow;
    const volume = (f: typeof same) =>
      Math.hypot(...f.components.filter((c) => c.source.startsWith('pail.volume')).map((c) => c.effect));
    expect(volume(same)).toBeCloseTo(volume(byPail), 12);
    const other = combineFlows([
      pailFlow({ ...pail, pail: 'red' }).flow!,
      pailFlow({ ...pail, pail: 'blue' }).flow!,
    ]).flow;
    expect(volume(other)).toBeCloseTo(volume(byPail) / Math.SQRT2, 12);
    // scatter of the two runs is independent
    const scatter = same.components.filter((c) => c.source.startsWith('pail.repeats'));
    expect(scatter).toHaveLength(2);
  });

  it('says when they disagree, widens, and names the outlier', () => {
    const found = combineFlows([byPail, meterAt(3.3e-4), meterAt(4.5e-4)]);
    expect(found.consistent).toBe(false);
    expect(found.birge).toBeGreaterThan(1);
    expect(found.notices[0]).toMatchObject({ code: 'flow-disagree', path: '/flows/2' });
    expect(found.flow.standardUncertainty_m3s).toBeGreaterThan(
      combineFlows([byPail, meterAt(3.3e-4)]).flow.standardUncertainty_m3s,
    );
  });

  it('one alone stays itself, none is refused', () => {
    expect(combineFlows([byPail]).flow).toBe(byPail);
    expect(() => combineFlows([])).toThrow(DomainError);
  });
});
