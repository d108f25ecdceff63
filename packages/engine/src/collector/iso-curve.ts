import { DomainError } from '../numeric/errors';
import type { RatedCoefficients } from './rated-absorber';

/** The panel as a test house would print it, at one wind. */
export interface IsoLine {
  readonly wind_ms: number;
  /** q/G″ at T_m = T_a [–] */
  readonly eta0: number;
  /** −dq/dT_m [W/m²K] */
  readonly slope_Wm2K: number;
}

/** Lines for several winds and the four coefficients fitted through them. */
export interface IsoCurve {
  readonly lines: readonly IsoLine[];
  readonly coefficients: RatedCoefficients;
  /** Largest departure of a line's η₀ from the fit [–], and of its slope [W/m²K]. */
  readonly etaError: number;
  readonly slopeError_Wm2K: number;
}

/** Half the span of mean temperature over which the slope is taken [K]. */
const SPAN = 10;

/**
 * Curve of an unglazed absorber in the form of ISO 9806, from a model of the panel:
 * q = η₀(1 − b_u u)G″ − (b₁ + b₂u)(T_m − T_a), least squares over the winds.
 *
 * @param heat      heat per area [W/m²] at mean water temperature [°C] and wind at the panel [m/s]
 * @param air_C     [°C]
 * @param net_Wm2   G″ of those conditions [W/m²], > 0
 * @param winds_ms  at least two different; the standard's tests use up to 3 m/s
 * @throws {DomainError} for fewer than two winds, G″ not positive
 * @see iso9806 in references.json
 */
export function isoCurve(
  heat: (mean_C: number, wind_ms: number) => number,
  air_C: number,
  net_Wm2: number,
  winds_ms: readonly number[],
): IsoCurve {
  if (!(net_Wm2 > 0)) throw new DomainError('net irradiance', net_Wm2, '> 0 W/m²');
  if (!(new Set(winds_ms).size >= 2)) throw new DomainError('number of winds', winds_ms.length, '≥ 2');
  const lines = winds_ms.map((wind_ms) => ({
    wind_ms,
    eta0: heat(air_C, wind_ms) / net_Wm2,
    slope_Wm2K: (heat(air_C - SPAN, wind_ms) - heat(air_C + SPAN, wind_ms)) / (2 * SPAN),
  }));
  const eta = straightLine(
    winds_ms,
    lines.map((l) => l.eta0),
  );
  const slope = straightLine(
    winds_ms,
    lines.map((l) => l.slope_Wm2K),
  );
  const coefficients = { eta0: eta.at0, bu: -eta.slope / eta.at0, b1: slope.at0, b2: slope.slope };
  return {
    lines,
    coefficients,
    etaError: Math.max(...lines.map((l) => Math.abs(l.eta0 - eta.at0 - eta.slope * l.wind_ms))),
    slopeError_Wm2K: Math.max(
      ...lines.map((l) => Math.abs(l.slope_Wm2K - slope.at0 - slope.slope * l.wind_ms)),
    ),
  };
}

/** Heat at a mean temperature, and whether that mean was met. */
export interface HeatAtMean {
  readonly converged: boolean;
  readonly heat_W: number;
}

/**
 * Heat of a whole panel at a mean water temperature, by moving its inlet until (inlet + outlet)/2 is there: what
 * `isoCurve` asks for, where the panel's own flow counts.
 *
 * @param solve   the panel at an inlet temperature: heat [W] and outlet [°C]
 * @param mean_C  wished mean [°C]
 * @returns heat [W]; converged when the mean is met within 1e-6 K
 * @throws {DomainError} when nothing flows
 */
export function heatAtMean(
  solve: (inlet_C: number) => { readonly heat_W: number; readonly outlet_C: number | null },
  mean_C: number,
): HeatAtMean {
  let inlet = mean_C;
  let heat = 0;
  for (let round = 0; round < 30; round += 1) {
    const out = solve(inlet);
    if (out.outlet_C === null) throw new DomainError('flow through the panel', 0, '> 0');
    heat = out.heat_W;
    // the rise hardly depends on the inlet: this step converges like (1 − e^(−NTU))/2
    const next = mean_C - (out.outlet_C - inlet) / 2;
    const change = Math.abs(next - inlet);
    inlet = next;
    if (change < 1e-6) return { converged: true, heat_W: heat };
  }
  return { converged: false, heat_W: heat };
}

function straightLine(xs: readonly number[], ys: readonly number[]): { at0: number; slope: number } {
  const n = xs.length;
  const mx = xs.reduce((s, x) => s + x, 0) / n;
  const my = ys.reduce((s, y) => s + y, 0) / n;
  let sxx = 0;
  let sxy = 0;
  for (let i = 0; i < n; i += 1) {
    sxx += (xs[i] - mx) ** 2;
    sxy += (xs[i] - mx) * (ys[i] - my);
  }
  const slope = sxy / sxx;
  return { at0: my - slope * mx, slope };
}
