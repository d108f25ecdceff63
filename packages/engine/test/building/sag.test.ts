import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import {
  askedDrainingFall,
  clearSpan,
  leastDrainingFall,
  type SpanKind,
  sagOfSpan,
  spanShape,
} from '../../src/building/sag';
import { carriedWeight, pipeMass, pipeSecondMoment, pipeWeight } from '../../src/building/weight';
import { DomainError } from '../../src/numeric/errors';
import truth from '../truth/sag.json';

const { outside_m, bore_m, density_kgm3, modulus_Pa } = truth.pipe;
const mass = pipeMass(outside_m, bore_m, density_kgm3, 996);
const weight = pipeWeight(mass);
const inertia = pipeSecondMoment(outside_m, bore_m);

describe('sag', () => {
  // verified by hand: tolerance is the last digit given.
  it.each(truth.rows)('over %d m meets the hand calculation', (span, end, simple) => {
    expect(Math.abs(sagOfSpan(weight, span!, modulus_Pa, inertia, 'end') * 1e3 - end!)).toBeLessThan(0.1);
    expect(Math.abs(sagOfSpan(weight, span!, modulus_Pa, inertia, 'simple') * 1e3 - simple!)).toBeLessThan(
      0.1,
    );
  });

  it('grows with the fourth power of the span', () => {
    fc.assert(
      fc.property(fc.double({ min: 0.1, max: 3, noNaN: true }), (span) => {
        const ratio =
          sagOfSpan(weight, 2 * span, modulus_Pa, inertia, 'simple') /
          sagOfSpan(weight, span, modulus_Pa, inertia, 'simple');
        expect(ratio).toBeCloseTo(16, 9);
      }),
    );
  });

  it.each<SpanKind>(['simple', 'end'])(
    'has a shape whose steepest end slope is the draining rule: %s',
    (kind) => {
      const h = 1e-6;
      const slope = spanShape(h, kind) / h;
      // 3.2 exactly; 0.025/0.00688 = 3.63 against the rounded 3.6.
      expect(Math.abs(slope / leastDrainingFall(1, 1, kind) - 1)).toBeLessThan(0.012);
      let most = 0;
      for (let i = 0; i <= 1000; i++) most = Math.max(most, spanShape(i / 1000, kind));
      expect(most).toBeCloseTo(1, 3);
      expect(spanShape(0, kind)).toBe(0);
      expect(Math.abs(spanShape(1, kind))).toBeLessThan(1e-12);
    },
  );

  it('asks four times sag over span, and twice the height error on top', () => {
    expect(askedDrainingFall(0.003, 0.75, 0)).toBeCloseTo(0.016, 12);
    expect(askedDrainingFall(0.003, 0.75, 0.0015)).toBeCloseTo(0.02, 12);
    expect(clearSpan(0.8, 0.038)).toBeCloseTo(0.762, 12);
  });

  it('weighs pipes wet and dry', () => {
    const carried = carriedWeight([{ mass, length_m: 240 }], 12, 8);
    expect(carried.dry_kg).toBeCloseTo(54.29, 1);
    expect(carried.filled_kg).toBeCloseTo(101.2, 1);
    expect(carried.perArea_kgm2 * 12).toBeCloseTo(carried.filled_kg, 9);
    expect(carried.perSupport_N * 8).toBeCloseTo(carried.filled_kg * 9.80665, 9);
  });

  it('refuses impossible pipes, and NaN', () => {
    for (const call of [
      () => pipeMass(0.02, 0.02, 1400, 996),
      () => pipeMass(Number.NaN, 0.01, 1400, 996),
      () => pipeMass(0.02, 0.01, Number.NaN, 996),
      () => pipeMass(0.02, 0.01, 1400, -1),
      () => pipeSecondMoment(0.02, Number.NaN),
      () => carriedWeight([], 0, 1),
      () => carriedWeight([], 1, 0),
      () => carriedWeight([{ mass, length_m: Number.NaN }], 1, 1),
      () => sagOfSpan(Number.NaN, 1, 1, 1, 'end'),
      () => sagOfSpan(1, -1, 1, 1, 'end'),
      () => sagOfSpan(1, 1, 0, 1, 'end'),
      () => sagOfSpan(1, 1, 1, Number.NaN, 'end'),
      () => clearSpan(0, 0),
      () => clearSpan(1, 1),
      () => leastDrainingFall(-1, 1, 'end'),
      () => leastDrainingFall(1, 0, 'end'),
      () => askedDrainingFall(1, 1, Number.NaN),
      () => spanShape(1.1, 'end'),
    ])
      expect(call).toThrow(DomainError);
  });
});
