import { STEFAN_BOLTZMANN, ZERO_CELSIUS_K } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/** Test coefficients of an unglazed absorber, ISO 9806. */
export interface RatedCoefficients {
  /** η₀ [–] */
  readonly eta0: number;
  /** b_u [s/m] */
  readonly bu: number;
  /** b₁ [W/m²K] */
  readonly b1: number;
  /** b₂ [Ws/m³K] */
  readonly b2: number;
}

/** ε/α that the standard uses where none was measured. */
export const EMITTANCE_OVER_ABSORPTANCE = 0.95;

/** Average of published unglazed plastic absorbers, from memory. */
export const PUBLISHED_AVERAGE_ABSORBER: RatedCoefficients = { eta0: 0.85, bu: 0.04, b1: 11.56, b2: 4.37 };

/**
 * Net irradiance of an unglazed absorber, G″ = G + (ε/α)(E_L − σT_a⁴).
 *
 * @param irradiance_Wm2  G on the plane [W/m²]
 * @param longWave_Wm2    E_L falling on the plane [W/m²]
 * @param air_C           T_a [°C]
 * @param ratio           ε/α [–]
 * @example netIrradiance_Wm2(800, 330, 22) // 704.704
 * @see iso9806 in references.json
 */
export function netIrradiance_Wm2(
  irradiance_Wm2: number,
  longWave_Wm2: number,
  air_C: number,
  ratio = EMITTANCE_OVER_ABSORPTANCE,
): number {
  const t = air_C + ZERO_CELSIUS_K;
  return irradiance_Wm2 + ratio * (longWave_Wm2 - STEFAN_BOLTZMANN * t ** 4);
}

/**
 * Heat of a rated absorber per area at a mean water temperature.
 *
 *   q = η₀(1 − b_u·u)G″ − (b₁ + b₂u)(T_m − T_a)
 *
 * The wind term 1 − b_u·u is held at zero when wind drives it below.
 *
 * @param c        test coefficients
 * @param net_Wm2  G″ [W/m²]
 * @param wind_ms  u over the absorber [m/s], ≥ 0; tests reach 3
 * @param mean_C   T_m [°C]
 * @param air_C    T_a [°C]
 * @returns [W/m²]
 * @throws {DomainError} for negative wind
 * @example ratedHeat_Wm2({ eta0: 0.9, bu: 0.02, b1: 10, b2: 3 }, 704.704, 1, 28, 22) // 543.55
 */
export function ratedHeat_Wm2(
  c: RatedCoefficients,
  net_Wm2: number,
  wind_ms: number,
  mean_C: number,
  air_C: number,
): number {
  if (!(wind_ms >= 0)) throw new DomainError('wind', wind_ms, '≥ 0 m/s');
  const gain = c.eta0 * Math.max(0, 1 - c.bu * wind_ms) * net_Wm2;
  return gain - (c.b1 + c.b2 * wind_ms) * (mean_C - air_C);
}

/**
 * Efficiency q/G″, or null where the standard gives none (G″ ≤ 0).
 *
 * @example ratedEfficiency(543.55, 704.704) // 0.7713
 */
export function ratedEfficiency(heat_Wm2: number, net_Wm2: number): number | null {
  return net_Wm2 > 0 ? heat_Wm2 / net_Wm2 : null;
}
