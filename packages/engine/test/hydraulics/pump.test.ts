import { describe, expect, test } from 'vitest';
import { preparePump, pumpHead, pumpPower } from '../../src/hydraulics/pump';
import { shelfCurve, shelfPump } from '../../src/hydraulics/pump-shelf';
import { DomainError } from '../../src/numeric/errors';

const points = { kind: 'points', flow_m3s: [1e-3, 3e-3, 5e-3], head_m: [16, 12, 5] } as const;
const fromRest = { kind: 'points', flow_m3s: [0, 2e-3, 4e-3, 6e-3], head_m: [18, 17, 12, 1] } as const;
const parabola = { kind: 'parabola', shutOffHead_m: 20, coefficient_s2m5: 5e5 } as const;

describe('curve', () => {
  test('passes through its points', () => {
    for (const curve of [points, fromRest])
      for (const [i, q] of curve.flow_m3s.entries())
        expect(pumpHead(preparePump(curve), 1, q)).toBeCloseTo(curve.head_m[i]!, 12);
  });

  test('falls everywhere, backwards flow included, with the slope it says', () => {
    const out = { value: 0, slope: 0 };
    for (const curve of [points, fromRest, parabola]) {
      const pump = preparePump(curve);
      let before = Infinity;
      for (let q = -8e-3; q < 12e-3; q += 3.7e-5) {
        const value = pumpHead(pump, 1, q);
        expect(value).toBeLessThan(before);
        before = value;
        const difference = (pumpHead(pump, 1, q + 1e-9) - pumpHead(pump, 1, q - 1e-9)) / 2e-9;
        pump.head(q, out);
        expect(Math.abs(out.slope - difference)).toBeLessThan(0.01);
      }
    }
  });

  test('an even parabola below the first point, a steep line above the last', () => {
    const pump = preparePump(points);
    const at = (q: number) => pumpHead(pump, 1, q);
    const bend = (at(0) - at(0.5e-3)) / 0.5e-3 ** 2;
    expect(at(0) - at(0.8e-3)).toBeCloseTo(bend * 0.8e-3 ** 2, 9);
    expect(at(0)).toBe(pump.shutOffHead_m);
    const slope = (at(7e-3) - at(6e-3)) / 1e-3;
    expect(-slope).toBeGreaterThanOrEqual((2 * (at(0) - 5)) / 5e-3 - 1e-6);
  });

  test('affinity: half the speed, half the flow, a quarter of the head', () => {
    for (const curve of [points, parabola]) {
      const pump = preparePump(curve);
      expect(pumpHead(pump, 0.5, 1e-3)).toBeCloseTo(pumpHead(pump, 1, 2e-3) / 4, 12);
    }
    expect(pumpHead(preparePump(points), 0, 1e-3)).toBe(0);
  });

  test.each([
    { ...points, head_m: [16, 17, 5] },
    { ...points, flow_m3s: [1e-3, 1e-3, 5e-3] },
    { ...points, flow_m3s: [-1e-3, 1e-3, 5e-3] },
    { ...points, head_m: [-1, -2, -5] },
    { ...points, head_m: [16, 12] },
    { ...parabola, shutOffHead_m: 0 },
    { ...parabola, coefficient_s2m5: Number.NaN },
  ])('refuses a curve that is none: %j', (curve) => {
    expect(() => preparePump(curve)).toThrow(DomainError);
  });
});

describe('power', () => {
  test('from efficiency and from points, with the drive’s own load', () => {
    const wet = (1000 * 9.80665 * 0.003 * 12) / 0.4;
    const byEfficiency = { kind: 'efficiency', wireToWater: 0.4 } as const;
    expect(pumpPower(byEfficiency, 20, 1, 0.003, 12, 1000, 9.80665)).toBeCloseTo(20 + wet, 9);
    const byPoints = { kind: 'points', flow_m3s: [0, 4e-3], power_W: [500, 900] } as const;
    expect(pumpPower(byPoints, 20, 0.5, 1e-3, 5, 1000, 9.80665)).toBeCloseTo(20 + 700 / 8, 9);
    expect(pumpPower(byPoints, 20, 0, 0, 0, 1000, 9.80665)).toBe(0);
    expect(() => pumpPower({ kind: 'efficiency', wireToWater: 0 }, 0, 1, 1e-3, 5, 1000, 9.8)).toThrow(
      DomainError,
    );
  });
});

describe('shelf', () => {
  test('about one horsepower lies in the range of common practice', () => {
    // common practice: 18–22 m, 5.5–6.5 L/s, 30–45 %, from memory
    const pump = shelfPump(745.7);
    expect(pump.shutOffHead_m).toBeGreaterThan(18);
    expect(pump.shutOffHead_m).toBeLessThan(22);
    expect(pump.mostFlow_m3s).toBeGreaterThan(5.5e-3);
    expect(pump.mostFlow_m3s).toBeLessThan(6.5e-3);
    expect(shelfPump(1491.4).shutOffHead_m).toBeGreaterThan(pump.shutOffHead_m);
  });

  test('one measured point moves the curve through it', () => {
    const curve = shelfCurve(shelfPump(745.7), { flow_m3s: 0.003, head_m: 11 });
    expect(pumpHead(preparePump(curve), 1, 0.003)).toBeCloseTo(11, 12);
    const own = shelfCurve(shelfPump(745.7));
    const same = shelfCurve(shelfPump(745.7), {
      flow_m3s: 0.003,
      head_m: pumpHead(preparePump(own), 1, 0.003),
    });
    expect(same.shutOffHead_m).toBeCloseTo(own.shutOffHead_m, 12);
    expect(same.coefficient_s2m5).toBeCloseTo(own.coefficient_s2m5, 6);
  });

  test('refuses what nobody sells', () => {
    expect(() => shelfPump(10)).toThrow(DomainError);
    expect(() => shelfCurve(shelfPump(745.7), { flow_m3s: 0.003, head_m: 0 })).toThrow(DomainError);
  });
});
