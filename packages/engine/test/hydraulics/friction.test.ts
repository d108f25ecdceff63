import { describe, expect, test } from 'vitest';
import { coil, coilCriticalReynolds, frictionFactorCoil } from '../../src/hydraulics/coil';
import {
  churchill,
  friction,
  frictionFactorBlasius,
  frictionFactorChurchill,
  frictionFactorLaminar,
} from '../../src/hydraulics/friction';
import { DomainError } from '../../src/numeric/errors';
import { findRoot } from '../../src/numeric/roots';
import truth from '../truth/churchill-friction.json';

const out = { f: 0, reSlope: 0 };

/** Churchill as printed, with general powers. */
function printed(re: number, e: number): number {
  const a = (-2.457 * Math.log((7 / re) ** 0.9 + 0.27 * e)) ** 16;
  const b = (37530 / re) ** 16;
  return 8 * ((8 / re) ** 12 + (a + b) ** -1.5) ** (1 / 12);
}

describe('Churchill', () => {
  // verified: computed from the printed equation; tolerance is the last digit given
  test.each(truth.rows)('ε/D $relRoughness, Re $re → $f', ({ relRoughness, re, f }) => {
    expect(Math.abs(frictionFactorChurchill(re, relRoughness) - f)).toBeLessThan(5.1e-8);
  });

  test('is the printed form to rounding over the whole range', () => {
    for (let re = 1; re < 1e8; re *= 1.07) {
      for (const e of [0, 1e-5, 1e-3, 0.05])
        expect(Math.abs(frictionFactorChurchill(re, e) / printed(re, e) - 1)).toBeLessThan(1e-13);
    }
  });

  test('keeps to 64/Re and to Colebrook as its description says', () => {
    for (let re = 10; re <= 2000; re += 10)
      expect(Math.abs((frictionFactorChurchill(re, 0) * re) / 64 - 1)).toBeLessThan(0.0014);
    for (let re = 4000; re < 1e7; re *= 1.3) {
      for (const e of [0, 1e-4, 1e-2]) {
        const colebrook = findRoot(
          (f) => 1 / Math.sqrt(f) + 2 * Math.log10(e / 3.7 + 2.51 / (re * Math.sqrt(f))),
          1e-3,
          1,
        ).root;
        expect(Math.abs(frictionFactorChurchill(re, e) / colebrook - 1)).toBeLessThan(0.031);
      }
    }
  });
});

describe('slopes', () => {
  const step = 1e-6;
  function check(of: (re: number) => void, re: number): void {
    of(re * (1 + step));
    const above = out.f;
    of(re * (1 - step));
    const slope = (above - out.f) / (2 * step);
    of(re);
    // central difference of step 1e-6: good to about 1e-9 of f
    expect(Math.abs(out.reSlope - slope)).toBeLessThan(1e-7 * Math.max(1, Math.abs(slope)));
  }
  const reynolds = [3, 600, 1850, 1960, 2300, 3100, 3990, 4100, 4380, 5800, 6100, 2e4, 3e6];
  test.each(reynolds)('every law at Re %d', (re) => {
    for (const e of [0, 1e-3]) {
      check((x) => churchill(x, e, out), re);
      for (const law of ['laminar', 'blasius'] as const) check((x) => friction(law, x, e, out), re);
      for (const ratio of [0.01, 0.05]) {
        const critical = coilCriticalReynolds(ratio);
        check((x) => coil(x, e, ratio, critical, out), re);
        check((x) => coil(x, e, ratio, critical, out), critical * (0.85 + re / 1e7));
      }
    }
  });
});

describe('where friction is not known', () => {
  test('the two other laws hold between Re 2000 and 4000 and nowhere beyond their edges', () => {
    friction('laminar', 2206, 0, out);
    expect(out.f).toBeCloseTo(0.029, 4);
    friction('blasius', 2206, 0, out);
    expect(out.f).toBeCloseTo(0.0462, 4);
    expect(frictionFactorBlasius(2206)).toBe(out.f);
    for (const law of ['laminar', 'blasius'] as const)
      for (const re of [1799, 4401, 1e5]) {
        friction(law, re, 1e-4, out);
        expect(out.f).toBe(frictionFactorChurchill(re, 1e-4));
      }
    expect(frictionFactorLaminar(500)).toBe(0.128);
  });

  test('no law jumps', () => {
    for (const law of ['churchill', 'laminar', 'blasius'] as const) {
      friction(law, 1500, 0, out);
      let before = out.f;
      let most = 0;
      for (let re = 1500; re < 5000; re += 0.5) {
        friction(law, re, 0, out);
        most = Math.max(most, Math.abs(out.f - before));
        before = out.f;
      }
      expect(most).toBeLessThan(1e-4);
    }
  });
});

describe('coil', () => {
  test('bends add to laminar and turbulent friction as published', () => {
    // common practice: Mishra & Gupta, Ito; from memory
    expect(frictionFactorCoil(1000, 0, 0.05) / 0.064).toBeCloseTo(
      1 + 0.033 * Math.log10(1000 * Math.sqrt(0.05)) ** 4,
      12,
    );
    expect(frictionFactorCoil(3e4, 0, 0.05) - frictionFactorChurchill(3e4, 0)).toBeCloseTo(
      0.03 * Math.sqrt(0.05),
      12,
    );
    expect(coilCriticalReynolds(0.05)).toBeCloseTo(7668, 0);
  });

  test('a very wide coil is a straight pipe', () => {
    expect(frictionFactorCoil(800, 0, 1e-6)).toBeCloseTo(0.08, 6);
    expect(frictionFactorCoil(1e5, 1e-4, 1e-8) / frictionFactorChurchill(1e5, 1e-4)).toBeCloseTo(1, 3);
  });
});

test.each([Number.NaN, 0, -1, Infinity])('Re %d is refused by all', (re) => {
  expect(() => frictionFactorChurchill(re, 0)).toThrow(DomainError);
  expect(() => frictionFactorLaminar(re)).toThrow(DomainError);
  expect(() => frictionFactorBlasius(re)).toThrow(DomainError);
  expect(() => frictionFactorCoil(re, 0, 0.1)).toThrow(DomainError);
  expect(() => frictionFactorChurchill(1e4, 0.06)).toThrow(DomainError);
  expect(() => frictionFactorCoil(1e4, 0, 0.6)).toThrow(DomainError);
});
