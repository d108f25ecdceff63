import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { type Schedule, scheduleShare } from '../../src/pool/schedule';

const all = new Array<boolean>(12).fill(true);
const night: Schedule = { months: all, from_h: 20, to_h: 8 };

describe('schedules', () => {
  it('run over midnight, split hours, keep months and weekdays', () => {
    expect(scheduleShare(night, 0, 0, 7.5, 1)).toBe(0.5);
    expect(scheduleShare(night, 0, 0, 23, 1)).toBe(1);
    expect(scheduleShare(night, 0, 0, 23.5, 1)).toBe(1);
    expect(scheduleShare(night, 0, 0, 12, 1)).toBe(0);
    expect(scheduleShare({ ...night, months: all.map((_, m) => m > 3) }, 0, 0, 23, 1)).toBe(0);
    const weekend = [false, false, false, false, false, true, true];
    expect(scheduleShare({ ...night, weekdays: weekend }, 0, 4, 23, 1)).toBe(0);
    expect(scheduleShare({ ...night, weekdays: weekend }, 0, 5, 23, 1)).toBe(1);
    expect(scheduleShare({ months: all, from_h: 6, to_h: 6 }, 5, 0, 3, 1)).toBe(1);
  });

  it('a day’s shares add up to its hours', () => {
    const hour = fc.double({ min: 0, max: 24, noNaN: true });
    fc.assert(
      fc.property(
        hour,
        hour,
        fc.constantFrom(0.25, 0.5, 1, 2),
        fc.double({ min: 0, max: 0.999, noNaN: true }),
        (from_h, to_h, step, offset) => {
          let on = 0;
          for (let h = 0; h < 24; h += step) {
            const start = (h + offset) % 24;
            on += step * scheduleShare({ months: all, from_h, to_h }, 0, 0, start, step);
          }
          expect(on).toBeCloseTo(to_h > from_h ? to_h - from_h : to_h + 24 - from_h, 6);
        },
      ),
      { seed: 1, numRuns: 100 },
    );
  });

  it('refuses months, hours and intervals that are none', () => {
    expect(() => scheduleShare({ ...night, months: [true] }, 0, 0, 0, 1)).toThrow(DomainError);
    expect(() => scheduleShare(night, 12, 0, 0, 1)).toThrow(DomainError);
    expect(() => scheduleShare(night, 0, 0, Number.NaN, 1)).toThrow(DomainError);
    expect(() => scheduleShare(night, 0, 0, 0, 0)).toThrow(DomainError);
    expect(() => scheduleShare({ ...night, weekdays: [true] }, 0, 0, 0, 1)).toThrow(DomainError);
  });
});
