import { describe, expect, test } from 'vitest';
import { frictionFactorChurchill } from '../../src/hydraulics/friction';
import { manifold } from '../../src/hydraulics/manifold';
import { prepareNetwork } from '../../src/hydraulics/network';
import { GRAVITY_MS2 } from '../../src/numeric/constants';

/** Dense Newton with a numerical Jacobian, full pivoting and halving: knows nothing of networks. */
function solveDense(residual: (x: number[]) => number[], start: number[]): number[] {
  let x = start.slice();
  const n = x.length;
  const size = (v: number[]) => Math.hypot(...v);
  for (let step = 0; step < 200; step++) {
    const f = residual(x);
    if (size(f) < 1e-12) break;
    const columns = x.map((xi, j) => {
      const h = 1e-7 * Math.max(Math.abs(xi), 1e-2);
      const up = x.slice();
      const down = x.slice();
      up[j] = xi + h;
      down[j] = xi - h;
      const a = residual(up);
      const b = residual(down);
      return a.map((v, i) => (v - b[i]!) / (2 * h));
    });
    const m = f.map((fi, i) => [...columns.map((c) => c[i]!), -fi]);
    for (let k = 0; k < n; k++) {
      let p = k;
      for (let i = k + 1; i < n; i++) if (Math.abs(m[i]![k]!) > Math.abs(m[p]![k]!)) p = i;
      [m[k], m[p]] = [m[p]!, m[k]!];
      for (let i = k + 1; i < n; i++) {
        const l = m[i]![k]! / m[k]![k]!;
        for (let j = k; j <= n; j++) m[i]![j]! -= l * m[k]![j]!;
      }
    }
    const d = new Array<number>(n).fill(0);
    for (let k = n - 1; k >= 0; k--) {
      let sum = m[k]![n]!;
      for (let j = k + 1; j < n; j++) sum -= m[k]![j]! * d[j]!;
      d[k] = sum / m[k]![k]!;
    }
    let length = 1;
    while (length > 1e-4 && size(residual(x.map((v, i) => v + length * d[i]!))) > size(f)) length /= 2;
    x = x.map((v, i) => v + length * d[i]!);
    if (length * size(d) < 1e-13) break;
  }
  return x;
}

const RHO = 996;
const MU = 8e-4;
const TUBE = 0.0158;
const HEADER = 0.0351;
const a = (TUBE / HEADER) ** 2;

/** Loss coefficients typed in again from the published forms, for a ≤ 0.3 and water that runs the usual way. */
const sets = {
  default: {
    divideBranch: (r: number) => 1 + (r / a) ** 2,
    divideRun: (r: number) => 0.4 * r * r,
    joinBranch: (r: number) => 1 + (r / a) ** 2 - 2 * (1 - r) ** 2,
    joinRun: (r: number) => 1.55 * r - r * r,
  },
  gardel: {
    divideBranch: (r: number) =>
      0.95 * (1 - r) ** 2 + (r * r * (a * a + 0.4 - 0.1 * a)) / (a * a) + (0.4 * r * (1 - r) * (1 + a)) / a,
    divideRun: (r: number) => 0.03 * (1 - r) ** 2 + 0.35 * r * r - 0.2 * r * (1 - r),
    joinBranch: (r: number) =>
      -0.92 * (1 - r) ** 2 + 1.2 * r * r - 0.8 * r * r * (1 - 1 / (a * a)) + (2 - a) * r * (1 - r),
    joinRun: (r: number) => 0.03 * (1 - r) ** 2 + r * r * (0.62 + 0.38 * (1 - a)) + (2 - a) * r * (1 - r),
  },
  ideal: {
    divideBranch: (r: number) => 1 + 0.5 * (r / a) ** 2,
    divideRun: () => 0,
    joinBranch: (r: number) => 1 + (r / a) ** 2 - 2 * (1 - r) ** 2,
    joinRun: (r: number) => 2 * r - r * r,
  },
};

const area = (d: number) => (Math.PI * d * d) / 4;
const velocityHead = (m: number, d: number) => (m * Math.abs(m)) / (2 * GRAVITY_MS2 * (RHO * area(d)) ** 2);
const pipeLoss = (m: number, d: number, length: number) => {
  const re = (Math.abs(m) * d) / (area(d) * MU);
  return re > 0 ? (frictionFactorChurchill(re, 1.5e-6 / d) * length * velocityHead(m, d)) / d : 0;
};

