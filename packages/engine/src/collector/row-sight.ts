import { DomainError } from '../numeric/errors';

/** Directions of the half circle over which views are integrated, per side. */
const RAYS = 240;

/** Parallel tubes of one plane, wherever their banks' headers put them. */
export interface TubeRow {
  /** Place of each tube's centre across the row [m], any order. */
  readonly across_m: ArrayLike<number>;
  /** Height of each centre over the plane, towards the sunny side [m]. */
  readonly depth_m: ArrayLike<number>;
  /** Outer diameter of each [m], > 0. */
  readonly diameter_m: ArrayLike<number>;
}

/** What each tube of a row sees, from geometry alone. */
export interface RowSight {
  readonly row: TubeRow;
  readonly count: number;
  /** View factor of each tube to the front hemisphere, the rear one, and other tubes [–]. */
  readonly front: Float64Array;
  readonly rear: Float64Array;
  readonly neighbours: Float64Array;
  /** Real neighbour on either side, by place across the row whatever the bank; −1 at an edge. */
  readonly left: Int32Array;
  readonly right: Int32Array;
  /** Width of the strip that is each tube's own: half-way to its real neighbours [m]. */
  readonly strip_m: Float64Array;
  /** Width of the row, sum of the strips [m]. */
  readonly width_m: number;
  /** Share of a hemisphere's light that meets tubes, from the front and from the rear [–]. */
  readonly frontShare: number;
  readonly rearShare: number;
}

/**
 * Visible width of every tube in parallel light: its own shadow less what tubes nearer the sun take away.
 * Exact for circles that do not overlap: along a ray, the order of chords is the order of centres.
 *
 * @param row        the tubes
 * @param sunAcross  component of the light's origin across the row [–]
 * @param sunNormal  component along the normal [–]; negative for light from behind
 * @param out        receives the widths [m], zero when the light runs along the tubes
 * @param order      places of the tubes, kept sorted between calls (any order to start with)
 * @example two tubes of 20 mm at 40 mm, light at 75.5° from the normal // [0.01, 0.02]
 */
export function visibleWidths(
  row: TubeRow,
  sunAcross: number,
  sunNormal: number,
  out: Float64Array,
  order: Int32Array,
): void {
  const n = order.length;
  const norm = Math.hypot(sunAcross, sunNormal);
  if (!(norm > 1e-9)) {
    out.fill(0);
    return;
  }
  const s = sunAcross / norm;
  const c = sunNormal / norm;
  const { across_m: y, depth_m: z, diameter_m: d } = row;
  const u = new Float64Array(n);
  const ahead = new Float64Array(n);
  let widest = 0;
  for (let i = 0; i < n; i += 1) {
    u[i] = y[i] * c - z[i] * s;
    ahead[i] = y[i] * s + z[i] * c;
    if (d[i] > widest) widest = d[i];
  }
  for (let k = 1; k < n; k += 1) {
    const i = order[k];
    let m = k - 1;
    while (m >= 0 && u[order[m]] > u[i]) {
      order[m + 1] = order[m];
      m -= 1;
    }
    order[m + 1] = i;
  }
  const from = new Float64Array(n);
  const to = new Float64Array(n);
  for (let k = 0; k < n; k += 1) {
    const i = order[k];
    const low = u[i] - d[i] / 2;
    const high = u[i] + d[i] / 2;
    let first = k;
    while (first > 0 && u[order[first - 1]] > low - widest / 2) first -= 1;
    let shadows = 0;
    for (let m = first; m < n; m += 1) {
      const j = order[m];
      if (u[j] - widest / 2 >= high) break;
      // Of two tubes at the same place the first in the list is in front.
      if (j === i || !(ahead[j] > ahead[i] || (ahead[j] === ahead[i] && j < i))) continue;
      const a = Math.max(low, u[j] - d[j] / 2);
      const b = Math.min(high, u[j] + d[j] / 2);
      if (b <= a) continue;
      let q = shadows;
      while (q > 0 && from[q - 1] > a) {
        from[q] = from[q - 1];
        to[q] = to[q - 1];
        q -= 1;
      }
      from[q] = a;
      to[q] = b;
      shadows += 1;
      if (b - a >= d[i]) break;
    }
    let covered = 0;
    let reach = low;
    for (let q = 0; q < shadows; q += 1) {
      if (to[q] <= reach) continue;
      covered += to[q] - Math.max(from[q], reach);
      reach = to[q];
    }
    out[i] = Math.max(0, d[i] - covered);
  }
}

