import { describe, expect, it } from 'vitest';
import { rise } from '../../src/measurement/rise';
import type { RiseTest } from '../../src/measurement/rise-types';
import { steadiness } from '../../src/measurement/steadiness';
import { DomainError } from '../../src/numeric/errors';

const thermometer = { limit_K: 0.5, resolution_K: 0.1 };
const day: RiseTest = {
  inlet: { readings_C: [26.1, 26.2, 26.2], thermometer, place: 'stream' },
  outlet: { readings_C: [29.1, 29.1, 29.3], thermometer, place: 'pail' },
};
const codes = (test: RiseTest) => rise(test).notices.map((n) => n.code);

describe('rise of temperature', () => {
  it('differences readings taken in pairs', () => {
    const found = rise(day).rise!;
    expect(found.rise_K).toBeCloseTo(3, 10);
    // differences 3.0, 2.9, 3.1: s = 0.1, over √3
    expect(found.components.find((c) => c.source === 'rise.repeats')?.effect).toBeCloseTo(
      0.1 / Math.sqrt(3),
      9,
    );
    const alone = rise({ ...day, outlet: { ...day.outlet, readings_C: [29.1, 29.3] } }).rise!;
    expect(alone.components.map((c) => c.source)).toEqual(
      expect.arrayContaining(['inlet.repeats', 'outlet.repeats']),
    );
  });

  it('counts the last digit once: as a limit when readings stand still, in the scatter when they move', () => {
    const still = rise({ ...day, inlet: { ...day.inlet, readings_C: [26.1, 26.1, 26.1] } }).rise!;
    expect(still.components.find((c) => c.source === 'thermometer.inlet.resolution')?.effect).toBeCloseTo(
      -0.05 / Math.sqrt(3),
      9,
    );
    const moving = rise({ ...day, inlet: { ...day.inlet, readings_C: [26.1, 26.3, 26.2] } }).rise!;
    expect(moving.components.some((c) => c.source === 'thermometer.inlet.resolution')).toBe(false);
  });

  it('a check in one pail takes off the offset, shrinks the doubt and amounts to a high correlation', () => {
    const checked = rise({ ...day, onePail: { inlet_C: [25, 25, 25.1], outlet_C: [25.4, 25.4, 25.5] } })
      .rise!;
    expect(checked.offset_K).toBeCloseTo(0.4, 10);
    expect(checked.rise_K).toBeCloseTo(2.6, 10);
    expect(checked.expandedUncertainty_K).toBeLessThan(0.5 * rise(day).rise!.expandedUncertainty_K);
    expect(checked.correlation).toBeGreaterThan(0.95);
    expect(checked.correlation).toBeLessThanOrEqual(1);
  });

  it('a known calibration is taken off, and not twice when the check in one pail sees it too', () => {
    const known: RiseTest = {
      ...day,
      outlet: { ...day.outlet, thermometer: { ...thermometer, offset_K: 0.4 } },
    };
    expect(rise(known).rise!.rise_K).toBeCloseTo(2.6, 10);
    expect(rise({ ...known, onePail: { inlet_C: [25], outlet_C: [25.4] } }).rise!.rise_K).toBeCloseTo(
      2.6,
      10,
    );
  });

  it('one thermometer for both places leaves no class error', () => {
    const same = rise({ ...day, classCorrelation: 1 }).rise!;
    expect(same.components.some((c) => c.source.includes('class'))).toBe(false);
    expect(() => rise({ ...day, classCorrelation: 1.2 })).toThrow(DomainError);
    expect(() => rise({ ...day, classCorrelation: Number.NaN })).toThrow(DomainError);
  });

  it('water at the skimmer is not the bulk: more doubt, and said so', () => {
    const skimmer: RiseTest = { ...day, inlet: { ...day.inlet, place: 'skimmer' } };
    expect(rise(skimmer).rise!.standardUncertainty_K).toBeGreaterThan(rise(day).rise!.standardUncertainty_K);
    expect(codes(skimmer)).toContain('place-not-bulk');
  });

  it('takes the partner of a reading that cannot be out with it', () => {
    const gaps: RiseTest = {
      ...day,
      inlet: { ...day.inlet, readings_C: [Number.NaN, 26, 27, 28] },
      outlet: { ...day.outlet, readings_C: [29, 30, 31, Number.NaN] },
    };
    // by hand: of 26…28 and 29…31 only 26 → 30 and 27 → 31 were read together: 4 K, no scatter at all
    const found = rise(gaps).rise!;
    expect(found.rise_K).toBeCloseTo(4, 10);
    expect([found.inlet_C, found.outlet_C]).toEqual([26.5, 30.5]);
    expect(found.components.some((c) => c.source.endsWith('.repeats'))).toBe(false);
    // one whole pair has no scatter to show: each side by itself
    const one = rise({
      ...gaps,
      inlet: { ...day.inlet, readings_C: [26, 27, Number.NaN] },
      outlet: { ...day.outlet, readings_C: [Number.NaN, 30, 31] },
    }).rise!;
    expect(one.rise_K).toBeCloseTo(4, 10);
    expect(one.components.map((c) => c.source)).toContain('inlet.repeats');
  });

  it('leaves what is no water out of the check in one pail', () => {
    const bad = rise({
      ...day,
      onePail: { inlet_C: [25, Number.NaN, 25, 177], outlet_C: [25.4, 25.4, 250, 25.4] },
    });
    expect(bad.rise?.offset_K).toBeCloseTo(0.4, 10);
    expect(bad.notices.map((n) => n.code)).toContain('one-pail-left-out');
    const none = rise({ ...day, onePail: { inlet_C: [Number.NaN], outlet_C: [25] } });
    expect(none.rise?.offset_K).toBe(0);
    expect(none.notices.map((n) => n.code)).toEqual(['one-pail-none']);
  });

  it('answers nonsense with sense', () => {
    const swapped: RiseTest = { ...day, inlet: day.outlet, outlet: day.inlet, pool_C: 29.2 };
    expect(rise(swapped).rise!.rise_K).toBeLessThan(0);
    expect(codes(swapped)).toEqual(expect.arrayContaining(['rise-negative', 'return-colder-than-pool']));
    expect(codes({ ...day, onePail: { inlet_C: [25], outlet_C: [28] } })).toContain('one-pail-apart');
    expect(codes({ ...day, onePail: { inlet_C: [], outlet_C: [] } })).toContain('one-pail-none');
    expect(codes({ ...day, outlet: { ...day.outlet, place: 'elsewhere' } })).toContain('place-elsewhere');
    expect(codes({ ...day, outlet: { ...day.outlet, readings_C: [26.3] } })).toContain('rise-lost');
    const none = rise({ ...day, outlet: { ...day.outlet, readings_C: [Number.NaN, 112] } });
    expect(none.rise).toBeUndefined();
    expect(none.notices.map((n) => n.code)).toContain('temperature-none');
    expect(none.notices[0]!.path).toBe('/outlet/readings_C/0');
  });
});

describe('steadiness', () => {
  it('verified by hand: three transits and one time constant', () => {
    const s = steadiness(60, 600, 660, 0);
    expect(s.needed_s).toBe(780);
    expect(s.steady).toBe(false);
    expect(s.unfinishedShare).toBeCloseTo(Math.exp(-1), 12);
    expect(steadiness(60, 600, 780).steady).toBe(true);
  });

  it('a pool that warms makes the rise read low by drift × transit', () => {
    expect(steadiness(60, 600, 1000, 1 / 3600).driftError_K).toBeCloseTo(-60 / 3600, 12);
    expect(steadiness(60, 0, 30).unfinishedShare).toBe(1);
    expect(() => steadiness(0, 600, 1)).toThrow(DomainError);
    expect(() => steadiness(60, 600, Number.NaN)).toThrow(DomainError);
  });
});
