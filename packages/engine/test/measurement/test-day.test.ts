import { describe, expect, it } from 'vitest';
import { nextSteps } from '../../src/measurement/advice';
import { agreement } from '../../src/measurement/agreement';
import { fromLimits } from '../../src/measurement/component';
import { pailFlow } from '../../src/measurement/flow-pail';
import { poolShowsGain } from '../../src/measurement/pool-gain';
import { type TestDay, testDay } from '../../src/measurement/test-day';
import { DomainError } from '../../src/numeric/errors';

const thermometer = { limit_K: 0.5, resolution_K: 0.1 };
const pail = { volume_m3: 0.015, volumeLimit_m3: 4.5e-4, times_s: [31.2, 30.4, 31.6], reactionLimit_s: 0.3 };
const day: TestDay = {
  flows: [pailFlow(pail)],
  rise: {
    inlet: { readings_C: [26.1, 26.1, 26.2], thermometer, place: 'stream' },
    outlet: { readings_C: [28.2, 28.3, 28.2], thermometer, place: 'pail' },
  },
};
const expected = (heat_W: number) => ({
  heat_W,
  components: [fromLimits('expected.wind', 'wind at the collector', heat_W, 0.15)],
});
const codes = (d: TestDay) => testDay(d).notices.map((n) => n.code);

describe('a test day', () => {
  it('joins flow, rise, heat, verdict and advice', () => {
    const found = testDay({ ...day, expected: expected(4300) });
    expect(found.heat!.heat_W).toBeGreaterThan(4000);
    expect(found.agreement!.verdict).toBe('cannotTell');
    expect(found.heat!.contributions[0]!.source).toMatch(/^thermometer/);
    expect(found.advice[0]!.step).toBe('onePail');
    expect(found.notices.filter((n) => n.severity === 'safety')).toEqual([]);
    // a heater that gives a third of what it should is told even by such thermometers
    expect(testDay({ ...day, expected: expected(13_000) }).agreement!.verdict).toBe('low');
    expect(testDay({ ...day, expected: expected(1000) }).agreement!.verdict).toBe('high');
  });

  it('answers nonsense with sense', () => {
    expect(codes({ ...day, sunElevation_deg: -12 })).toContain('day-night');
    expect(codes({ ...day, sunElevation_deg: 40 })).not.toContain('day-night');
    const noFlow = testDay({ ...day, flows: [pailFlow({ ...pail, times_s: [0] })] });
    expect(noFlow.heat).toBeUndefined();
    expect(noFlow.rise).toBeDefined();
    expect(noFlow.notices[0]!.path).toBe('/flows/0/times_s/0');
    expect(testDay({ ...day, flows: [] }).flow).toBeUndefined();
    const backwards = testDay({
      ...day,
      rise: { ...day.rise, inlet: day.rise.outlet, outlet: day.rise.inlet },
    });
    expect(backwards.heat!.heat_W).toBeLessThan(0);
    expect(backwards.notices.map((n) => n.code)).toContain('rise-negative');
    expect(testDay({ ...day, volume_C: 400 }).heat!.heat_W).toBe(testDay(day).heat!.heat_W);
  });
});

describe('agreement', () => {
  it('verified by hand: normalised error and verdicts', () => {
    const low = agreement(4000, 300, 5000, 400);
    expect(low.normalisedError).toBeCloseTo(-2, 12);
    expect(low).toMatchObject({ verdict: 'low', difference_W: -1000, surely_W: 500 });
    expect(agreement(5100, 300, 5000, 400).verdict).toBe('agrees');
    expect(agreement(5100, 3000, 5000, 400).verdict).toBe('cannotTell');
    expect(agreement(7000, 300, 5000, 400).verdict).toBe('high');
    expect(() => agreement(1, 0, 1, 0)).toThrow(DomainError);
    expect(() => agreement(Number.NaN, 1, 1, 1)).toThrow(DomainError);
  });

  it('changing sides changes the sign only', () => {
    for (const [q, e] of [
      [100, 500],
      [-20, 70],
    ] as const)
      expect(agreement(q, 30, e, 40).normalisedError).toBeCloseTo(
        -agreement(e, 40, q, 30).normalisedError,
        12,
      );
  });
});

