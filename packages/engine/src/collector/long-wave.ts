import { STEFAN_BOLTZMANN, ZERO_CELSIUS_K } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/** Clear-sky emittance models. Berdahl–Martin is the default; the others are its rivals. */
export type SkyEmittanceModel = 'berdahl-martin' | 'brunt' | 'clark-allen';

/**
 * Emittance of the clear sky for long wave.
 *
 *   Berdahl & Martin 1984   0.711 + 0.56 x + 0.73 x²,  x = T_dp/100
 *   Brunt 1932              0.52 + 0.065 √e,  e in hPa
 *   Clark & Allen 1978      0.787 + 0.764·ln(T_dp/273),  T_dp in K
 *
 * The daily term of Berdahl & Martin (±0.013 around noon and midnight) is left out.
 *
 * @param dewPoint_C          [°C], −60…60
 * @param vapourPressure_Pa   [Pa], ≥ 0
 * @param model               default `berdahl-martin`
 * @returns [–], 0.3…1
 * @throws {DomainError} outside those ranges
 * @example clearSkyEmittance(11.1, 1323) // 0.7822
 * @see berdahl1984, brunt1932, clark1978 in references.json
 */
export function clearSkyEmittance(
  dewPoint_C: number,
  vapourPressure_Pa: number,
  model: SkyEmittanceModel = 'berdahl-martin',
): number {
  if (!(dewPoint_C >= -60 && dewPoint_C <= 60))
    throw new DomainError('dew point', dewPoint_C, '[-60, 60] °C');
  if (!(vapourPressure_Pa >= 0 && vapourPressure_Pa < 3e4))
    throw new DomainError('vapour pressure', vapourPressure_Pa, '[0, 3e4) Pa');
  const x = dewPoint_C / 100;
  let e: number;
  if (model === 'berdahl-martin') e = 0.711 + 0.56 * x + 0.73 * x * x;
  else if (model === 'brunt') e = 0.52 + 0.065 * Math.sqrt(vapourPressure_Pa / 100);
  else e = 0.787 + 0.764 * Math.log((dewPoint_C + ZERO_CELSIUS_K) / 273);
  return Math.min(1, Math.max(0.3, e));
}

/**
 * Emittance under cloud (Unsworth & Monteith 1975, from memory): (1 − 0.84 n)·ε_clear + 0.84 n.
 *
 * @param clearEmittance  [–], 0…1
 * @param cloud           share of the sky covered [–], 0…1
 * @throws {DomainError} outside those ranges
 * @example cloudySkyEmittance(0.78, 0.5) // 0.8724
 */
export function cloudySkyEmittance(clearEmittance: number, cloud: number): number {
  if (!(clearEmittance >= 0 && clearEmittance <= 1))
    throw new DomainError('sky emittance', clearEmittance, '[0, 1]');
  if (!(cloud >= 0 && cloud <= 1)) throw new DomainError('cloud cover', cloud, '[0, 1]');
  return (1 - 0.84 * cloud) * clearEmittance + 0.84 * cloud;
}

/**
 * Temperature of a black dome that radiates like the sky: ε^¼·T_a.
 *
 * @param air_C      air temperature [°C], > −100
 * @param emittance  of the sky [–], 0…1
 * @returns [°C]
 * @throws {DomainError} outside those ranges
 * @example skyTemperature_C(22, 0.7822) // 4.42
 */
export function skyTemperature_C(air_C: number, emittance: number): number {
  if (!(air_C > -100 && air_C < 100)) throw new DomainError('air temperature', air_C, '(-100, 100) °C');
  if (!(emittance > 0 && emittance <= 1)) throw new DomainError('sky emittance', emittance, '(0, 1]');
  return emittance ** 0.25 * (air_C + ZERO_CELSIUS_K) - ZERO_CELSIUS_K;
}

/**
 * Coefficient of long wave between a grey surface and black surroundings, exact at these two temperatures:
 * ε·σ·(T₁ + T₂)(T₁² + T₂²).
 *
 * @param surface_C       [°C]
 * @param surroundings_C  [°C]
 * @param emittance       of the surface [–]
 * @returns [W/m²K]
 * @example radiationFilm(35, 22, 0.92) // 5.73
 */
export function radiationFilm(surface_C: number, surroundings_C: number, emittance: number): number {
  const a = surface_C + ZERO_CELSIUS_K;
  const b = surroundings_C + ZERO_CELSIUS_K;
  return emittance * STEFAN_BOLTZMANN * (a + b) * (a * a + b * b);
}

/**
 * Long wave that falls on a plane, E_L: sky over its share of the hemisphere, the rest at air temperature.
 *
 *   E_L = σ·[φ·T_sky⁴ + (1 − φ)·T_a⁴],  φ = (1 + cos tilt)/2 · share of the sky still seen
 *
 * @param tilt_deg   of the plane [deg], 0…180
 * @param sky_C      temperature of the sky [°C]
 * @param air_C      air temperature [°C]
 * @param skyShare   share of the sky still seen past obstacles [–], 0…1
 * @returns [W/m²]
 * @throws {DomainError} outside those ranges
 * @example longWaveOnPlane_Wm2(0, 4.4, 22) // 336.5
 */
export function longWaveOnPlane_Wm2(tilt_deg: number, sky_C: number, air_C: number, skyShare = 1): number {
  if (!(tilt_deg >= 0 && tilt_deg <= 180)) throw new DomainError('tilt', tilt_deg, '[0, 180]°');
  if (!(skyShare >= 0 && skyShare <= 1)) throw new DomainError('share of the sky', skyShare, '[0, 1]');
  if (!(sky_C > -150 && sky_C < 100)) throw new DomainError('sky temperature', sky_C, '(-150, 100) °C');
  if (!(air_C > -100 && air_C < 100)) throw new DomainError('air temperature', air_C, '(-100, 100) °C');
  const phi = (skyShare * (1 + Math.cos((tilt_deg * Math.PI) / 180))) / 2;
  const sky = (sky_C + ZERO_CELSIUS_K) ** 4;
  const air = (air_C + ZERO_CELSIUS_K) ** 4;
  return STEFAN_BOLTZMANN * (phi * sky + (1 - phi) * air);
}
