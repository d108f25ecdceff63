import { describe, expect, test } from 'vitest';
import { type FilterCoefficients, filterFromLoss } from '../../src/hydraulics/filter';
import {
  contractionLoss,
  enlargementLoss,
  FITTING_LOSS,
  reducerLoss,
  sizedFittingLoss,
  turbulentFriction,
} from '../../src/hydraulics/fitting-loss';
import { threeWayKv, valveKv } from '../../src/hydraulics/valve';
import { DomainError } from '../../src/numeric/errors';

/** Δp = k1·µ·Q + k2·ρ·Q·|Q| (Ergun's form). */
const ergun = ({ k1, k2 }: FilterCoefficients, flow: number, density: number, viscosity: number): number =>
  k1 * viscosity * flow + k2 * density * flow * Math.abs(flow);

describe('changes of bore', () => {
  test('Borda–Carnot and Idelchik at their limits', () => {
    expect(enlargementLoss(0.02, 0.04)).toBe(0.5625);
    expect(enlargementLoss(0.02, 0.02)).toBe(0);
    expect(contractionLoss(1e6, 0.02)).toBeCloseTo(FITTING_LOSS.entranceSharp, 6);
    expect(enlargementLoss(0.02, 1e6)).toBeCloseTo(FITTING_LOSS.exit, 6);
    expect(reducerLoss(0.04, 0.02)).toBe(contractionLoss(0.04, 0.02));
    expect(reducerLoss(0.02, 0.04)).toBe(enlargementLoss(0.02, 0.04));
  });

  test('bores that are none are refused', () => {
    expect(() => enlargementLoss(0, 1)).toThrow(DomainError);
    expect(() => enlargementLoss(0.02, 0.01)).toThrow(DomainError);
    expect(() => reducerLoss(Number.NaN, 0.01)).toThrow(DomainError);
  });
});

describe('fittings by size', () => {
  test('are scaled as in the handbook’s table of friction factors', () => {
    // Crane TP-410 (2009), table of f_T for clean commercial steel, from memory: last digit
    for (const [bore_m, fT] of [
      [0.0158, 0.026],
      [0.0209, 0.024],
      [0.0266, 0.022],
      [0.0351, 0.021],
      [0.0409, 0.02],
      [0.0525, 0.019],
      [0.0779, 0.017],
    ] as const)
      expect(Math.abs(turbulentFriction(bore_m) - fT)).toBeLessThanOrEqual(0.0005 + 1e-4);
    expect(sizedFittingLoss('elbow90', 0.0525)).toBeCloseTo(0.57, 2);
    expect(sizedFittingLoss('teeBranch', 0.0525)).toBeCloseTo(2 * sizedFittingLoss('elbow90', 0.0525), 12);
    // by hand: log10(4.572e-5/0.0409/3.7) = −3.5199, 0.25/12.390 = 0.02018
    expect(turbulentFriction(0.0409)).toBeCloseTo(0.02018, 5);
  });

  test('lose less in larger pipe, and are refused in none', () => {
    expect(sizedFittingLoss('elbow90', 0.0158)).toBeGreaterThan(1.3 * sizedFittingLoss('elbow90', 0.0525));
    expect(() => turbulentFriction(0)).toThrow(DomainError);
    expect(() => sizedFittingLoss('elbow45', Number.NaN)).toThrow(DomainError);
  });
});

describe('valve', () => {
  test('follows its points, and shut is shut', () => {
    const valve = { kvs_m3h: 20, opening: [0, 0.5, 1], share: [0, 0.1, 1] };
    expect(valveKv(valve, 0)).toBe(0);
    expect(valveKv(valve, 0.5)).toBeCloseTo(2, 12);
    expect(valveKv(valve, 0.75)).toBeCloseTo(11, 12);
    expect(valveKv({ kvs_m3h: 20 }, 1)).toBe(20);
    expect(() => valveKv(valve, 1.1)).toThrow(DomainError);
    expect(() => valveKv(valve, Number.NaN)).toThrow(DomainError);
  });

  test('a three-way valve shares one opening', () => {
    expect(threeWayKv({ kvs_m3h: 20 }, 0.75)).toEqual({ collector_m3h: 15, past_m3h: 5 });
    expect(threeWayKv({ kvs_m3h: 20 }, 1)).toEqual({ collector_m3h: 20, past_m3h: 0 });
  });
});

describe('filter', () => {
  test('passes through the loss it was made from, and dirt raises the viscous part only', () => {
    const clean = filterFromLoss(20e3, 0.003, 0.7, 0, 996, 8e-4);
    expect(ergun(clean, 0.003, 996, 8e-4)).toBeCloseTo(20e3, 6);
    const dirty = filterFromLoss(20e3, 0.003, 0.7, 1, 996, 8e-4);
    expect(ergun(dirty, 0.003, 996, 8e-4)).toBeCloseTo(34e3, 6);
    expect(ergun(clean, -0.003, 996, 8e-4)).toBeCloseTo(-20e3, 6);
  });

  test.each([
    [-1, 1, 0.5, 0],
    [1, 0, 0.5, 0],
    [1, 1, 1.5, 0],
    [1, 1, 0.5, Number.NaN],
  ])('loss %d at flow %d, share %d, dirt %d is refused', (loss, flow, share, dirt) => {
    expect(() => filterFromLoss(loss, flow, share, dirt, 1000, 1e-3)).toThrow(DomainError);
  });
});
