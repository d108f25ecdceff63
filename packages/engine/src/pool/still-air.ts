import { airDensity, airViscosity } from '../fluids/moist-air';
import { GRAVITY_MS2, STANDARD_ATMOSPHERE_PA, ZERO_CELSIUS_K } from '../numeric/constants';
import { DomainError } from '../numeric/errors';
import { latentHeat } from './latent-heat';

const R_VAPOUR = 461.5; // gas constant of water vapour [J/kg·K]
const LIGHTER = 1 - 0.621945; // vapour is lighter than air: T_v = T/(1 − 0.378·e/p)

/**
 * Evaporation conductance of water under still air: natural convection carries the vapour away because warm
 * and moist air is light. Turbulent plate facing up, heat and mass alike:
 *
 *   Sh = 0.14·(Gr·Sc)^⅓      h_m = 0.14·D·[g·(T_vw − T_va)/T_va / (ν·D)]^⅓      k = h_m·L/(R_v·T)
 *
 * T_v virtual temperatures (McAdams 1954 for 0.14; D = 2.11e-5·(T/273.15)^1.94·p0/p, Pruppacher & Klett
 * 1997). The length drops out. No wind correlation may promise less than this; it is zero when the air over
 * the water is heavier than the air above, and so holds still.
 *
 * @param water_C        [°C], 0…60
 * @param waterVapour_Pa saturation pressure at that temperature [Pa]
 * @param air_C          [°C]
 * @param airVapour_Pa   [Pa]
 * @param pressure_Pa    [Pa]
 * @returns [W/m²Pa], ≥ 0
 * @throws {DomainError} outside the ranges of the air functions
 * @example stillAirConductance(28, 3782, 22, 1323, 101325) // 0.0564
 */
export function stillAirConductance(
  water_C: number,
  waterVapour_Pa: number,
  air_C: number,
  airVapour_Pa: number,
  pressure_Pa: number,
): number {
  if (!(pressure_Pa > waterVapour_Pa && pressure_Pa > airVapour_Pa))
    throw new DomainError('air pressure', pressure_Pa, 'above the vapour pressures, Pa');
  const atWater = (water_C + ZERO_CELSIUS_K) / (1 - (LIGHTER * waterVapour_Pa) / pressure_Pa);
  const above = (air_C + ZERO_CELSIUS_K) / (1 - (LIGHTER * airVapour_Pa) / pressure_Pa);
  const lift = (atWater - above) / above;
  if (!(lift > 0)) return 0;
  const film_C = (water_C + air_C) / 2;
  const film_K = film_C + ZERO_CELSIUS_K;
  const nu = airViscosity(film_C) / airDensity(film_C, pressure_Pa);
  const d = 2.11e-5 * (film_K / ZERO_CELSIUS_K) ** 1.94 * (STANDARD_ATMOSPHERE_PA / pressure_Pa);
  const hm = 0.14 * d * Math.cbrt((GRAVITY_MS2 * lift) / (nu * d));
  return (hm * latentHeat(water_C)) / (R_VAPOUR * film_K);
}
