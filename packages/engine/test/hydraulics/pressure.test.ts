import { describe, expect, it } from 'vitest';
import type { NetworkDescription, NetworkSolution } from '../../src/hydraulics/network-types';
import {
  endPressures,
  gradePressure,
  lowestPressure,
  suctionHeadAvailable,
} from '../../src/hydraulics/pressure';
import { DomainError } from '../../src/numeric/errors';

const pipe = { kind: 'pipe', length_m: 1, bore_m: 0.05, roughness_m: 1.5e-6 } as const;
const network: NetworkDescription = {
  referenceDensity_kgm3: 1000,
  viscosity_Pas: 1e-3,
  nodes: [0, 1, 2].map((i) => ({ id: `n${i}`, elevation_m: i })),
  links: [
    { id: 'a', from: 0, to: 1, law: pipe },
    { id: 'b', from: 1, to: 2, law: pipe },
  ],
  tees: [],
};
const solution = {
  fromPressure_Pa: Float64Array.of(20_000, -55_000),
  toPressure_Pa: Float64Array.of(-40_000, -75_000),
} as unknown as NetworkSolution;

describe('absolute pressure', () => {
  it('warns under 50 kPa, fails under 30 kPa or near boiling', () => {
    // judgement, as the method page says
    expect(gradePressure(50_001, 4247).grade).toBe('fine');
    expect(gradePressure(49_999, 4247).grade).toBe('warn');
    expect(gradePressure(29_999, 4247)).toEqual({ grade: 'fail', margin_Pa: -1 });
    expect(gradePressure(40_000, 31_200).grade).toBe('fail'); // 70 °C water
  });

  it('finds the lowest end, and passes over links that hold air', () => {
    const ends = endPressures(network, solution, 101_325, 4247);
    expect(ends.map((e) => e.grade)).toEqual(['fine', 'fine', 'warn', 'fail']);
    expect(lowestPressure(ends)).toMatchObject({ id: 'b', end: 'to', absolute_Pa: 26_325 });
    expect(lowestPressure(ends, new Set([1]))).toMatchObject({ id: 'a', end: 'to', absolute_Pa: 61_325 });
    expect(lowestPressure([])).toBeNull();
  });

  it('has suction head by hand', () => {
    // verified by hand: 97078/(995.65 × 9.80665) − 0.5 − 1.2
    expect(suctionHeadAvailable(101_325, 4247, 995.65, 0.5, 1.2)).toBeCloseTo(8.2424, 3);
  });

  it('refuses NaN', () => {
    for (const call of [
      () => gradePressure(Number.NaN, 0),
      () => gradePressure(1e5, Number.NaN),
      () => endPressures(network, solution, Number.NaN, 0),
      () => suctionHeadAvailable(0, 0, 1000, 0, 0),
      () => suctionHeadAvailable(1e5, -1, 1000, 0, 0),
      () => suctionHeadAvailable(1e5, 0, 0, 0, 0),
      () => suctionHeadAvailable(1e5, 0, 1000, Number.NaN, 0),
      () => suctionHeadAvailable(1e5, 0, 1000, 0, Number.NaN),
    ])
      expect(call).toThrow(DomainError);
  });
});
