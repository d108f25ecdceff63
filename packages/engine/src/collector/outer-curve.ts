/**
 * What the outside does to one metre of tube, as a function of the tube's outer surface temperature.
 * Shared by all tubes and pieces that stand in the same surroundings.
 */
export interface OuterCurve {
  /** The exact answer; fills `out`. */
  readonly exact: (surface_C: number, out: OuterState) => void;
  /** Values met so far on a 2 K grid: conductance, conductance × temperature, backing share; null before any. */
  grid: Float64Array | null;
}

/** Linear loss of one metre of tube about a surface temperature. */
export interface OuterState {
  /** U′o [W/mK] */
  conductance_WmK: number;
  /** Te, weighted mean of what is exchanged with [°C] */
  surroundings_C: number;
  /** Share of what the backing strip absorbs that comes to the tube [–] */
  backingShare: number;
}

const LOW = -60;
const STEP = 2;
const NODES = 111;

/** Wraps an exact function of surface temperature; the grid is laid out when it is first read. */
export function outerCurve(exact: OuterCurve['exact']): OuterCurve {
  return { exact, grid: null };
}

/**
 * Reads a curve, linear between grid points 2 K apart that are filled when first met: within 0.1 % of the
 * exact value except where still air meets a surface at air temperature. Outside −60…160 °C it is exact.
 *
 * @param curve      surroundings
 * @param surface_C  outer surface of the tube [°C]
 * @param out        receives the state
 */
export function readOuter(curve: OuterCurve, surface_C: number, out: OuterState): void {
  const x = (surface_C - LOW) / STEP;
  if (!(x >= 0 && x < NODES - 1)) {
    curve.exact(surface_C, out);
    return;
  }
  const i = Math.floor(x);
  const g = curve.grid ?? new Float64Array(3 * NODES);
  curve.grid = g;
  const a = 3 * i;
  const b = a + 3;
  // a conductance is never zero
  if (g[a] === 0) fill(curve.exact, g, i, out);
  if (g[b] === 0) fill(curve.exact, g, i + 1, out);
  const t = x - i;
  const u = g[a] + (g[b] - g[a]) * t;
  out.conductance_WmK = u;
  out.surroundings_C = (g[a + 1] + (g[b + 1] - g[a + 1]) * t) / u;
  out.backingShare = g[a + 2] + (g[b + 2] - g[a + 2]) * t;
}

function fill(exact: OuterCurve['exact'], grid: Float64Array, i: number, out: OuterState): void {
  exact(LOW + STEP * i, out);
  grid[3 * i] = out.conductance_WmK;
  grid[3 * i + 1] = out.conductance_WmK * out.surroundings_C;
  grid[3 * i + 2] = out.backingShare;
}
