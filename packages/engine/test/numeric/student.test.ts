import * as fc from 'fast-check';
import { jStat } from 'jstat';
import { describe, expect, it } from 'vitest';
import { DomainError } from '../../src/numeric/errors';
import { chiSquareCdf, normalCdf, normalQuantile } from '../../src/numeric/statistics-normal';
import { lnGamma, regularisedBeta, regularisedGamma } from '../../src/numeric/statistics-special';
import { studentCdf, studentQuantile } from '../../src/numeric/student';
import truth from '../truth/student-t.json';

describe('Student t', () => {
  it.each(truth.rows)('verified, table G.2 of JCGM 100: ν = $dof at $p', ({ dof, p, t }) => {
    // the table prints two decimals
    expect(Math.abs(studentQuantile(0.5 + p / 2, dof ?? Infinity) - t)).toBeLessThanOrEqual(0.0051);
  });

  it('verified against jstat, whole and broken degrees of freedom', () => {
    for (const dof of [1, 1.7, 2, 3, 5.5, 12, 60, 1000])
      for (const p of [0.001, 0.025, 0.3, 0.5, 0.8, 0.975, 0.9995]) {
        const t = studentQuantile(p, dof);
        // jstat's beta and its inverse stop at about 1e-8
        expect(Math.abs(t - jStat.studentt.inv(p, dof))).toBeLessThan(2e-6 * (1 + Math.abs(t)));
        expect(Math.abs(studentCdf(t, dof) - p)).toBeLessThan(1e-12);
        expect(Math.abs(studentCdf(t, dof) - jStat.studentt.cdf(t, dof))).toBeLessThan(1e-7);
      }
  });

  it('has closed forms for one and two degrees of freedom', () => {
    for (const t of [-30, -2, -0.1, 0, 0.7, 4, 1e6]) {
      expect(studentCdf(t, 1)).toBeCloseTo(0.5 + Math.atan(t) / Math.PI, 13);
      expect(studentCdf(t, 2)).toBeCloseTo(0.5 + t / (2 * Math.sqrt(2 + t * t)), 13);
    }
  });

  it('is symmetric, rises with t, and runs into the normal distribution', () => {
    fc.assert(
      fc.property(
        fc.double({ min: -50, max: 50, noNaN: true }),
        fc.double({ min: 0.5, max: 1e6, noNaN: true }),
        (t, dof) => {
          expect(studentCdf(t, dof) + studentCdf(-t, dof)).toBeCloseTo(1, 12);
          expect(studentCdf(t + 0.5, dof)).toBeGreaterThanOrEqual(studentCdf(t, dof));
        },
      ),
    );
    expect(studentQuantile(0.975, 1e8)).toBeCloseTo(normalQuantile(0.975), 12);
    expect(studentQuantile(0.975, 9e6)).toBeCloseTo(normalQuantile(0.975), 5);
  });

  it('refuses what is no probability and no degree of freedom', () => {
    expect(() => studentQuantile(1, 3)).toThrow(DomainError);
    expect(() => studentQuantile(Number.NaN, 3)).toThrow(DomainError);
    expect(() => studentCdf(1, 0)).toThrow(DomainError);
    expect(() => studentCdf(Number.NaN, 3)).toThrow(DomainError);
  });
});

describe('normal and chi-square', () => {
  it('verified against jstat', () => {
    for (const x of [-8, -5.01, -4.99, -2, -0.3, 0, 1, 3, 6])
      expect(Math.abs(normalCdf(x) / jStat.normal.cdf(x, 0, 1) - 1)).toBeLessThan(x < -4 ? 0.02 : 1e-10); // jstat's erfc is rough far out
    for (const [x, dof] of [
      [0.5, 1],
      [3.841459, 1],
      [2, 5],
      [30, 20],
    ] as const)
      expect(chiSquareCdf(x, dof)).toBeCloseTo(jStat.chisquare.cdf(x, dof), 9);
  });

  it('quantile inverts the distribution function, far tails included', () => {
    for (const p of [1e-300, 1e-20, 1e-6, 0.01, 0.4, 0.5])
      expect(Math.abs(normalCdf(normalQuantile(p)) / p - 1)).toBeLessThan(1e-9);
    expect(normalQuantile(0.975)).toBeCloseTo(1.9599639845, 9);
  });

  it('has no step where the far tail takes over', () => {
    expect(normalCdf(-5 - 1e-9) / normalCdf(-5 + 1e-9)).toBeCloseTo(1, 7);
  });
});

describe('special functions', () => {
  it('ln Γ of whole numbers is the logarithm of a factorial', () => {
    let logFactorial = 0;
    for (let n = 1; n < 60; n++) {
      expect(lnGamma(n)).toBeCloseTo(logFactorial, 10);
      logFactorial += Math.log(n);
    }
    expect(lnGamma(0.5)).toBeCloseTo(0.5 * Math.log(Math.PI), 13);
    expect(lnGamma(0.1)).toBeCloseTo(jStat.gammaln(0.1), 10);
  });

  it('incomplete beta and gamma meet jstat and their reflections', () => {
    expect(regularisedBeta(0.3, 2.5, 0.5)).toBeCloseTo(jStat.beta.cdf(0.3, 2.5, 0.5), 10);
    expect(regularisedBeta(0.3, 2.5, 0.5) + regularisedBeta(0.7, 0.5, 2.5)).toBeCloseTo(1, 13);
    expect(regularisedGamma(1, 2)).toBeCloseTo(1 - Math.exp(-2), 14);
    expect(regularisedGamma(3, 0)).toBe(0);
    expect(regularisedGamma(3, Infinity)).toBe(1);
    expect(() => regularisedGamma(-1, 1)).toThrow(DomainError);
    expect(() => regularisedBeta(1.1, 1, 1)).toThrow(DomainError);
    expect(() => lnGamma(0)).toThrow(DomainError);
  });
});
