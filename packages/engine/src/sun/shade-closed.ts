import { DomainError } from '../numeric/errors';

const RAD = Math.PI / 180;

/**
 * Length of the shadow a vertical wall throws on level ground, square to the wall.
 *
 *   s = h·cosΔ / tan(elevation)
 *
 * @param height_m      height of the wall above the ground it shades [m], > 0
 * @param elevation_deg sun's elevation [°], (0, 90]
 * @param turn_deg      angle between the sun's azimuth and the wall's normal [°]; beyond ±90 the wall's
 *                      other side is shaded and the length is 0 here
 * @returns shadow length [m]
 * @throws {DomainError} outside those ranges
 * @example wallShadowLength(2, 45, 0) // 2
 */
export function wallShadowLength(height_m: number, elevation_deg: number, turn_deg = 0): number {
  if (!(height_m > 0 && height_m < Infinity)) throw new DomainError('wall height', height_m, '(0, ∞) m');
  checkElevation(elevation_deg);
  return Math.max(0, (height_m * Math.cos(turn_deg * RAD)) / Math.tan(elevation_deg * RAD));
}

/**
 * Share of the sky (weighted for a level surface) that a strip along an endless wall still sees.
 *
 *   F = ½ + [√((a + w)² + h²) − √(a² + h²)] / (2w)
 *
 * Crossed strings (Hottel): strip of width w, its near edge a from the wall, wall of height h.
 *
 * @param height_m   wall above the strip [m], ≥ 0
 * @param distance_m wall to the strip's near edge [m], ≥ 0
 * @param width_m    of the strip [m], > 0
 * @returns share of the sky seen [–], ½…1
 * @throws {DomainError} outside those ranges
 * @example stripSkyShare(3, 0, 4) // 0.75
 */
export function stripSkyShare(height_m: number, distance_m: number, width_m: number): number {
  if (!(height_m >= 0 && height_m < Infinity)) throw new DomainError('wall height', height_m, '[0, ∞) m');
  if (!(distance_m >= 0 && distance_m < Infinity)) throw new DomainError('distance', distance_m, '[0, ∞) m');
  if (!(width_m > 0 && width_m < Infinity)) throw new DomainError('strip width', width_m, '(0, ∞) m');
  const far = Math.hypot(distance_m + width_m, height_m);
  const near = Math.hypot(distance_m, height_m);
  return 0.5 + (far - near) / (2 * width_m);
}

/**
 * Height of anything upright and pointed (a post, a wall, a spire of a tree) from its shadow on level ground.
 *
 * @param shadow_m      from its foot to the tip of the shadow [m], > 0
 * @param elevation_deg sun's elevation at that moment [°], (0, 90)
 * @returns height [m]
 * @throws {DomainError} outside those ranges
 * @example heightFromShadow(10, 45) // 10
 */
export function heightFromShadow(shadow_m: number, elevation_deg: number): number {
  if (!(shadow_m > 0 && shadow_m < Infinity)) throw new DomainError('shadow length', shadow_m, '(0, ∞) m');
  if (!(elevation_deg > 0 && elevation_deg < 90))
    throw new DomainError('sun’s elevation', elevation_deg, '(0, 90)°');
  return shadow_m * Math.tan(elevation_deg * RAD);
}

/**
 * Height of a round-crowned tree from the far end of its shadow. The tip of the shadow is thrown by the
 * crown's shoulder, not by its top, so the plain rule overstates the tree.
 *
 *   s = z_c/tan e + √(r² + c²/tan² e)        z_c = (H + b)/2, c = (H − b)/2
 *
 * solved for the top H of an ellipsoid crown of radius r whose underside is at b. With t = tan e:
 * s·t − (H + b)/2 = √(r²t² + (H − b)²/4) is linear in H after squaring:
 *
 *   H = (s²t² − s·t·b − r²t²) / (s·t − b)
 *
 * @param shadow_m      from the foot of the trunk to the far end of the shadow [m]
 * @param elevation_deg [°], (0, 90)
 * @param crownRadius_m [m], ≥ 0 (0 gives the plain rule)
 * @param crownBase_m   underside of the crown above ground [m], ≥ 0
 * @returns height of the tree [m]
 * @throws {DomainError} when the shadow is too short for such a crown
 * @example treeHeightFromShadow(12, 45, 3, 2) // 11.1
 */
export function treeHeightFromShadow(
  shadow_m: number,
  elevation_deg: number,
  crownRadius_m: number,
  crownBase_m: number,
): number {
  const plain = heightFromShadow(shadow_m, elevation_deg);
  if (!(crownRadius_m >= 0)) throw new DomainError('crown radius', crownRadius_m, '[0, ∞) m');
  if (!(crownBase_m >= 0 && crownBase_m < plain))
    throw new DomainError('crown base', crownBase_m, `[0, ${plain.toPrecision(4)}) m for that shadow`);
  const rt = crownRadius_m * Math.tan(elevation_deg * RAD);
  const height = (plain * plain - plain * crownBase_m - rt * rt) / (plain - crownBase_m);
  if (!(height > crownBase_m))
    throw new DomainError('crown radius', crownRadius_m, 'narrower than the shadow is long');
  return height;
}

function checkElevation(elevation_deg: number): void {
  if (!(elevation_deg > 0 && elevation_deg <= 90))
    throw new DomainError('sun’s elevation', elevation_deg, '(0, 90]°');
}
