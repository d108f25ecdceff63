import { describe, expect, test } from 'vitest';
import { manifold } from '../../src/hydraulics/manifold';
import {
  headerNumber,
  MOST_OPPOSITE,
  oppositeEndShares,
  sameEndShares,
} from '../../src/hydraulics/manifold-closed-form';
import { prepareNetwork } from '../../src/hydraulics/network';
import { GRAVITY_MS2 } from '../../src/numeric/constants';
import { DomainError } from '../../src/numeric/errors';
import constant from '../truth/constant-manifold.json';
import closedForm from '../truth/manifold-closed-form.json';

const ENDS = [
  { name: 'same', outlet: 'start' },
  { name: 'opposite', outlet: 'end' },
] as const;

/** First and last tube over the mean: frictionless headers, ideal tees, header number m. */
function discrete(m: number, tubes: number, outlet: 'start' | 'end'): [number, number] {
  const a = 0.1;
  const bore_m = 0.0158;
  const pipe = { bore_m, length_m: 0, roughness_m: 0 };
  const bank = manifold({
    tubes,
    tube: { ...pipe, minorLoss: (tubes * a) ** 2 / m - 1.5 },
    header: { ...pipe, bore_m: bore_m / Math.sqrt(a), minorLoss: 0 },
    inlet: 'start',
    outlet,
    flow_kgs: tubes * 0.1,
    density_kgm3: 1000,
    viscosity_Pas: 1e-3,
  });
  const solution = prepareNetwork(bank.description).solve({ tees: 'ideal' });
  expect(solution.report.converged).toBe(true);
  return [solution.flow_kgs[bank.tubes[0]!]! * 10, solution.flow_kgs[bank.tubes[tubes - 1]!]! * 10];
}

describe('closed form', () => {
  // verified: our own derivation, computed twice; tolerance is the last digit given
  test.each(closedForm.rows)('m = $m', ({ m, same, opposite }) => {
    const { first, last } = sameEndShares(m);
    expect([first, last].map((x) => +x.toFixed(4))).toEqual(same);
    const other = oppositeEndShares(m);
    expect([other.first, other.last].map((x) => +x.toFixed(4))).toEqual(opposite);
  });

  test('the branches at opposite ends meet, and the first tube stops where it should', () => {
    const meet = Math.LN2 ** 2;
    const below = oppositeEndShares(meet * (1 - 1e-7));
    const above = oppositeEndShares(meet * (1 + 1e-7));
    expect(below.first).toBeCloseTo(above.first, 5);
    expect(oppositeEndShares(meet).last).toBeCloseTo(below.last, 5);
    expect(MOST_OPPOSITE).toBeCloseTo(1.734, 3);
    expect(oppositeEndShares(MOST_OPPOSITE).first).toBeLessThan(1e-6);
    expect(() => oppositeEndShares(1.74)).toThrow(DomainError);
    expect(() => sameEndShares(0)).toThrow(DomainError);
  });

  test('ten per cent between most and least at the header numbers given', () => {
    const same = sameEndShares(0.2);
    expect(same.first - same.last).toBeCloseTo(0.1, 2);
    const opposite = oppositeEndShares(0.067);
    expect(opposite.last - opposite.first).toBeCloseTo(0.1, 2);
    expect(headerNumber(20, 0.149234, 20, 1.5)).toBeCloseTo((20 * 0.149234) ** 2 / 21.5, 12);
  });

  // verified: values of an independent prototype; tolerance is the last digit given
  test.each(closedForm.discrete)('m = 1 with $tubes tubes', ({ tubes, same, opposite }) => {
    expect(discrete(1, tubes, 'start').map((x) => +x.toFixed(4))).toEqual(same);
    expect(discrete(1, tubes, 'end').map((x) => +x.toFixed(4))).toEqual(opposite);
  });

  test.each(ENDS)('discrete banks come to it as 1/N: $name end', ({ name, outlet }) => {
    const limit = name === 'same' ? sameEndShares(1) : oppositeEndShares(1);
    const gaps = [20, 80, 160].map((n) => {
      const [first, last] = discrete(1, n, outlet);
      return [n * (first - limit.first), n * (last - limit.last)];
    });
    for (const i of [0, 1]) {
      // N·gap settles: within 5 % from 80 to 160 tubes, within 15 % from 20
      expect(gaps[2]![i]! / gaps[1]![i]!).toBeCloseTo(1, 1.3);
      expect(Math.abs(gaps[0]![i]! / gaps[2]![i]! - 1)).toBeLessThan(0.15);
    }
  });
});

