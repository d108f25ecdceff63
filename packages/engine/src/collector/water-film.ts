import { waterConductivity, waterPrandtl, waterViscosity } from '../fluids/water';

/** Water properties a film needs. */
export interface WaterFilm {
  conductivity_WmK: number;
  viscosity_Pas: number;
  prandtl: number;
}

const NODES = 101;
const TABLE = new Float64Array(3 * NODES).fill(Number.NaN);

/**
 * Properties for the inside film, linear between whole degrees that are computed when first asked for: within
 * 0.01 % of the equations. Held at the ends of 0…100 °C, where a dry or frozen tube has no film anyway.
 *
 * @param water_C  mean temperature of the water [°C]
 * @param out      receives the properties
 */
export function waterFilm(water_C: number, out: WaterFilm): void {
  const t = Math.min(100, Math.max(0, water_C));
  const i = Math.min(NODES - 2, Math.floor(t));
  fill(i);
  fill(i + 1);
  const x = t - i;
  const a = 3 * i;
  out.conductivity_WmK = TABLE[a] + (TABLE[a + 3] - TABLE[a]) * x;
  out.viscosity_Pas = TABLE[a + 1] + (TABLE[a + 4] - TABLE[a + 1]) * x;
  out.prandtl = TABLE[a + 2] + (TABLE[a + 5] - TABLE[a + 2]) * x;
}

function fill(i: number): void {
  if (!Number.isNaN(TABLE[3 * i])) return;
  TABLE[3 * i] = waterConductivity(i);
  TABLE[3 * i + 1] = waterViscosity(i);
  TABLE[3 * i + 2] = waterPrandtl(i);
}
