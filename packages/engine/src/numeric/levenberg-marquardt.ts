import { DomainError } from './errors';

export interface LeastSquares {
  parameters: number[];
  /** Σr² at the end */
  cost: number;
  /** (JᵀJ)⁻¹ there; with residuals in units of their standard uncertainty it is the covariance of the parameters */
  covariance: number[][];
  converged: boolean;
  iterations: number;
  /**
   * Largest |∂(Σr²/2)/∂pᵢ| over the length of column i of J, of parameters not held at a bound: how many of its own
   * standard uncertainties the parameter would still move by itself
   */
  residual: number;
}

export interface LeastSquaresOptions {
  /** step of each parameter for its numerical derivative; 1e-6 of its size or of 1 when left out */
  steps?: readonly number[];
  lower?: readonly number[];
  upper?: readonly number[];
  maxIterations?: number;
  /** relative change of cost and parameters at which to stop */
  tolerance?: number;
}

/** Slope left at the end, in standard uncertainties that the parameter still would move. */
const ARRIVED = 1e-4;

/**
 * Nonlinear least squares by Levenberg's damping with Marquardt's scaling (Marquardt 1963), damping updated by
 * the gain ratio (Nielsen 1999, from memory), derivatives by central differences, bounds by projection and an active set. Priors are further
 * residuals: (p − p₀)/u(p₀).
 *
 * @param residuals r(p), at least as many as parameters, each divided by its standard uncertainty
 * @param start     first guess, within the bounds
 * @returns parameters with covariance; `converged` tells whether to trust them: no step, no slope and a finite
 *   covariance left
 * @throws {DomainError} fewer residuals than parameters, a start that is not finite, or residuals there that are not
 * @example leastSquares(([a]) => [a! - 2, a! - 4], [0]).parameters // [3]
 */
export function leastSquares(
  residuals: (p: readonly number[]) => readonly number[],
  start: readonly number[],
  options: LeastSquaresOptions = {},
): LeastSquares {
  const { maxIterations = 200, tolerance = 1e-10 } = options;
  const n = start.length;
  const within = (p: readonly number[]): number[] =>
    p.map((x, i) => Math.min(options.upper?.[i] ?? Infinity, Math.max(options.lower?.[i] ?? -Infinity, x)));
  let p = within(start);
  let r = residuals(p);
  let cost = squares(r);
  if (!(n >= 1)) throw new DomainError('number of parameters', n, '≥ 1');
  if (!(r.length >= n)) throw new DomainError('number of residuals', r.length, `≥ ${n}`);
  if (!Number.isFinite(cost)) throw new DomainError('residuals at the start', cost, 'finite');

  let damping = 1e-3;
  let growth = 2;
  let converged = false;
  let iterations = 0;
  let { normal, gradient } = linearised(residuals, p, r, options);
  while (iterations < maxIterations && !converged) {
    iterations++;
    // a parameter pushed against its bound stays there and leaves the others to find their own bottom
    const held = gradient.map((g, i) => p[i] === (g < 0 ? options.upper?.[i] : options.lower?.[i]));
    const step = solve(
      normal.map((row, i) =>
        row.map((x, j) => {
          if (held[i] || held[j]) return i === j ? 1 : 0;
          return i === j ? x + damping * Math.max(x, 1e-300) : x;
        }),
      ),
      gradient.map((g, i) => (held[i] ? 0 : -g)),
    );
    const next = step && within(p.map((x, i) => x + step[i]!));
    const rNext = next && residuals(next);
    const costNext = rNext ? squares(rNext) : Infinity;
    if (next && rNext && costNext < cost) {
      const moved = next.map((x, i) => x - p[i]!);
      const foreseen = -moved.reduce((sum, d, i) => sum + d * (2 * gradient[i]! + dot(normal[i]!, moved)), 0);
      const gain = foreseen > 0 ? (cost - costNext) / foreseen : 1;
      const small = moved.every((d, i) => Math.abs(d) <= tolerance * (Math.abs(p[i]!) + tolerance));
      converged = small || cost - costNext <= tolerance * tolerance * cost;
      p = next;
      r = rNext;
      cost = costNext;
      ({ normal, gradient } = linearised(residuals, p, r, options));
      damping = Math.max(1e-15, damping * Math.max(1 / 3, 1 - (2 * gain - 1) ** 3));
      growth = 2;
    } else {
      // no step however short improves on this point
      converged = costNext - cost <= 1e-14 * cost || (next?.every((x, i) => x === p[i]!) ?? false);
      damping *= growth;
      growth *= 2;
      if (damping > 1e30) break;
    }
  }
  const free = gradient.flatMap((g, i) =>
    p[i] === (g < 0 ? options.upper?.[i] : options.lower?.[i])
      ? []
      : [Math.abs(g) / Math.sqrt(Math.max(normal[i]![i]!, 1e-300))],
  );
  const residual = Math.max(0, ...free);
  const covariance = inverse(normal);
  // to stand still is not to have arrived: a rough or a flat floor stops every step too
  const arrived = residual <= ARRIVED && covariance.every((row) => row.every(Number.isFinite));
  return { parameters: p, cost, covariance, converged: converged && arrived, iterations, residual };
}

