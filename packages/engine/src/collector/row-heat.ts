import { DomainError } from '../numeric/errors';
import type { OuterCurve, OuterState } from './outer-curve';

/** Heat of one metre of tube that holds water at one temperature. */
export interface MetreHeat {
  /** The surface's temperature settled. */
  readonly converged: boolean;
  /** Into the water [W/m]. */
  readonly heat_Wm: number;
  readonly surface_C: number;
  /** F′ [–] */
  readonly factor: number;
  readonly outer_WmK: number;
  readonly surroundings_C: number;
}

/**
 * Heat into water of a given temperature, per metre: q′ = F′[S′ − U′o(T − Te)], with U′o and Te at the surface
 * temperature that this heat itself makes, T + q′(R_i + R_w). It is what a test house measures at mean
 * temperature T, and what a panel does where flow is plenty.
 *
 * @param outside             surroundings
 * @param absorbed_Wm         sunlight absorbed [W/m]
 * @param backingAbsorbed_Wm  absorbed by the tube's strip of backing [W/m]
 * @param inner_mKW           R_i + R_w [m·K/W], ≥ 0
 * @param water_C             [°C]
 * @throws {DomainError} for a resistance that is negative
 */
export function metreHeat(
  outside: OuterCurve,
  absorbed_Wm: number,
  backingAbsorbed_Wm: number,
  inner_mKW: number,
  water_C: number,
): MetreHeat {
  if (!(inner_mKW >= 0)) throw new DomainError('inner resistance', inner_mKW, '≥ 0 m·K/W');
  const state: OuterState = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
  let surface = water_C;
  let heat = 0;
  let factor = 1;
  let converged = false;
  for (let round = 0; round < 60; round += 1) {
    outside.exact(surface, state);
    const u = state.conductance_WmK;
    factor = 1 / (1 + u * inner_mKW);
    heat =
      factor * (absorbed_Wm + state.backingShare * backingAbsorbed_Wm - u * (water_C - state.surroundings_C));
    const next = water_C + heat * inner_mKW;
    const change = Math.abs(next - surface);
    surface = next;
    converged = change < 1e-9;
    if (converged) break;
  }
  return {
    converged,
    heat_Wm: heat,
    surface_C: surface,
    factor,
    outer_WmK: state.conductance_WmK,
    surroundings_C: state.surroundings_C,
  };
}