/**
 * The raw equations of one bank: unknown are the tube flows but the last, the rest follows by adding up; every
 * pair of neighbouring tubes must lose the same head between its two supply and two return tees.
 */
function rawBank(
  set: keyof typeof sets,
  n: number,
  total: number,
  length: number,
  pitch: number,
  sameEnd: boolean,
) {
  const k = sets[set];
  return (free: number[]): number[] => {
    const q = [...free, total - free.reduce((sum, f) => sum + f, 0)];
    const supplyBefore = q.map((_, i) => q.slice(i).reduce((sum, f) => sum + f, 0));
    const returnBehind = q.map((_, i) => (sameEnd ? supplyBefore[i]! : total - supplyBefore[i]! + q[i]!));
    // heads over the leg that carries all the water, along each header
    const gaps: number[] = [];
    for (let i = 0; i + 1 < n; i++) {
      const r = q[i]! / supplyBefore[i]!;
      const s = q[i + 1]! / supplyBefore[i + 1]!;
      const vh = velocityHead(supplyBefore[i]!, HEADER);
      const next = velocityHead(supplyBefore[i + 1]!, HEADER);
      const supplyStep =
        k.divideRun(r) * vh +
        pipeLoss(supplyBefore[i + 1]!, HEADER, pitch) +
        k.divideBranch(s) * next -
        k.divideBranch(r) * vh;
      const tubeStep = pipeLoss(q[i + 1]!, TUBE, length) - pipeLoss(q[i]!, TUBE, length);
      const ri = q[i]! / returnBehind[i]!;
      const rj = q[i + 1]! / returnBehind[i + 1]!;
      const wi = velocityHead(returnBehind[i]!, HEADER);
      const wj = velocityHead(returnBehind[i + 1]!, HEADER);
      // head of the tube's end over the head behind the tee is K·velocity head; pieces join the tees
      const returnStep = sameEnd
        ? k.joinBranch(rj) * wj +
          pipeLoss(returnBehind[i + 1]!, HEADER, pitch) +
          k.joinRun(ri) * wi -
          k.joinBranch(ri) * wi
        : k.joinBranch(rj) * wj -
          pipeLoss(returnBehind[i]!, HEADER, pitch) -
          k.joinRun(rj) * wj -
          k.joinBranch(ri) * wi;
      gaps.push(supplyStep + tubeStep + returnStep);
    }
    return gaps;
  };
}

describe('an independent root finder on the raw equations', () => {
  const cases = (['default', 'gardel', 'ideal'] as const).flatMap((set) =>
    [true, false].flatMap((sameEnd) => [
      { set, sameEnd, n: 3, total: 0.5, length: 2, pitch: 0.05 },
      { set, sameEnd, n: 7, total: 0.9, length: 6, pitch: 0.02 },
      { set, sameEnd, n: 10, total: 1.6, length: 12, pitch: 0.1 },
    ]),
  );
  test.each(cases)('$set, $n tubes, same end: $sameEnd', ({ set, sameEnd, n, total, length, pitch }) => {
    const bank = manifold({
      tubes: n,
      tube: { bore_m: TUBE, length_m: length, roughness_m: 1.5e-6, minorLoss: 0 },
      header: { bore_m: HEADER, length_m: pitch, roughness_m: 1.5e-6, minorLoss: 0 },
      inlet: 'start',
      outlet: sameEnd ? 'start' : 'end',
      flow_kgs: total,
      density_kgm3: RHO,
      viscosity_Pas: MU,
    });
    const s = prepareNetwork(bank.description).solve({ tees: set });
    expect(s.report.converged).toBe(true);
    const free = solveDense(
      rawBank(set, n, total, length, pitch, sameEnd),
      new Array<number>(n - 1).fill(total / n),
    );
    // the root finder's own limit is its difference quotients and a residual of 1e-12 m
    for (const [i, q] of free.entries())
      expect(Math.abs(s.flow_kgs[bank.tubes[i]!]! / q - 1)).toBeLessThan(1e-8);
  });
});
