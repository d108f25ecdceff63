import { describe, expect, it } from 'vitest';
import { studyBreaker } from '../../src/hydraulics/air-breaker';
import { prepareAir } from '../../src/hydraulics/air-states';
import { DomainError } from '../../src/numeric/errors';
import { atSpeed, buildLoop } from './air-loop';

const build = (openPressure_Pa: number, speed = 1) =>
  buildLoop({
    heights_m: [2.2],
    plumbing: [[0]],
    speed,
    inlet: () => ({ kind: 'vacuumBreaker', openPressure_Pa }),
  });

describe('a vacuum breaker', () => {
  it('has two operating points: a siphon, or the whole lift on the pump', () => {
    const loop = build(15_000, 0.8);
    const air = prepareAir(loop.network, loop.layout);
    const report = studyBreaker(air, 0, [loop.pump], 1.5);
    expect(report.state).toBe('either');
    expect(report.closed.pressure_Pa).toBeLessThan(0);
    expect(report.margin_Pa).toBeCloseTo(report.closed.pressure_Pa + 15_000, 9);
    // the lift that the siphon gave back costs flow
    expect(report.open.flow_m3s).toBeLessThan(report.closed.flow_m3s * 0.95);
    expect(report.open.solution.tubes.every((tube) => tube.state !== 'unfilled')).toBe(true);
    expect(report.closed.solution.tubes.every((tube) => tube.state === 'full')).toBe(true);
    expect(air.description).toBe(loop.network);
  });

  it('opens below a speed: closed just above it, open just below, and open again on the way up', () => {
    const loop = build(15_000);
    const air = prepareAir(loop.network, loop.layout);
    const { opensBelowSpeed } = studyBreaker(air, 0, [loop.pump], 1.5);
    expect(opensBelowSpeed).not.toBeNull();
    const at = (speed: number, before: Parameters<typeof air.solve>[0]) => {
      air.update(atSpeed(loop, speed));
      return air.solve(before);
    };
    const above = at(opensBelowSpeed! * 1.002, {});
    const below = at(opensBelowSpeed! * 0.998, { before: above.memory });
    const back = at(opensBelowSpeed! * 1.002, { before: below.memory });
    expect([above, below, back].map((answer) => answer.spaces[0]!.open)).toEqual([false, true, true]);
    expect(above.spaces[0]!.margin_Pa!).toBeGreaterThanOrEqual(0);
  });

  it('stays closed when nothing sucks, and cannot stay closed when it opens too easily', () => {
    const easy = build(500, 0.7);
    expect(studyBreaker(prepareAir(easy.network, easy.layout), 0, [easy.pump], 1).state).toBe('open');
    const hard = build(60_000, 0.7);
    const report = studyBreaker(prepareAir(hard.network, hard.layout), 0, [hard.pump], 1);
    expect(report.closed.holds).toBe(true);
    expect(report.opensBelowSpeed).toBeNull();
  });

  it('refuses a space without one', () => {
    const loop = buildLoop({ heights_m: [1], plumbing: [[0]] });
    const air = prepareAir(loop.network, loop.layout);
    expect(() => studyBreaker(air, 0, [loop.pump], 1)).toThrow(DomainError);
    const other = build(1000);
    const good = prepareAir(other.network, other.layout);
    expect(() => studyBreaker(good, 0, [other.pump], Number.NaN)).toThrow(DomainError);
    expect(() => studyBreaker(good, 3, [other.pump], 1)).toThrow(DomainError);
  });
});
