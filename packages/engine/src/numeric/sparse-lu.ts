import type { Elimination } from './ordering';

/**
 * Sparse LU without pivoting, for a matrix whose order and fill are known beforehand and whose numbers change:
 * the symbolic part is a list of target places, so that the numerical part is one straight loop.
 *
 * Values lie in one array: n diagonal entries by step, then U by rows, then L by columns, both in the
 * pattern's order. Fill `values` through {@link SparseLu.position}, then factor, then solve.
 */
export interface SparseLu {
  readonly size: number;
  /** entries; `factor` overwrites them by L and U */
  readonly values: Float64Array;
  /** place in `values` of row i, column j (unknowns as given to the ordering); −1 when outside the pattern */
  position(i: number, j: number): number;
  /**
   * @param floor a pivot smaller than this in size is replaced by it, sign kept
   * @returns how many pivots were replaced
   */
  factor(floor: number): number;
  /** Solves in place: `b` in unknowns as given to the ordering. */
  solve(b: Float64Array): void;
}

/**
 * @param elimination order and fill from `minimumDegree`
 * @returns workspace for one matrix at a time
 */
export function sparseLu(elimination: Elimination): SparseLu {
  const { order, place, start, pattern } = elimination;
  const n = order.length;
  const fill = pattern.length;
  const values = new Float64Array(n + 2 * fill);
  const target = luProgram(elimination);
  const work = new Float64Array(n);

  function position(i: number, j: number): number {
    const row = place[i]!;
    const column = place[j]!;
    if (row === column) return row;
    const first = Math.min(row, column);
    const other = Math.max(row, column);
    for (let t = start[first]!; t < start[first + 1]!; t++) {
      if (pattern[t] === other) return row < column ? n + t : n + fill + t;
    }
    return -1;
  }

  function factor(floor: number): number {
    let replaced = 0;
    let p = 0;
    for (let k = 0; k < n; k++) {
      let pivot = values[k]!;
      if (!(Math.abs(pivot) >= floor)) {
        pivot = pivot < 0 ? -floor : floor;
        values[k] = pivot;
        replaced++;
      }
      const inverse = 1 / pivot;
      values[k] = inverse;
      const upper = n + start[k]!;
      const end = n + start[k + 1]!;
      for (let i = upper + fill; i < end + fill; i++) {
        const l = values[i]! * inverse;
        values[i] = l;
        if (l === 0) {
          p += end - upper;
          continue;
        }
        for (let j = upper; j < end; j++) {
          const at = target[p++]!;
          values[at] = values[at]! - l * values[j]!;
        }
      }
    }
    return replaced;
  }

  function solve(b: Float64Array): void {
    for (let k = 0; k < n; k++) work[k] = b[order[k]!]!;
    for (let k = 0; k < n; k++) {
      const y = work[k]!;
      if (y === 0) continue;
      for (let t = start[k]!; t < start[k + 1]!; t++) {
        const at = pattern[t]!;
        work[at] = work[at]! - values[n + fill + t]! * y;
      }
    }
    for (let k = n - 1; k >= 0; k--) {
      let sum = work[k]!;
      for (let t = start[k]!; t < start[k + 1]!; t++) sum -= values[n + t]! * work[pattern[t]!]!;
      work[k] = sum * values[k]!;
    }
    for (let k = 0; k < n; k++) b[order[k]!] = work[k]!;
  }

  return { size: n, values, position, factor, solve };
}

/** For every step, for every row and column it touches: the place that is changed. */
function luProgram({ order, start, pattern }: Elimination): Int32Array {
  const n = order.length;
  const fill = pattern.length;
  let length = 0;
  for (let k = 0; k < n; k++) length += (start[k + 1]! - start[k]!) ** 2;
  const target = new Int32Array(length);
  const at = new Int32Array(n);
  let base = 0;
  for (let k = 0; k < n; k++) {
    const from = start[k]!;
    const s = start[k + 1]! - from;
    for (let a = 0; a < s; a++) {
      const i = pattern[from + a]!;
      target[base + a * s + a] = i;
      if (a === s - 1) break;
      for (let t = start[i]!; t < start[i + 1]!; t++) at[pattern[t]!] = t;
      for (let b = a + 1; b < s; b++) {
        const t = at[pattern[from + b]!]!;
        target[base + a * s + b] = n + t;
        target[base + b * s + a] = n + fill + t;
      }
    }
    base += s * s;
  }
  return target;
}
