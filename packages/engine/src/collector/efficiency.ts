import { DomainError } from '../numeric/errors';

/** Areas of a row of tubes: an efficiency without its area says nothing. */
export interface RowArea {
  /** Width of the row from outer edge to outer edge, times the length of the tubes. */
  readonly gross_m2: number;
  /** Diameter times length, all tubes: what ISO 9806 calls the absorber's. */
  readonly absorber_m2: number;
}

/**
 * Areas of parallel tubes of one length.
 *
 * @param across_m    places across the row [m], any order, at least one
 * @param diameter_m  outer, of each [m]
 * @param length_m    of the tubes [m], > 0
 * @throws {DomainError} for no tube or a length that is not positive
 * @example rowArea([0, 0.05], [0.02, 0.02], 10) // gross 0.7, absorber 0.4
 */
export function rowArea(
  across_m: ArrayLike<number>,
  diameter_m: ArrayLike<number>,
  length_m: number,
): RowArea {
  if (!(across_m.length >= 1)) throw new DomainError('number of tubes', across_m.length, '≥ 1');
  if (!(length_m > 0)) throw new DomainError('length', length_m, '> 0 m');
  let low = Infinity;
  let high = -Infinity;
  let widths = 0;
  for (let i = 0; i < across_m.length; i += 1) {
    low = Math.min(low, across_m[i] - diameter_m[i] / 2);
    high = Math.max(high, across_m[i] + diameter_m[i] / 2);
    widths += diameter_m[i];
  }
  return { gross_m2: (high - low) * length_m, absorber_m2: widths * length_m };
}

/**
 * Heat over the light that falls on an area, or null in the dark.
 *
 * @param heat_W          [W]
 * @param irradiance_Wm2  on the plane [W/m²], ≥ 0
 * @param area_m2         [m²], > 0
 * @throws {DomainError} outside those ranges
 * @example efficiency(3000, 900, 5) // 0.667
 */
export function efficiency(heat_W: number, irradiance_Wm2: number, area_m2: number): number | null {
  if (!(irradiance_Wm2 >= 0)) throw new DomainError('irradiance', irradiance_Wm2, '≥ 0 W/m²');
  if (!(area_m2 > 0)) throw new DomainError('area', area_m2, '> 0 m²');
  return irradiance_Wm2 > 0 ? heat_W / (irradiance_Wm2 * area_m2) : null;
}
