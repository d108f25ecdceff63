import { DomainError } from '../numeric/errors';

/** Refractive index of water for sunlight [–]. */
const N_WATER = 1.333;
/** Reflectance of flat water for evenly diffuse light [–] (Fresnel, n = 1.333: 0.066). */
export const WATER_DIFFUSE_REFLECTANCE = 0.066;
/** Share of evenly diffuse light thrown back at the surface from below, 1 − (1 − 0.066)/n² [–]. */
const INNER_REFLECTANCE = 1 - (1 - WATER_DIFFUSE_REFLECTANCE) / N_WATER ** 2;
/** A diffuse ray's way through a layer, in its thickness. */
const DIFFUSE_WAY = 1.2;

/**
 * Share of unpolarised light that flat water reflects (Fresnel, n = 1.333).
 *
 *   R = ½·[sin²(θ−ϑ)/sin²(θ+ϑ) + tan²(θ−ϑ)/tan²(θ+ϑ)]      sin ϑ = sin θ/n
 *
 * @param cosIncidence cosine of the angle from the vertical [–], 0…1
 * @returns [–]
 * @throws {DomainError} outside that range
 * @example waterReflectance(0.5) // 0.0597, 60°
 */
export function waterReflectance(cosIncidence: number): number {
  if (!(cosIncidence >= 0 && cosIncidence <= 1 + 1e-12))
    throw new DomainError('cosine of incidence', cosIncidence, '[0, 1]');
  const c = Math.min(1, cosIncidence);
  const inner = Math.sqrt(1 - (1 - c * c) / N_WATER ** 2);
  const s = (c - N_WATER * inner) / (c + N_WATER * inner);
  const p = (N_WATER * c - inner) / (N_WATER * c + inner);
  return (s * s + p * p) / 2;
}

/** How a pool takes up sun: one figure from experience, or from depth and floor. */
export type PoolSunModel =
  | { readonly kind: 'absorptance'; readonly absorptance: number }
  | { readonly kind: 'depthAndFloor'; readonly depth_m: number; readonly floorReflectance: number };

/**
 * Absorbed share of direct light. A given absorptance (.85 light floor, .90 dark; ISO/TR 12596) already holds
 * the reflection up to 60° and falls with Fresnel's transmission beyond.
 *
 * @param model        how
 * @param cosIncidence cosine of the sun's zenith angle [–], 0…1
 * @returns [–] of the direct light that falls on the water's surface
 * @throws {DomainError} for an absorptance outside 0…1, a depth ≤ 0
 * @example absorbedDirect({ kind: 'absorptance', absorptance: 0.85 }, 0.9) // 0.85
 */
export function absorbedDirect(model: PoolSunModel, cosIncidence: number): number {
  const passed = 1 - waterReflectance(cosIncidence);
  if (model.kind === 'absorptance') {
    checkShare('solar absorptance of the pool', model.absorptance);
    return model.absorptance * Math.min(1, passed / (1 - waterReflectance(0.5)));
  }
  const way = 1 / Math.sqrt(1 - (1 - cosIncidence ** 2) / N_WATER ** 2);
  return passed * absorbedInside(model.depth_m, model.floorReflectance, way);
}

/** Absorbed share of diffuse light; see {@link absorbedDirect}. */
export function absorbedDiffuse(model: PoolSunModel): number {
  if (model.kind === 'absorptance') {
    checkShare('solar absorptance of the pool', model.absorptance);
    return model.absorptance;
  }
  return (1 - WATER_DIFFUSE_REFLECTANCE) * absorbedInside(model.depth_m, model.floorReflectance, DIFFUSE_WAY);
}

/**
 * Absorption of sunlight in water in four bands and the rest at once (Rabl & Nielsen 1975, from memory):
 * τ(x) = Σ µᵢ·exp(−ηᵢ·x).
 */
const BANDS = [
  [0.237, 0.032],
  [0.193, 0.45],
  [0.167, 3],
  [0.179, 35],
] as const;

/**
 * What of the light that has entered stays, in water or floor. A diffusely reflecting floor sends light up;
 * the surface throws 47 % of it back down; each band is a geometric series.
 */
function absorbedInside(depth_m: number, floorReflectance: number, way: number): number {
  if (!(depth_m > 0 && depth_m < Infinity)) throw new DomainError('depth', depth_m, '(0, ∞) m');
  checkShare('reflectance of the floor', floorReflectance);
  let escapes = 0;
  for (const [share, perMetre] of BANDS) {
    const down = Math.exp(-perMetre * depth_m * way);
    const up = Math.exp(-perMetre * depth_m * DIFFUSE_WAY);
    escapes +=
      (share * down * floorReflectance * up * (1 - INNER_REFLECTANCE)) /
      (1 - floorReflectance * up * up * INNER_REFLECTANCE);
  }
  return 1 - escapes;
}

function checkShare(quantity: string, value: number): void {
  if (!(value >= 0 && value <= 1)) throw new DomainError(quantity, value, '[0, 1]');
}
