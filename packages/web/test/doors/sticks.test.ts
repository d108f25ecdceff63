import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { beside, lengthsOfSticks, nearest, stickOf } from '../../src/home/sticks';

describe('lengths of whole sticks', () => {
  const lengths = lengthsOfSticks({}, 'pvc-sch40-1/2');

  it('leave no offcut: parts and multiples of what is sold', () => {
    const stick = stickOf({}, 'pvc-sch40-1/2');
    expect(lengths).toContain(stick);
    expect(lengths).toContain(Number((stick / 2).toFixed(4)));
    expect(lengths).toContain(Number((2 * stick).toFixed(4)));
    expect([...lengths].sort((a, b) => a - b)).toEqual(lengths);
  });

  it('follow the sticks that the person buys', () => {
    const prices = {
      currency: 'EUR',
      asOf: '2026-01-01',
      parts: [
        { part: 'pvcu-pn16-20', price: 5, stockLength_m: 4 },
        { part: 'pvcu-pn16-20', stockLength_m: 3, notSold: true },
      ],
    };
    expect(lengthsOfSticks({ prices }, 'pvcu-pn16-20')).toEqual([1.3333, 2, 4, 8, 12, 16, 20, 24]);
  });

  it('step to the next one and stay at the ends', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.5, max: 40, noNaN: true }), (v) => {
        const at = nearest(lengths, v);
        expect(lengths).toContain(at);
        const up = beside(lengths, at, 1);
        expect(up).toBeGreaterThanOrEqual(at);
        if (up > at) expect(beside(lengths, up, -1)).toBe(at);
      }),
    );
    expect(beside(lengths, lengths.at(-1)!, 1)).toBe(lengths.at(-1));
  });
});