/**
 * Views of every tube by integrating visible widths over the half circle on each side. In the middle of a
 * long even row this is Hottel's F and the crossed-string factors; edges, nested banks and tubes at different
 * depths come out as they are.
 *
 * @param row  at least one tube
 * @throws {DomainError} for an empty row, a diameter that is not positive, a place that is not finite
 * @example rowSight(evenRow(81, 2 × D)).front[40] // 0.4186
 */
export function rowSight(row: TubeRow): RowSight {
  const n = row.across_m.length;
  if (!(n >= 1 && row.depth_m.length === n && row.diameter_m.length === n))
    throw new DomainError('number of tubes', n, '≥ 1, same length in every list');
  for (let i = 0; i < n; i += 1) {
    if (!(row.diameter_m[i] > 0)) throw new DomainError('diameter', row.diameter_m[i], '> 0 m');
    if (!Number.isFinite(row.across_m[i] + row.depth_m[i]))
      throw new DomainError('place of a tube', row.across_m[i] + row.depth_m[i], 'finite');
  }
  const front = new Float64Array(n);
  const rear = new Float64Array(n);
  const widths = new Float64Array(n);
  const flat = Array.from({ length: n }, (_, i) => row.depth_m[i]).every((z) => z === row.depth_m[0]);
  const order = Int32Array.from({ length: n }, (_, i) => i);
  for (const [side, sign] of [
    [front, 1],
    [rear, -1],
  ] as const) {
    if (sign < 0 && flat) {
      rear.set(front);
      break;
    }
    for (let k = 0; k < RAYS; k += 1) {
      const theta = ((k + 0.5) / RAYS - 0.5) * Math.PI;
      visibleWidths(row, Math.sin(theta), sign * Math.cos(theta), widths, order);
      for (let i = 0; i < n; i += 1) side[i] += widths[i];
    }
    // view of the tube = ∫ w dθ / (2πD)
    for (let i = 0; i < n; i += 1) side[i] /= 2 * RAYS * row.diameter_m[i];
  }
  const sorted = Array.from({ length: n }, (_, i) => i).sort(
    (a, b) => row.across_m[a] - row.across_m[b] || row.depth_m[a] - row.depth_m[b] || a - b,
  );
  const left = new Int32Array(n).fill(-1);
  const right = new Int32Array(n).fill(-1);
  const strip = new Float64Array(n);
  for (let k = 0; k < n; k += 1) {
    const i = sorted[k];
    if (k > 0) left[i] = sorted[k - 1];
    if (k < n - 1) right[i] = sorted[k + 1];
    const before = k > 0 ? row.across_m[i] - row.across_m[sorted[k - 1]] : Number.NaN;
    const after = k < n - 1 ? row.across_m[sorted[k + 1]] - row.across_m[i] : Number.NaN;
    if (n === 1) strip[i] = LONE_STRIP * row.diameter_m[i];
    else if (k === 0) strip[i] = after;
    else if (k === n - 1) strip[i] = before;
    else strip[i] = (before + after) / 2;
  }
  const neighbours = new Float64Array(n);
  let width = 0;
  let fromFront = 0;
  let fromRear = 0;
  for (let i = 0; i < n; i += 1) {
    const round = Math.PI * row.diameter_m[i];
    neighbours[i] = n === 1 ? 0 : Math.max(0, 1 - front[i] - rear[i]);
    width += strip[i];
    fromFront += front[i] * round;
    fromRear += rear[i] * round;
  }
  // tubes at an edge catch light from beyond their strip: the row is at least as wide as its catch
  const whole = Math.max(width, fromFront, fromRear);
  return {
    row,
    count: n,
    front,
    rear,
    neighbours,
    left,
    right,
    strip_m: strip,
    width_m: whole,
    frontShare: fromFront / whole,
    rearShare: fromRear / whole,
  };
}

/** Strip of a tube without neighbours, in diameters: wide enough that it leaves its ground nearly unshaded. */
const LONE_STRIP = 20;

/**
 * Even row in one plane: the plain case.
 *
 * @param count       tubes, ≥ 1
 * @param pitch_m     [m]
 * @param diameter_m  [m]
 */
export function evenRow(count: number, pitch_m: number, diameter_m: number): TubeRow {
  return {
    across_m: Float64Array.from({ length: count }, (_, i) => i * pitch_m),
    depth_m: new Float64Array(count),
    diameter_m: new Float64Array(count).fill(diameter_m),
  };
}