describe('what the next step buys', () => {
  const measured = testDay(day).heat!;

  it('is ranked, positive, and never promises more than the whole interval', () => {
    const advice = nextSteps(measured);
    expect(advice.length).toBeGreaterThanOrEqual(2);
    for (let i = 1; i < advice.length; i++)
      expect(advice[i]!.shrink).toBeLessThanOrEqual(advice[i - 1]!.shrink);
    for (const a of advice) {
      expect(a.shrink).toBeGreaterThan(0.02);
      expect(a.expandedUncertainty_W).toBeCloseTo((1 - a.shrink) * measured.expandedUncertainty_W, 6);
    }
  });

  it('keeps its promise: the check in one pail, done, shrinks the interval about as foretold', () => {
    const promised = nextSteps(measured).find((a) => a.step === 'onePail')!;
    const done = testDay({
      ...day,
      rise: { ...day.rise, onePail: { inlet_C: [25, 25, 25], outlet_C: [25.2, 25.2, 25.2] } },
    });
    expect(Math.abs(done.heat!.expandedUncertainty_W / promised.expandedUncertainty_W - 1)).toBeLessThan(0.1);
    expect(done.advice.some((a) => a.step === 'onePail')).toBe(false);
  });

  it('turns to the pail when the pail dominates, to the wind when the expectation does', () => {
    const fine = { limit_K: 0.02, resolution_K: 0.01 };
    const sharp: TestDay = {
      flows: [pailFlow({ ...pail, volumeLimit_m3: 1.5e-3, times_s: [31, 31.1, 31] })],
      rise: {
        inlet: { readings_C: [26.1, 26.1, 26.11], thermometer: fine, place: 'stream' },
        outlet: { readings_C: [32.2, 32.2, 32.21], thermometer: fine, place: 'stream' },
      },
    };
    expect(testDay(sharp).advice[0]!.step).toBe('weighPail');
    const windy = { heat_W: 12_000, components: [fromLimits('expected.wind', 'wind', 12_000, 0.4)] };
    expect(testDay({ ...sharp, expected: windy }).advice[0]!.step).toBe('windAtCollector');
  });

  it('asks for more times when two runs are all there is', () => {
    const few = testDay({ ...day, flows: [pailFlow({ ...pail, times_s: [28, 34] })] });
    const steps = few.advice.map((a) => a.step);
    // a bigger vessel makes the same scatter count less, whatever the number of runs
    expect(steps.slice(0, 2).sort()).toEqual(['biggerPail', 'moreTimes']);
    expect(few.advice.find((a) => a.step === 'moreTimes')!.shrink).toBeGreaterThan(0.15);
    expect(few.heat!.coverageFactor).toBeGreaterThan(measured.coverageFactor);
  });
});

describe('the pool’s own thermometer', () => {
  it('verified by hand: gain is twice its doubt at the time given', () => {
    const t = poolShowsGain(4000, 40, 26, 0.2, 500);
    const capacity = 40 * 996.78 * 4181;
    const gain = (4000 * t) / capacity;
    expect(gain).toBeCloseTo(2 * Math.hypot(0.2 * Math.SQRT2, (500 * t) / capacity), 3);
    expect(t / 3600).toBeGreaterThan(6);
    expect(t / 3600).toBeLessThan(8);
  });

  it('never shows what the rest of the balance hides', () => {
    expect(poolShowsGain(1000, 40, 26, 0.2, 500)).toBe(Infinity);
    expect(poolShowsGain(4000, 80, 26, 0.2, 0) / poolShowsGain(4000, 40, 26, 0.2, 0)).toBeCloseTo(2, 12);
    expect(() => poolShowsGain(0, 40, 26, 0.2, 0)).toThrow(DomainError);
    expect(() => poolShowsGain(4000, 40, 26, Number.NaN, 0)).toThrow(DomainError);
  });
});