const squares = (r: readonly number[]): number => r.reduce((sum, x) => sum + x * x, 0);
const dot = (a: readonly number[], b: readonly number[]): number =>
  a.reduce((sum, x, i) => sum + x * b[i]!, 0);

/** JᵀJ and Jᵀr by central differences, one-sided at a bound. */
function linearised(
  residuals: (p: readonly number[]) => readonly number[],
  p: readonly number[],
  r: readonly number[],
  options: LeastSquaresOptions,
): { normal: number[][]; gradient: number[] } {
  const columns = p.map((x, i) => {
    const h = options.steps?.[i] ?? 1e-6 * Math.max(Math.abs(x), 1);
    const up = Math.min(x + h, options.upper?.[i] ?? Infinity);
    const down = Math.max(x - h, options.lower?.[i] ?? -Infinity);
    const above = residuals(p.with(i, up));
    const below = residuals(p.with(i, down));
    return above.map((a, k) => (a - below[k]!) / (up - down));
  });
  return {
    normal: columns.map((a) => columns.map((b) => dot(a, b))),
    gradient: columns.map((a) => dot(a, r)),
  };
}

/** Gaussian elimination with row exchange; undefined when singular. */
function solve(matrix: readonly number[][], right: readonly number[]): number[] | undefined {
  const a = matrix.map((row, i) => [...row, right[i]!]);
  const n = a.length;
  for (let c = 0; c < n; c++) {
    let best = c;
    for (let i = c + 1; i < n; i++) if (Math.abs(a[i]![c]!) > Math.abs(a[best]![c]!)) best = i;
    [a[c], a[best]] = [a[best]!, a[c]!];
    if (!(Math.abs(a[c]![c]!) > 0)) return undefined;
    for (let i = 0; i < n; i++) {
      if (i === c) continue;
      const f = a[i]![c]! / a[c]![c]!;
      for (let j = c; j <= n; j++) a[i]![j]! -= f * a[c]![j]!;
    }
  }
  return a.map((row, i) => row[n]! / row[i]!);
}

/** Inverse by columns, scaled to a unit diagonal first; infinite where the data say nothing. */
function inverse(matrix: readonly number[][]): number[][] {
  const n = matrix.length;
  const scale = matrix.map((row, i) => 1 / Math.sqrt(Math.max(row[i]!, 1e-300)));
  const unit = matrix.map((row, i) => row.map((x, j) => x * scale[i]! * scale[j]!));
  const columns = unit.map((_, j) =>
    solve(
      unit,
      Array.from({ length: n }, (__, i) => (i === j ? 1 : 0)),
    ),
  );
  return unit.map((row, i) => row.map((_, j) => (columns[j]?.[i] ?? Infinity) * scale[i]! * scale[j]!));
}
