import { DomainError } from '../numeric/errors';
import { airMass } from './air-mass';
import { cosIncidence } from './incidence';
import { circumsolarAndHorizon } from './perez';

const RAD = Math.PI / 180;

/** Models of how the sky's diffuse light is spread. Perez is the default; the others are its rivals. */
export type SkyModel = 'perez' | 'hay-davies' | 'isotropic';

/** The sky at one moment, not yet on any plane. */
export interface SkyLight {
  readonly sunZenith_deg: number;
  readonly sunAzimuth_deg: number;
  readonly directNormal_Wm2: number;
  readonly diffuseHorizontal_Wm2: number;
  readonly extraterrestrial_Wm2: number;
}

/** Light on a plane, apart by where it comes from, each on the plane itself [W/m²]. */
export interface PlaneLight {
  /** Cosine of the incidence angle of the sun; negative when it is behind. */
  readonly cosIncidence: number;
  readonly direct_Wm2: number;
  /** Sky light from around the sun, as if from the sun. */
  readonly circumsolar_Wm2: number;
  /** Sky light spread over the dome. */
  readonly background_Wm2: number;
  /** Brightening (or dimming, negative) near the horizon. */
  readonly horizon_Wm2: number;
  readonly ground_Wm2: number;
  /** Circumsolar light as a beam facing the sun; joins the direct normal light on tubes. */
  readonly circumsolarNormal_Wm2: number;
}

/**
 * Diffuse, direct and reflected light on a plane.
 *
 *   isotropic    D·(1 + cos β)/2
 *   Hay–Davies   D·[A·R_b + (1 − A)(1 + cos β)/2],  A = DNI/I₀
 *   Perez 1990   D·[(1 − F₁)(1 + cos β)/2 + F₁·a/b + F₂·sin β],  b = max(cos 85°, cos z)
 *   ground       ρ·GHI·(1 − cos β)/2
 *
 * The sun counts while its apparent elevation is above zero; below, all light is background.
 *
 * @param sky         the sky; irradiances [W/m²], angles [deg], zenith with refraction
 * @param tilt_deg    0 face up … 180 face down [deg]
 * @param facing_deg  azimuth the plane faces [deg]
 * @param albedo      reflectance of the ground [–], 0…1
 * @param model       default `perez`
 * @throws {DomainError} outside those ranges
 * @example tilt 60/150, sun 45.627/94.63, DNI 541.1, D 62.2, I₀ 1385.159 // sky diffuse 68.270 (Perez)
 * @see perez1990, hay1980, liu1963 in references.json
 */
export function lightOnPlane(
  sky: SkyLight,
  tilt_deg: number,
  facing_deg: number,
  albedo: number,
  model: SkyModel = 'perez',
): PlaneLight {
  const dni = sky.directNormal_Wm2;
  const dhi = sky.diffuseHorizontal_Wm2;
  if (!(dni >= 0)) throw new DomainError('direct normal irradiance', dni, '≥ 0 W/m²');
  if (!(dhi >= 0)) throw new DomainError('diffuse irradiance', dhi, '≥ 0 W/m²');
  if (!(tilt_deg >= 0 && tilt_deg <= 180)) throw new DomainError('tilt', tilt_deg, '[0, 180]°');
  if (!(sky.sunZenith_deg >= 0 && sky.sunZenith_deg <= 180))
    throw new DomainError('zenith angle of the sun', sky.sunZenith_deg, '[0, 180]°');
  if (!Number.isFinite(sky.sunAzimuth_deg))
    throw new DomainError('azimuth of the sun', sky.sunAzimuth_deg, 'finite');
  if (!Number.isFinite(facing_deg)) throw new DomainError('facing', facing_deg, 'finite');
  if (!(albedo >= 0 && albedo <= 1)) throw new DomainError('albedo', albedo, '[0, 1]');
  if (!(sky.extraterrestrial_Wm2 > 0))
    throw new DomainError('extraterrestrial irradiance', sky.extraterrestrial_Wm2, '> 0 W/m²');

  const cosZ = Math.cos(sky.sunZenith_deg * RAD);
  const up = cosZ > 0;
  const cosTheta = cosIncidence(sky.sunZenith_deg, sky.sunAzimuth_deg, tilt_deg, facing_deg);
  const cosTilt = Math.cos(tilt_deg * RAD);
  const seen = (1 + cosTilt) / 2;
  const front = up ? Math.max(0, cosTheta) : 0;
  const ghi = dhi + (up ? dni * cosZ : 0);

  let circumsolarNormal = 0;
  let horizon = 0;
  let background = dhi;
  if (up && dhi > 0 && model === 'perez') {
    const { f1, f2 } = circumsolarAndHorizon(
      sky.sunZenith_deg,
      dni,
      dhi,
      sky.extraterrestrial_Wm2,
      airMass(sky.sunZenith_deg),
    );
    circumsolarNormal = (dhi * f1) / Math.max(Math.cos(85 * RAD), cosZ);
    horizon = dhi * f2 * Math.sin(tilt_deg * RAD);
    background = dhi * (1 - f1);
  } else if (up && dhi > 0 && model === 'hay-davies') {
    const a = Math.min(1, dni / sky.extraterrestrial_Wm2);
    circumsolarNormal = (dhi * a) / Math.max(Math.cos(89 * RAD), cosZ);
    background = dhi * (1 - a);
  }
  const onPlane = background * seen;
  return {
    cosIncidence: cosTheta,
    direct_Wm2: up ? dni * front : 0,
    circumsolar_Wm2: circumsolarNormal * front,
    background_Wm2: onPlane,
    // a dark horizon can take away no more than the background gives
    horizon_Wm2: Math.max(horizon, -onPlane),
    ground_Wm2: (albedo * ghi * (1 - cosTilt)) / 2,
    circumsolarNormal_Wm2: circumsolarNormal,
  };
}

/** Sum of the sky's diffuse parts on the plane [W/m²]. */
export function skyDiffuse_Wm2(light: PlaneLight): number {
  return light.circumsolar_Wm2 + light.background_Wm2 + light.horizon_Wm2;
}

/** Everything that falls on the plane [W/m²]. */
export function totalOnPlane_Wm2(light: PlaneLight): number {
  return light.direct_Wm2 + skyDiffuse_Wm2(light) + light.ground_Wm2;
}
