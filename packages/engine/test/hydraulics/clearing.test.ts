import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { airClearing, pocketVelocity, sweepVelocity } from '../../src/hydraulics/clearing';
import { DomainError } from '../../src/numeric/errors';
import truth from '../truth/air-clearing.json';

const bore = truth.bore_m;

describe('air carried by water', () => {
  it.each(truth.rows)('clears large pockets at %d° as by hand', (angle, velocity) => {
    expect(Math.abs(pocketVelocity(bore, angle!, 'large') - velocity!)).toBeLessThan(0.001);
  });

  it('has the strict figure by hand', () => {
    // verified by hand: √(9.80665 × 0.0158) = 0.39363 m/s.
    expect(sweepVelocity(bore, 0)).toBeCloseTo(0.825 * 0.39363, 4);
    expect(sweepVelocity(bore, 90)).toBeCloseTo(1.075 * 0.39363, 4);
  });

  it('has three grades in a pipe that falls', () => {
    const { holdsBelow_ms, clearsFrom_ms } = airClearing(0.3, bore, 20);
    expect(holdsBelow_ms).toBeLessThan(clearsFrom_ms);
    expect(airClearing(holdsBelow_ms * 0.99, bore, 20).grade).toBe('holds');
    expect(airClearing((holdsBelow_ms + clearsFrom_ms) / 2, bore, 20).grade).toBe('doubtful');
    expect(airClearing(clearsFrom_ms, bore, 20).grade).toBe('clears');
  });

  it('lets air go ahead of water that rises, and keeps it in standing water', () => {
    expect(airClearing(0.2, bore, -30).grade).toBe('clears');
    expect(airClearing(0.05, bore, -30).grade).toBe('doubtful');
    expect(airClearing(0, bore, -30).grade).toBe('holds');
    expect(airClearing(0, bore, 0).grade).toBe('holds');
    expect(airClearing(-0.2, bore, 30).grade).toBe(airClearing(0.2, bore, -30).grade);
  });

  it('grades a level pipe as the sources do, and one a hair from level alike', () => {
    // by hand: Escarameia's small pockets 0.45 × 0.39363 = 0.177 m/s, Wisner's 0.825 × 0.39363 = 0.325 m/s
    const level = airClearing(0.2, bore, 0);
    expect(level.holdsBelow_ms).toBeCloseTo(0.1771, 4);
    expect(level.clearsFrom_ms).toBeCloseTo(0.3247, 4);
    for (const hair of [1e-4, -1e-4]) {
      const near = airClearing(0.2, bore, hair);
      expect(near.grade).toBe('doubtful');
      // √sin of a ten-thousandth of a degree is 0.0013
      expect(Math.abs(near.clearsFrom_ms - level.clearsFrom_ms)).toBeLessThan(0.001);
      expect(Math.abs(near.holdsBelow_ms - level.holdsBelow_ms)).toBeLessThan(0.001);
    }
    expect(airClearing(0.2, bore, -1).grade).toBe('clears');
  });

  it('never gets worse with more velocity, nor better with more fall', () => {
    const rank = { holds: 0, doubtful: 1, clears: 2 } as const;
    fc.assert(
      fc.property(
        fc.double({ min: 0, max: 2, noNaN: true }),
        fc.double({ min: 0, max: 1, noNaN: true }),
        fc.double({ min: 0.005, max: 0.1, noNaN: true }),
        fc.double({ min: -90, max: 90, noNaN: true }),
        (v, more, d, angle) => {
          expect(rank[airClearing(v + more, d, angle).grade]).toBeGreaterThanOrEqual(
            rank[airClearing(v, d, angle).grade],
          );
          expect(rank[airClearing(v, d, Math.min(90, angle + 10)).grade]).toBeLessThanOrEqual(
            rank[airClearing(v, d, angle).grade],
          );
        },
      ),
    );
  });

  it('refuses NaN and impossible pipes', () => {
    for (const call of [
      () => airClearing(Number.NaN, bore, 0),
      () => airClearing(1, 0, 0),
      () => airClearing(1, bore, 91),
      () => pocketVelocity(bore, -1, 'large'),
      () => sweepVelocity(Number.NaN, 0),
      () => sweepVelocity(-1, 0),
    ])
      expect(call).toThrow(DomainError);
  });
});
