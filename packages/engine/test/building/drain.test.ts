import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { type DrainRun, judgeDrain, standingWater } from '../../src/building/drain';
import { DomainError } from '../../src/numeric/errors';

const tubes: DrainRun = {
  id: 'tubes',
  part: 'tube',
  length_m: 3.048,
  bore_m: 0.0158,
  fall: 0.02,
  span_m: 0.762,
  sag_m: 0.0017,
  spanKind: 'end',
  airAbove: true,
  wayOpen: true,
  count: 20,
};
const headers: DrainRun = {
  id: 'headers',
  part: 'header',
  length_m: 1.6,
  bore_m: 0.0409,
  fall: 0.01,
  span_m: 0.8,
  sag_m: 0.0004,
  spanKind: 'simple',
  airAbove: true,
  wayOpen: true,
  count: 2,
};
const full = (run: DrainRun) => (Math.PI / 4) * run.bore_m ** 2 * run.length_m * (run.count ?? 1);

describe('draining', () => {
  it('empties a panel that falls enough both ways', () => {
    const report = judgeDrain([tubes, headers], 0.001);
    expect(report.verdict).toBe('drains');
    expect(report.direction).toBe('both');
    expect(report.staysInTubes_m3 + report.staysInHeaders_m3).toBe(0);
  });

  it('says that fall across the tubes empties headers only, and where the water stays', () => {
    const report = judgeDrain([{ ...tubes, fall: 0 }, headers], 0.001);
    expect(report.direction).toBe('headersOnly');
    expect(report.verdict).toBe('holds');
    expect(report.findings[0]!.cause).toBe('level');
    expect(report.staysInTubes_m3).toBeGreaterThan(0);
    expect(report.staysInHeaders_m3).toBe(0);
  });

  it('calls a fall between the two rules doubtful', () => {
    const least = (3.6 * tubes.sag_m) / tubes.span_m;
    const asked = (4 * tubes.sag_m) / tubes.span_m;
    expect(judgeDrain([{ ...tubes, fall: (least + asked) / 2 }], 0).verdict).toBe('doubtful');
    expect(judgeDrain([{ ...tubes, fall: asked * 1.0001 }], 0).verdict).toBe('drains');
    expect(judgeDrain([{ ...tubes, fall: asked * 1.0001 }], 0.002).verdict).toBe('doubtful');
    expect(judgeDrain([{ ...tubes, fall: least * 0.99 }], 0).verdict).toBe('holds');
  });

  it('keeps everything when no air enters or no way is open', () => {
    for (const [change, cause] of [
      [{ airAbove: false }, 'noAir'],
      [{ wayOpen: false }, 'noWay'],
    ] as const) {
      const report = judgeDrain([{ ...tubes, ...change }], 0);
      expect(report.findings[0]!.cause).toBe(cause);
      expect(report.staysInTubes_m3).toBeCloseTo(full(tubes), 12);
    }
  });

  it('holds a wedge when the pipe falls away from its way out', () => {
    const run = { ...headers, sag_m: 0, fall: -0.05, count: 1 };
    // 0.05 × 1.6 m = 80 mm, more than the bore: full from where the wedge is as deep as the bore.
    const wedge = standingWater(run);
    expect(wedge).toBeGreaterThan(full(run) * (1 - 0.0409 / 0.08));
    expect(wedge).toBeLessThan(full(run));
    expect(judgeDrain([run], 0).findings[0]!.cause).toBe('awayFromDrain');
  });

  it('holds less the more it falls, nothing from the least fall on, never more than it can hold', () => {
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 0.03, noNaN: true }),
        fc.double({ min: 0, max: 0.01, noNaN: true }),
        fc.double({ min: 0.0001, max: 0.02, noNaN: true }),
        (fall, more, sag) => {
          const run = { ...tubes, sag_m: sag, spanKind: 'simple' as const };
          const a = standingWater({ ...run, fall });
          const b = standingWater({ ...run, fall: fall + more });
          expect(b).toBeLessThanOrEqual(a + 1e-12);
          expect(a).toBeLessThanOrEqual(full({ ...run, count: 1 }));
          // 40 steps a span find the lip to a few micrometres of height.
          if (fall > (3.2 * sag) / run.span_m) expect(a).toBeLessThan(1e-3 * full({ ...run, count: 1 }));
        },
      ),
    );
  });

  it('fills a sagged level span to its supports: a shallow pocket by hand', () => {
    // Level, sag far over the bore: the pipe is full where it hangs a bore or more under the support.
    const deep = standingWater({ ...tubes, fall: 0, sag_m: 0.5, spanKind: 'simple' });
    expect(deep / full({ ...tubes, count: 1 })).toBeGreaterThan(0.95);
  });

  it('refuses what has no size, and NaN', () => {
    for (const bad of [
      { length_m: 0 },
      { bore_m: Number.NaN },
      { span_m: -1 },
      { sag_m: Number.NaN },
      { fall: Number.NaN },
    ])
      expect(() => judgeDrain([{ ...tubes, ...bad }], 0)).toThrow(DomainError);
    expect(() => judgeDrain([tubes], -1)).toThrow(DomainError);
  });
});
