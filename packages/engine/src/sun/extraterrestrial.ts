import { DomainError } from '../numeric/errors';

/** Sun's power on a square metre facing it at one astronomical unit [W/m²], as Duffie & Beckman have it. */
export const SOLAR_CONSTANT_WM2 = 1367;
const RAD = Math.PI / 180;

/**
 * Sunlight above the air on a surface facing the sun, from the day of the year (Spencer 1971).
 *
 *   G_on = G_sc·(1.00011 + 0.034221 cos B + 0.00128 sin B + 0.000719 cos 2B + 0.000077 sin 2B)
 *   B = 2π(n − 1)/365
 *
 * @param dayOfYear          1 January is 1; fractions allowed [–], 1…367
 * @param solarConstant_Wm2  [W/m²]
 * @returns [W/m²]
 * @throws {DomainError} outside those ranges
 * @example extraterrestrialNormal_Wm2(300) // 1384.55
 * @see spencer1971 in references.json; Duffie & Beckman eq. 1.4.1b
 */
export function extraterrestrialNormal_Wm2(
  dayOfYear: number,
  solarConstant_Wm2 = SOLAR_CONSTANT_WM2,
): number {
  if (!(dayOfYear >= 1 && dayOfYear <= 367)) throw new DomainError('day of year', dayOfYear, '[1, 367]');
  if (!(solarConstant_Wm2 > 0)) throw new DomainError('solar constant', solarConstant_Wm2, '> 0 W/m²');
  const b = (2 * Math.PI * (dayOfYear - 1)) / 365;
  return (
    solarConstant_Wm2 *
    (1.00011 +
      0.034221 * Math.cos(b) +
      0.00128 * Math.sin(b) +
      0.000719 * Math.cos(2 * b) +
      0.000077 * Math.sin(2 * b))
  );
}

/**
 * The same from the distance of the sun, where a true position is at hand: G_sc/R².
 *
 * @param distance_au        [au], > 0
 * @param solarConstant_Wm2  [W/m²]
 * @example extraterrestrialAtDistance_Wm2(0.9965) // 1376.6
 */
export function extraterrestrialAtDistance_Wm2(
  distance_au: number,
  solarConstant_Wm2 = SOLAR_CONSTANT_WM2,
): number {
  if (!(distance_au > 0)) throw new DomainError('distance of the sun', distance_au, '> 0 au');
  return solarConstant_Wm2 / (distance_au * distance_au);
}

/**
 * Declination by Cooper's formula, good to about half a degree: 23.45°·sin[360(284 + n)/365].
 *
 * @param dayOfYear  [–], 1…367
 * @example declinationCooper_deg(105) // 9.41
 * @see Duffie & Beckman eq. 1.6.1a
 */
export function declinationCooper_deg(dayOfYear: number): number {
  return 23.45 * Math.sin((360 / 365) * (284 + dayOfYear) * RAD);
}

/**
 * Sunlight above the air on the horizontal over a day.
 *
 *   H₀ = 86400/π · G_on·(cos φ cos δ sin ω_s + ω_s sin φ sin δ)      (Duffie & Beckman eq. 1.10.3)
 *
 * Sunset angle clamped to 0…π, so the polar day and night come out right.
 *
 * @param latitude_deg       [deg], −90…90
 * @param dayOfYear          [–], 1…367
 * @param solarConstant_Wm2  [W/m²]
 * @returns [J/m²]
 * @throws {DomainError} outside those ranges
 * @example dailyExtraterrestrial_Jm2(43, 105) // 33.8e6
 */
export function dailyExtraterrestrial_Jm2(
  latitude_deg: number,
  dayOfYear: number,
  solarConstant_Wm2 = SOLAR_CONSTANT_WM2,
): number {
  if (!(Math.abs(latitude_deg) <= 90)) throw new DomainError('latitude', latitude_deg, '[-90, 90]°');
  const phi = latitude_deg * RAD;
  const delta = declinationCooper_deg(dayOfYear) * RAD;
  const sinsin = Math.sin(phi) * Math.sin(delta);
  const coscos = Math.max(Math.cos(phi) * Math.cos(delta), 1e-12);
  const ws = Math.acos(Math.min(1, Math.max(-1, -sinsin / coscos)));
  const day = (86_400 / Math.PI) * (coscos * Math.sin(ws) + ws * sinsin);
  return Math.max(0, extraterrestrialNormal_Wm2(dayOfYear, solarConstant_Wm2) * day);
}
