import { DomainError } from './errors';

/** What a root search found; `root` is its best guess even when it did not converge. */
export interface RootResult {
  readonly root: number;
  readonly converged: boolean;
  readonly iterations: number;
  /** value of the function there */
  readonly residual: number;
}

/**
 * Root of a continuous function between two points of opposite sign (Brent 1973, ch. 4: inverse quadratic
 * interpolation, secant, and bisection whenever those are slow).
 *
 * @param f         function, finite on [low, high]
 * @param low       one end
 * @param high      the other end, f of opposite sign
 * @param tolerance on the root, absolute; rounding of the root itself comes on top
 * @param limit     most evaluations
 * @throws {DomainError} when the signs at the ends do not differ
 * @example findRoot((x) => x * x - 2, 0, 2).root // 1.4142135623730951
 */
export function findRoot(
  f: (x: number) => number,
  low: number,
  high: number,
  tolerance = 1e-14,
  limit = 200,
): RootResult {
  let a = low;
  let b = high;
  let fa = f(a);
  let fb = f(b);
  if (!(fa * fb <= 0)) throw new DomainError('signs at the ends', `${fa}, ${fb}`, 'opposite');
  let c = a;
  let fc = fa;
  let d = b - a;
  let e = d;
  for (let iterations = 1; iterations <= limit; iterations++) {
    if (fb * fc > 0) {
      c = a;
      fc = fa;
      d = b - a;
      e = d;
    }
    if (Math.abs(fc) < Math.abs(fb)) {
      a = b;
      b = c;
      c = a;
      fa = fb;
      fb = fc;
      fc = fa;
    }
    const within = 2 * Number.EPSILON * Math.abs(b) + 0.5 * tolerance;
    const half = 0.5 * (c - b);
    if (Math.abs(half) <= within || fb === 0) return { root: b, converged: true, iterations, residual: fb };
    if (Math.abs(e) >= within && Math.abs(fa) > Math.abs(fb)) {
      const s = fb / fa;
      let p: number;
      let q: number;
      if (a === c) {
        p = 2 * half * s;
        q = 1 - s;
      } else {
        const t = fa / fc;
        const r = fb / fc;
        p = s * (2 * half * t * (t - r) - (b - a) * (r - 1));
        q = (t - 1) * (r - 1) * (s - 1);
      }
      if (p > 0) q = -q;
      p = Math.abs(p);
      if (2 * p < Math.min(3 * half * q - Math.abs(within * q), Math.abs(e * q))) {
        e = d;
        d = p / q;
      } else {
        d = half;
        e = half;
      }
    } else {
      d = half;
      e = half;
    }
    a = b;
    fa = fb;
    b += Math.abs(d) > within ? d : Math.sign(half) * within;
    fb = f(b);
  }
  return { root: b, converged: false, iterations: limit, residual: fb };
}
