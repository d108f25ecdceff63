import { DomainError } from '../numeric/errors';

const RAD = Math.PI / 180;

/** Light on the ground: on the horizontal, facing the sun, and from the sky. */
export interface Irradiance {
  readonly globalHorizontal_Wm2: number;
  readonly directNormal_Wm2: number;
  readonly diffuseHorizontal_Wm2: number;
}

/**
 * Clear sky after Ineichen & Perez 2002 with Linke turbidity.
 *
 *   fh1 = e^(−h/8000)   fh2 = e^(−h/1250)   cg1 = 5.09·10⁻⁵h + 0.868   cg2 = 3.92·10⁻⁵h + 0.0387
 *   GHI = cg1·I₀·cos z·e^{−cg2·m·[fh1 + fh2(TL − 1)]}
 *   DNI = min{ (0.664 + 0.163/fh1)·I₀·e^[−0.09·m·(TL − 1)],
 *              GHI·[1 − (0.1 − 0.2e^−TL)/(0.1 + 0.882/fh1)]/cos z }
 *
 * The later factor e^(0.01·m^1.8) of some programs is left out, as in the journal paper.
 *
 * @param apparentZenith_deg    refraction included [deg]; dark from 90°
 * @param absoluteAirMass       pressure-corrected [–], > 0
 * @param linkeTurbidity        2 very clear, 3 clear, 4–5 humid, 6+ hazy [–], 1…15
 * @param elevation_m           [m], −500…11000
 * @param extraterrestrial_Wm2  facing the sun above the air [W/m²], > 0
 * @throws {DomainError} outside those ranges
 * @see ineichen2002, perez2002 in references.json
 */
export function clearSkyIneichen(
  apparentZenith_deg: number,
  absoluteAirMass: number,
  linkeTurbidity: number,
  elevation_m: number,
  extraterrestrial_Wm2: number,
): Irradiance {
  if (!(apparentZenith_deg >= -0.01 && apparentZenith_deg <= 180.01))
    throw new DomainError('zenith', apparentZenith_deg, '[0, 180]°');
  if (!(absoluteAirMass > 0)) throw new DomainError('air mass', absoluteAirMass, '> 0');
  if (!(linkeTurbidity >= 1 && linkeTurbidity <= 15))
    throw new DomainError('Linke turbidity', linkeTurbidity, '[1, 15]');
  if (!(elevation_m >= -500 && elevation_m <= 11_000))
    throw new DomainError('elevation', elevation_m, '[-500, 11000] m');
  if (!(extraterrestrial_Wm2 > 0))
    throw new DomainError('extraterrestrial irradiance', extraterrestrial_Wm2, '> 0 W/m²');
  if (apparentZenith_deg >= 90)
    return { globalHorizontal_Wm2: 0, directNormal_Wm2: 0, diffuseHorizontal_Wm2: 0 };

  const cosZ = Math.cos(apparentZenith_deg * RAD);
  const am = absoluteAirMass;
  const tl = linkeTurbidity;
  const i0 = extraterrestrial_Wm2;
  const fh1 = Math.exp(-elevation_m / 8000);
  const fh2 = Math.exp(-elevation_m / 1250);
  const cg1 = 5.09e-5 * elevation_m + 0.868;
  const cg2 = 3.92e-5 * elevation_m + 0.0387;
  const ghi = cg1 * i0 * cosZ * Math.exp(-cg2 * am * (fh1 + fh2 * (tl - 1)));
  const beam = (0.664 + 0.163 / fh1) * i0 * Math.exp(-0.09 * am * (tl - 1));
  const cap = (ghi * (1 - (0.1 - 0.2 * Math.exp(-tl)) / (0.1 + 0.882 / fh1))) / cosZ;
  const dni = Math.max(0, Math.min(beam, cap));
  return {
    globalHorizontal_Wm2: ghi,
    directNormal_Wm2: dni,
    diffuseHorizontal_Wm2: Math.max(0, ghi - dni * cosZ),
  };
}

/**
 * Clear-sky global irradiance from the zenith alone (Haurwitz 1945): a check on the other.
 *
 *   GHI = 1098·cos z·e^(−0.059/cos z)
 *
 * @param apparentZenith_deg  [deg], 0…180
 * @returns [W/m²]
 * @throws {DomainError} outside that range
 * @example clearSkyHaurwitz_Wm2(56.468) // 545.10
 * @see haurwitz1945 in references.json
 */
export function clearSkyHaurwitz_Wm2(apparentZenith_deg: number): number {
  if (!(apparentZenith_deg >= -0.01 && apparentZenith_deg <= 180.01))
    throw new DomainError('zenith', apparentZenith_deg, '[0, 180]°');
  const cosZ = Math.cos(apparentZenith_deg * RAD);
  return cosZ > 1e-4 ? 1098 * cosZ * Math.exp(-0.059 / cosZ) : 0;
}
