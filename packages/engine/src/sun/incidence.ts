import { dot, skyDirection } from './vectors';

/**
 * Cosine of the angle between the sun and the normal of a plane; negative when the sun is behind it.
 *
 * @param sunZenith_deg    [deg]
 * @param sunAzimuth_deg   from north, clockwise [deg]
 * @param tilt_deg         0 lies face up, 90 stands, 180 faces down [deg]
 * @param facing_deg       azimuth the plane faces, from north, clockwise [deg]
 * @example cosIncidence(45.627, 94.63, 60, 150) // 0.701446
 */
export function cosIncidence(
  sunZenith_deg: number,
  sunAzimuth_deg: number,
  tilt_deg: number,
  facing_deg: number,
): number {
  return dot(skyDirection(sunZenith_deg, sunAzimuth_deg), skyDirection(tilt_deg, facing_deg));
}