describe('constant coefficients', () => {
  const cases = constant.rows.flatMap((row) => ENDS.map((end) => ({ ...row, ...end })));
  // verified: general-purpose network solvers; 0.1 %
  test.each(cases)('$tubes tubes of $length_m m, $name end', ({ name, outlet, ...row }) => {
    const density_kgm3 = 995.65;
    const bank = manifold({
      tubes: row.tubes,
      tube: { bore_m: 0.0158, length_m: row.length_m, roughness_m: 1.5e-6, minorLoss: 0 },
      header: { bore_m: row.header_mm / 1000, length_m: 0.02, roughness_m: 1.5e-6, minorLoss: 0.2 },
      inlet: 'start',
      outlet,
      flow_kgs: (row.flow_Ls / 1000) * density_kgm3,
      density_kgm3,
      viscosity_Pas: 7.972e-4,
    });
    const s = prepareNetwork(bank.description).solve({ tees: 'constant' });
    const flows = bank.tubes.map((i) => s.flow_kgs[i]!);
    const mean = flows.reduce((sum, f) => sum + f, 0) / flows.length;
    const last = bank.collect[outlet === 'start' ? 0 : row.tubes - 1]!;
    const [drop, least, most] = row[name];
    expect(((s.head_m[bank.supply[0]!]! - s.head_m[last]!) * density_kgm3 * GRAVITY_MS2) / drop!).toBeCloseTo(
      1,
      5,
    );
    expect(Math.abs(Math.min(...flows) / mean - least!)).toBeLessThan(0.001);
    expect(Math.abs(Math.max(...flows) / mean - most!)).toBeLessThan(0.001);
  });
});

test('a header fed at both ends behaves as one of a quarter of the header number', () => {
  const bank = (inlet: 'start' | 'both', tubes: number) => {
    const pipe = { bore_m: 0.0158, length_m: 0, roughness_m: 0 };
    const m = manifold({
      tubes,
      tube: { ...pipe, minorLoss: 60 },
      header: { ...pipe, bore_m: 0.05, minorLoss: 0 },
      inlet,
      outlet: inlet,
      flow_kgs: tubes * 0.1,
      density_kgm3: 1000,
      viscosity_Pas: 1e-3,
    });
    const s = prepareNetwork(m.description).solve({ tees: 'ideal' });
    const flows = m.tubes.map((i) => s.flow_kgs[i]! * 10);
    return { converged: s.report.converged, spread: Math.max(...flows) - Math.min(...flows), flows };
  };
  const both = bank('both', 80);
  const half = bank('start', 40);
  expect(both.converged && half.converged).toBe(true);
  expect(both.spread).toBeCloseTo(half.spread, 2);
  // flows are settled to 1e-9 of the total, which is 80 tubes
  for (const [i, f] of both.flows.entries()) expect(f).toBeCloseTo(both.flows[79 - i]!, 6);
});

test('no tubes, no manifold', () => {
  const pipe = { bore_m: 0.02, length_m: 1, roughness_m: 0, minorLoss: 0 };
  const rest = { tube: pipe, header: pipe, inlet: 'start', outlet: 'end', flow_kgs: 1 } as const;
  expect(() => manifold({ ...rest, tubes: 0, density_kgm3: 1000, viscosity_Pas: 1e-3 })).toThrow(DomainError);
});
