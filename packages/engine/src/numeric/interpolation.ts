import { DomainError } from './errors';

/**
 * Smooth step 3t² − 2t³, held at 0 below t = 0 and at 1 above t = 1; slope 0 at both ends.
 *
 * @param t position in the window [–]
 * @returns share of the upper value [–], 0…1
 * @example smoothstep(0.25) // 0.15625
 */
export function smoothstep(t: number): number {
  if (t <= 0) return 0;
  if (t >= 1) return 1;
  return t * t * (3 - 2 * t);
}

/**
 * Slope of {@link smoothstep}: 6t(1 − t) inside the window, 0 outside.
 *
 * @param t position in the window [–]
 * @example smoothstepSlope(0.5) // 1.5
 */
export function smoothstepSlope(t: number): number {
  return t <= 0 || t >= 1 ? 0 : 6 * t * (1 - t);
}

/** Straight ramp held at 0 and 1: `ramp(x, a, b)` is 0 up to a, 1 from b. */
export function ramp(x: number, from: number, to: number): number {
  return Math.min(1, Math.max(0, (x - from) / (to - from)));
}

/**
 * @param xs knots
 * @param ys values
 * @throws {DomainError} unless there are as many values as knots, at least two, finite, with rising knots
 */
export function checkKnots(xs: ArrayLike<number>, ys: ArrayLike<number>): void {
  if (xs.length !== ys.length) throw new DomainError('number of values', ys.length, `${xs.length}`);
  if (!(xs.length >= 2)) throw new DomainError('number of points', xs.length, '≥ 2');
  for (let i = 0; i < xs.length; i++) {
    if (!Number.isFinite(xs[i])) throw new DomainError('knot', xs[i], 'finite');
    if (!Number.isFinite(ys[i])) throw new DomainError('value', ys[i], 'finite');
    if (i > 0 && !(xs[i]! > xs[i - 1]!)) throw new DomainError('knot', xs[i], `> ${xs[i - 1]}`);
  }
}

/** Place i of the interval [xs[i], xs[i+1]] that holds x; the first or the last one outside. */
export function intervalOf(xs: ArrayLike<number>, x: number): number {
  let low = 0;
  let high = xs.length - 1;
  while (high - low > 1) {
    const middle = (low + high) >> 1;
    if (x < xs[middle]!) high = middle;
    else low = middle;
  }
  return low;
}

/**
 * Straight lines through points, held at the end values outside.
 *
 * @param xs rising knots, at least 2
 * @param ys values
 * @param x  where
 * @returns value on the line
 * @throws {DomainError} from {@link checkKnots}
 * @example interpolateLinear([0, 1], [0, 10], 0.3) // 3
 */
export function interpolateLinear(xs: ArrayLike<number>, ys: ArrayLike<number>, x: number): number {
  checkKnots(xs, ys);
  const i = intervalOf(xs, x);
  return ys[i]! + (ys[i + 1]! - ys[i]!) * ramp(x, xs[i]!, xs[i + 1]!);
}

/**
 * Slopes of the monotone cubic through points (Fritsch & Carlson 1980): weighted means of the neighbouring
 * chords, three-point formula at the ends, 0 where the chords change sign, then drawn back onto the circle
 * α² + β² = 9 so that no interval overshoots.
 *
 * @param xs rising knots, at least 2
 * @param ys values
 * @returns slope at each knot
 * @throws {DomainError} from {@link checkKnots}
 * @example monotoneSlopes([0, 1, 2], [0, 0, 1]) // [0, 0, 1.5]
 */
export function monotoneSlopes(xs: ArrayLike<number>, ys: ArrayLike<number>): Float64Array {
  checkKnots(xs, ys);
  const n = xs.length;
  const step = Float64Array.from({ length: n - 1 }, (_, i) => xs[i + 1]! - xs[i]!);
  const chord = Float64Array.from({ length: n - 1 }, (_, i) => (ys[i + 1]! - ys[i]!) / step[i]!);
  const slope = new Float64Array(n);
  if (n === 2) return slope.fill(chord[0]!);
  for (let i = 1; i < n - 1; i++) {
    if (chord[i - 1]! * chord[i]! > 0)
      slope[i] = (chord[i - 1]! * step[i]! + chord[i]! * step[i - 1]!) / (step[i - 1]! + step[i]!);
  }
  slope[0] = endSlope(step[0]!, step[1]!, chord[0]!, chord[1]!);
  slope[n - 1] = endSlope(step[n - 2]!, step[n - 3]!, chord[n - 2]!, chord[n - 3]!);
  for (let i = 0; i < n - 1; i++) {
    if (chord[i] === 0) {
      slope[i] = 0;
      slope[i + 1] = 0;
      continue;
    }
    const alpha = slope[i]! / chord[i]!;
    const beta = slope[i + 1]! / chord[i]!;
    const square = alpha * alpha + beta * beta;
    if (square > 9) {
      const back = (3 * chord[i]!) / Math.sqrt(square);
      slope[i] = back * alpha;
      slope[i + 1] = back * beta;
    }
  }
  return slope;
}

/** Three-point slope at an end, 0 where it would turn against the first chord. */
function endSlope(near: number, far: number, chord: number, next: number): number {
  const slope = ((2 * near + far) * chord - near * next) / (near + far);
  return slope * chord > 0 ? slope : 0;
}

/** Value and slope, filled by {@link hermite}. */
export interface ValueAndSlope {
  value: number;
  slope: number;
}

/**
 * Cubic on one interval from values and slopes at its ends.
 *
 * @param out receives value and slope
 * @example hermite(0.5, 0, 1, 0, 1, 0, 0, out) // out.value 0.5, out.slope 1.5
 */
export function hermite(
  x: number,
  x0: number,
  x1: number,
  y0: number,
  y1: number,
  m0: number,
  m1: number,
  out: ValueAndSlope,
): void {
  const h = x1 - x0;
  const t = (x - x0) / h;
  const d = (y1 - y0) / h;
  const c2 = 3 * d - 2 * m0 - m1;
  const c3 = m0 + m1 - 2 * d;
  out.value = y0 + h * t * (m0 + t * (c2 + t * c3));
  out.slope = m0 + t * (2 * c2 + 3 * c3 * t);
}
