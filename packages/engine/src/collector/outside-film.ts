import { airConductivity, airDensity, airHeatCapacity, airViscosity } from '../fluids/moist-air';
import { GRAVITY_MS2, ZERO_CELSIUS_K } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/** Coefficients of wind on a flat plate. Watmuff is the default; the others are its rivals. */
export type PlateFilm = 'watmuff' | 'mcadams' | 'sharples';

/**
 * Mean Nusselt number of a cylinder across a stream (Churchill & Bernstein 1977).
 *
 *   Nu = 0.3 + 0.62 Re^½ Pr^⅓ [1 + (0.4/Pr)^⅔]^−¼ · [1 + (Re/282000)^⅝]^⅘
 *
 * @param re  Reynolds number on the diameter [–], ≥ 0
 * @param pr  Prandtl number [–], > 0; the source asks Re·Pr > 0.2
 * @throws {DomainError} outside those ranges
 * @example nusseltCrossFlow(6071, 0.70) // 40.6
 * @see churchill1977b in references.json
 */
export function nusseltCrossFlow(re: number, pr: number): number {
  if (!(re >= 0 && re < Infinity)) throw new DomainError('Reynolds number', re, '[0, ∞)');
  if (!(pr > 0)) throw new DomainError('Prandtl number', pr, '> 0');
  const third = Math.cbrt(0.4 / pr);
  const lead = (0.62 * Math.sqrt(re) * Math.cbrt(pr)) / fourthRoot(1 + third * third);
  // x^⅝ = √x·x^⅛
  const half = Math.sqrt(re / 282_000);
  return 0.3 + lead * (1 + half * Math.sqrt(fourthRoot(re / 282_000))) ** 0.8;
}

/**
 * Mean Nusselt number of a level cylinder in still air (Churchill & Chu 1975).
 *
 *   Nu = {0.60 + 0.387 Ra^⅙ / [1 + (0.559/Pr)^(9/16)]^(8/27)}²
 *
 * @param ra  Rayleigh number on the diameter [–], ≥ 0; the source gives up to 10¹²
 * @param pr  Prandtl number [–], > 0
 * @throws {DomainError} outside those ranges
 * @see churchill1975 in references.json
 */
export function nusseltStillAir(ra: number, pr: number): number {
  if (!(ra >= 0 && ra < Infinity)) throw new DomainError('Rayleigh number', ra, '[0, ∞)');
  if (!(pr > 0)) throw new DomainError('Prandtl number', pr, '> 0');
  const sixth = Math.sqrt(Math.cbrt(ra));
  const n = 0.6 + (0.387 * sixth) / (1 + (0.559 / pr) ** 0.5625) ** (8 / 27);
  return n * n;
}

function fourthRoot(x: number): number {
  return Math.sqrt(Math.sqrt(x));
}

/** Forced, still-air and joined film of a bare tube [W/m²K]. */
export interface TubeFilm {
  readonly forced: number;
  readonly still: number;
  /** (forced⁴ + still⁴)^¼ */
  readonly joined: number;
}

/**
 * Film of air round a bare tube. Properties at film temperature: Sutherland viscosity, US Standard Atmosphere
 * conductivity, ideal gas at the site's pressure.
 *
 * @param diameter_m   outer [m], > 0
 * @param wind_ms      at the tube [m/s], ≥ 0
 * @param surface_C    [°C]
 * @param air_C        [°C]
 * @param pressure_Pa  [Pa], > 0
 * @throws {DomainError} outside those ranges
 * @example tubeFilm(0.02134, 1, 35, 22, 101325) // forced 23.0, still 5.6
 */
export function tubeFilm(
  diameter_m: number,
  wind_ms: number,
  surface_C: number,
  air_C: number,
  pressure_Pa: number,
): TubeFilm {
  if (!(diameter_m > 0)) throw new DomainError('diameter', diameter_m, '> 0 m');
  if (!(wind_ms >= 0 && wind_ms < 100)) throw new DomainError('wind', wind_ms, '[0, 100) m/s');
  const film = (surface_C + air_C) / 2;
  const k = airConductivity(film);
  const mu = airViscosity(film);
  const pr = (mu * airHeatCapacity()) / k;
  const nu = mu / airDensity(film, pressure_Pa);
  const forced = (nusseltCrossFlow((wind_ms * diameter_m) / nu, pr) * k) / diameter_m;
  const ra =
    ((GRAVITY_MS2 * Math.abs(surface_C - air_C) * diameter_m * diameter_m * diameter_m) /
      ((film + ZERO_CELSIUS_K) * nu * nu)) *
    pr;
  const still = (nusseltStillAir(ra, pr) * k) / diameter_m;
  const [f2, s2] = [forced * forced, still * still];
  return { forced, still, joined: fourthRoot(f2 * f2 + s2 * s2) };
}

/**
 * Wind on a flat plate.
 *
 *   watmuff    2.8 + 3.0 v   (Watmuff, Charters & Proctor 1977)
 *   mcadams    5.7 + 3.8 v   (McAdams 1954; holds some long wave, from memory)
 *   sharples   6.5 + 3.3 v   (Sharples & Charlesworth 1998, from memory)
 *
 * @param wind_ms  at the plate [m/s], ≥ 0; sources give up to about 7
 * @param model    default `watmuff`
 * @returns [W/m²K]
 * @throws {DomainError} outside that range
 * @example plateFilm(2) // 8.8
 */
export function plateFilm(wind_ms: number, model: PlateFilm = 'watmuff'): number {
  if (!(wind_ms >= 0 && wind_ms < 100)) throw new DomainError('wind', wind_ms, '[0, 100) m/s');
  if (model === 'watmuff') return 2.8 + 3.0 * wind_ms;
  return model === 'mcadams' ? 5.7 + 3.8 * wind_ms : 6.5 + 3.3 * wind_ms;
}

/**
 * Convecting conductance of a tube lying in a row on a backing, per metre. Packed closer than 1.5 diameters
 * the row is a plate of the projected width; from 3 diameters each tube's front half stands by itself;
 * linear between.
 *
 * @param diameter_m       outer [m]
 * @param pitchOverDiameter [–], ≥ 0 (tubes at different depths may overlap)
 * @param plate_Wm2K       film of the plate
 * @param tube_Wm2K        film of a lone tube
 * @returns [W/mK]
 * @example backedConductance(0.02, 1, 8, 30) // 0.16
 */
export function backedConductance(
  diameter_m: number,
  pitchOverDiameter: number,
  plate_Wm2K: number,
  tube_Wm2K: number,
): number {
  const apart = Math.min(1, Math.max(0, (pitchOverDiameter - 1.5) / 1.5));
  const plate = plate_Wm2K * diameter_m;
  const lone = (tube_Wm2K * Math.PI * diameter_m) / 2;
  return plate + apart * (lone - plate);
}
