import { DomainError } from '@sunlap/engine/numeric/errors';
import { treeHeightFromShadow } from '@sunlap/engine/sun/shade-closed';

/** A tree as far as it is known before its height. */
export interface CrownAsSeen {
  /** From the foot of the trunk to the far end of the shadow on level ground [m]. */
  readonly shadow_m: number;
  /** Height of the sun at that moment, refraction included [°]. */
  readonly elevation_deg: number;
  readonly crownRadius_m: number;
  /** Underside of the crown over the ground [m]. */
  readonly crownBase_m: number;
}

export interface HeightFromShadow {
  readonly height_m: number;
  /** With half a degree of sun and 2 % of length either way [m]. */
  readonly low_m: number;
  readonly high_m: number;
}

/** Under this sun half a degree is a sixth of the height and more [°]. */
export const LOWEST_SUN_deg = 3;

/**
 * Height of a round-crowned tree from its shadow's length and the time of it. The far end of the shadow is thrown by the
 * crown's shoulder, so that the tree is lower than length × tan(elevation); see `treeHeightFromShadow`.
 *
 * @returns null while the sun is under 3° or when no such crown throws so short a shadow
 * @example treeHeight({ shadow_m: 12, elevation_deg: 45, crownRadius_m: 3, crownBase_m: 2 })?.height_m // 11.1
 */
export function treeHeight(seen: CrownAsSeen): HeightFromShadow | null {
  const { shadow_m, elevation_deg, crownRadius_m, crownBase_m } = seen;
  if (!(elevation_deg >= LOWEST_SUN_deg && elevation_deg < 90)) return null;
  const at = (length: number, lift_deg: number): number | null => {
    try {
      const sun_deg = Math.min(89.9, elevation_deg + lift_deg);
      return treeHeightFromShadow(shadow_m * length, sun_deg, crownRadius_m, crownBase_m);
    } catch (error) {
      if (error instanceof DomainError) return null;
      throw error;
    }
  };
  const height_m = at(1, 0);
  if (height_m === null) return null;
  return { height_m, low_m: at(0.98, -0.5) ?? crownBase_m, high_m: at(1.02, 0.5) ?? height_m };
}
