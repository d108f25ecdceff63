import { DomainError } from '../numeric/errors';
import type { Irradiance } from './clear-sky';

/**
 * Diffuse share of global irradiance from the clearness index (Erbs, Klein & Duffie 1982).
 *
 *   kt ≤ 0.22          1 − 0.09 kt
 *   0.22 < kt ≤ 0.80   0.9511 − 0.1604 kt + 4.388 kt² − 16.638 kt³ + 12.336 kt⁴
 *   kt > 0.80          0.165
 *
 * @param clearness  kt [–], ≥ 0
 * @returns [–], 0.165…1
 * @throws {DomainError} when negative or not a number
 * @example diffuseShareErbs(0.5) // 0.6591
 * @see erbs1982 in references.json; Duffie & Beckman eq. 2.10.1
 */
export function diffuseShareErbs(clearness: number): number {
  if (!(clearness >= 0)) throw new DomainError('clearness index', clearness, '≥ 0');
  const kt = clearness;
  if (kt <= 0.22) return 1 - 0.09 * kt;
  if (kt <= 0.8) return 0.9511 - 0.1604 * kt + 4.388 * kt ** 2 - 16.638 * kt ** 3 + 12.336 * kt ** 4;
  return 0.165;
}

/**
 * Splits measured global irradiance into direct and diffuse. Where the sun is so low that the direct part
 * would be brighter than above the air, the excess is taken as diffuse.
 *
 * @param globalHorizontal_Wm2  [W/m²], ≥ 0
 * @param apparentZenith_deg    [deg]; from 90° on all light is diffuse
 * @param extraterrestrial_Wm2  facing the sun above the air [W/m²], > 0
 * @throws {DomainError} outside those ranges
 * @example splitGlobal(500, 60, 1367).diffuseHorizontal_Wm2 // 100.68
 */
export function splitGlobal(
  globalHorizontal_Wm2: number,
  apparentZenith_deg: number,
  extraterrestrial_Wm2: number,
): Irradiance {
  if (!(globalHorizontal_Wm2 >= 0))
    throw new DomainError('global irradiance', globalHorizontal_Wm2, '≥ 0 W/m²');
  if (!(extraterrestrial_Wm2 > 0))
    throw new DomainError('extraterrestrial irradiance', extraterrestrial_Wm2, '> 0 W/m²');
  const cosZ = Math.cos((apparentZenith_deg * Math.PI) / 180);
  const all = globalHorizontal_Wm2;
  if (!(cosZ > 1e-6)) return { globalHorizontal_Wm2: all, directNormal_Wm2: 0, diffuseHorizontal_Wm2: all };
  const diffuse = all * diffuseShareErbs(all / (extraterrestrial_Wm2 * cosZ));
  const dni = Math.min((all - diffuse) / cosZ, extraterrestrial_Wm2);
  return { globalHorizontal_Wm2: all, directNormal_Wm2: dni, diffuseHorizontal_Wm2: all - dni * cosZ };
}
