/**
 * Fixed-point iteration x ← x + r(x) with memory (Anderson 1965, depth 3): the next point is the combination of
 * the last few whose residuals cancel best, so that slow common modes go in a few steps.
 */
export interface Acceleration {
  /** next point from the present one and its residual; both arrays are copied */
  next(point: Float64Array, residual: Float64Array): Float64Array;
}

const DEPTH = 3;

/** @returns an iteration without memory yet */
export function acceleration(): Acceleration {
  const points: Float64Array[] = [];
  const residuals: Float64Array[] = [];
  return {
    next(point, residual) {
      points.push(point.slice());
      residuals.push(residual.slice());
      if (points.length > DEPTH + 1) {
        points.shift();
        residuals.shift();
      }
      const last = points.length - 1;
      const weights = leastSquares(residuals, last);
      const next = new Float64Array(point.length);
      for (let i = 0; i < next.length; i++) {
        next[i] = point[i]! + residual[i]!;
        for (let k = 0; k < last; k++)
          next[i]! -=
            weights[k]! * (points[last]![i]! - points[k]![i]! + residuals[last]![i]! - residuals[k]![i]!);
      }
      return next;
    },
  };
}

/** Weights w that make |r_last − Σ w_k (r_last − r_k)| least; normal equations, ridge against dependence. */
function leastSquares(residuals: readonly Float64Array[], last: number): Float64Array {
  const newest = residuals[last]!;
  const difference = (k: number, i: number) => newest[i]! - residuals[k]![i]!;
  const matrix: number[][] = [];
  for (let a = 0; a < last; a++) {
    const row = new Array<number>(last + 1).fill(0);
    for (let i = 0; i < newest.length; i++) {
      for (let b = 0; b < last; b++) row[b]! += difference(a, i) * difference(b, i);
      row[last]! += difference(a, i) * newest[i]!;
    }
    matrix.push(row);
  }
  const weights = new Float64Array(last);
  for (let a = 0; a < last; a++) matrix[a]![a]! *= 1 + 1e-10;
  // elimination with the largest pivot; a vanished direction gets no weight
  const order = [...matrix.keys()];
  for (let c = 0; c < last; c++) {
    const best = order
      .slice(c)
      .reduce((p, q) => (Math.abs(matrix[q]![c]!) > Math.abs(matrix[p]![c]!) ? q : p));
    order.splice(order.indexOf(best), 1);
    order.splice(c, 0, best);
    const pivot = matrix[best]!;
    if (!(Math.abs(pivot[c]!) > 1e-300)) continue;
    for (const r of order.slice(c + 1)) {
      const factor = matrix[r]![c]! / pivot[c]!;
      for (let k = c; k <= last; k++) matrix[r]![k]! -= factor * pivot[k]!;
    }
  }
  for (let c = last - 1; c >= 0; c--) {
    const row = matrix[order[c]!]!;
    if (!(Math.abs(row[c]!) > 1e-300)) continue;
    let sum = row[last]!;
    for (let k = c + 1; k < last; k++) sum -= row[k]! * weights[k]!;
    weights[c] = sum / row[c]!;
  }
  return weights;
}
