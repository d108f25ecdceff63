import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { liftingFlow, pathLoss } from '../../src/hydraulics/start-path';
import { DomainError } from '../../src/numeric/errors';
import truth from '../truth/start-lift.json';

const { lower, density_kgm3: ρ, viscosity_Pas: µ } = truth;

describe('flow that lifts water into a higher path', () => {
  it('meets the hand calculation', () => {
    const found = liftingFlow(lower, truth.lift_m, ρ, µ);
    expect(Math.abs(found.velocity_ms - truth.velocity_ms)).toBeLessThan(0.001);
    expect(Math.abs(found.flow_m3s * 60_000 - truth.flow_Lmin)).toBeLessThan(0.1);
  });

  it('loses exactly the lift, and more flow lifts higher', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.001, max: 30, noNaN: true }), (lift) => {
        const found = liftingFlow(lower, lift, ρ, µ);
        expect(Math.abs(pathLoss(lower, found.velocity_ms, ρ, µ) / lift - 1)).toBeLessThan(1e-9);
        expect(liftingFlow(lower, lift * 1.01, ρ, µ).flow_m3s).toBeGreaterThan(found.flow_m3s);
      }),
    );
  });

  it('refuses NaN', () => {
    for (const call of [
      () => liftingFlow(lower, 0, ρ, µ),
      () => liftingFlow(lower, Number.NaN, ρ, µ),
      () => liftingFlow({ ...lower, tubes: 0 }, 1, ρ, µ),
      () => liftingFlow({ ...lower, bore_m: Number.NaN }, 1, ρ, µ),
      () => liftingFlow({ ...lower, length_m: 0 }, 1, ρ, µ),
      () => liftingFlow({ ...lower, minorLoss: -1 }, 1, ρ, µ),
      () => pathLoss(lower, 0, ρ, µ),
      () => pathLoss(lower, 1, Number.NaN, µ),
      () => pathLoss(lower, 1, ρ, 0),
    ])
      expect(call).toThrow(DomainError);
  });
});
