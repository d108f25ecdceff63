import type { Elimination } from './ordering';

/**
 * Sparse LDLᵀ of a symmetric positive definite matrix of fixed pattern, after George & Liu 1981, with the
 * symbolic part laid out as a list of target places. Values: n diagonal entries by step, then the columns of
 * L below the diagonal in the pattern's order.
 */
export interface SparseCholesky {
  readonly size: number;
  readonly values: Float64Array;
  /** place in `values` of entry (i, j) = (j, i); −1 when outside the pattern */
  position(i: number, j: number): number;
  /** @returns false when a pivot was not positive: the matrix is not positive definite */
  factor(): boolean;
  /** Solves in place: `b` in unknowns as given to the ordering. */
  solve(b: Float64Array): void;
}

/**
 * @param elimination order and fill from `minimumDegree`
 * @returns workspace for one matrix at a time
 */
export function sparseCholesky(elimination: Elimination): SparseCholesky {
  const { order, place, start, pattern } = elimination;
  const n = order.length;
  const values = new Float64Array(n + pattern.length);
  const target = choleskyProgram(elimination);
  const work = new Float64Array(n);

  function position(i: number, j: number): number {
    const first = Math.min(place[i]!, place[j]!);
    const other = Math.max(place[i]!, place[j]!);
    if (first === other) return first;
    for (let t = start[first]!; t < start[first + 1]!; t++) if (pattern[t] === other) return n + t;
    return -1;
  }

  function factor(): boolean {
    let p = 0;
    for (let k = 0; k < n; k++) {
      const pivot = values[k]!;
      if (!(pivot > 0)) return false;
      const inverse = 1 / pivot;
      values[k] = inverse;
      const end = n + start[k + 1]!;
      for (let i = n + start[k]!; i < end; i++) {
        const l = values[i]! * inverse;
        for (let j = i; j < end; j++) {
          const at = target[p++]!;
          values[at] = values[at]! - l * values[j]!;
        }
        values[i] = l;
      }
    }
    return true;
  }

  function solve(b: Float64Array): void {
    for (let k = 0; k < n; k++) work[k] = b[order[k]!]!;
    for (let k = 0; k < n; k++) {
      const y = work[k]!;
      for (let t = start[k]!; t < start[k + 1]!; t++) {
        const at = pattern[t]!;
        work[at] = work[at]! - values[n + t]! * y;
      }
      work[k] = y * values[k]!;
    }
    for (let k = n - 1; k >= 0; k--) {
      let sum = work[k]!;
      for (let t = start[k]!; t < start[k + 1]!; t++) sum -= values[n + t]! * work[pattern[t]!]!;
      work[k] = sum;
      b[order[k]!] = sum;
    }
  }

  return { size: n, values, position, factor, solve };
}

/** For every step, for every pair it touches (column-wise, diagonal first): the place that is changed. */
function choleskyProgram({ order, start, pattern }: Elimination): Int32Array {
  const n = order.length;
  let length = 0;
  for (let k = 0; k < n; k++) {
    const s = start[k + 1]! - start[k]!;
    length += (s * (s + 1)) / 2;
  }
  const target = new Int32Array(length);
  const at = new Int32Array(n);
  let p = 0;
  for (let k = 0; k < n; k++) {
    for (let a = start[k]!; a < start[k + 1]!; a++) {
      const i = pattern[a]!;
      target[p++] = i;
      if (a === start[k + 1]! - 1) break;
      for (let t = start[i]!; t < start[i + 1]!; t++) at[pattern[t]!] = t;
      for (let b = a + 1; b < start[k + 1]!; b++) target[p++] = n + at[pattern[b]!]!;
    }
  }
  return target;
}
