import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { elapsed_s, readRunning, watchText } from '../../src/sheets/testday/stopwatch';

const START = Date.UTC(2026, 3, 12, 17);
const kept = JSON.stringify({ project: 'p1', day: 'day-2026-04-12', what: 'pail', started: START });

describe('the stopwatch', () => {
  it('shows the time since its start, whatever happened in between', () => {
    const watch = readRunning(kept, START + 14_430)!;
    expect(elapsed_s(watch, START + 14_430)).toBe(14.43);
    expect(watchText(14.43)).toBe('0:14.4');
    expect(watchText(723.1)).toBe('12:03.1');
    expect(watchText(0)).toBe('0:00.0');
  });

  it('never runs backwards, not even when the clock is set back', () => {
    expect(elapsed_s({ started: START }, START - 5000)).toBe(0);
    fc.assert(
      fc.property(fc.nat(1e8), fc.nat(1e6), (a, more) => {
        expect(elapsed_s({ started: START }, START + a + more)).toBeGreaterThanOrEqual(
          elapsed_s({ started: START }, START + a),
        );
      }),
    );
  });

  it('forgets a watch of yesterday, and what is no watch', () => {
    expect(readRunning(kept, START + 13 * 3600_000)).toBeNull();
    expect(readRunning(kept, START - 1)).toBeNull();
    for (const text of [null, '', '{', '3', '{"started":"x"}', '{"started":1}'])
      expect(readRunning(text, START)).toBeNull();
  });
});
