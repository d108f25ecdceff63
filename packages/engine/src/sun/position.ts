import { e_tilt, MakeTime, SiderealTime, SunPosition } from 'astronomy-engine';
import { pressureAtElevation } from '../fluids/moist-air';
import { DomainError } from '../numeric/errors';
import type { Place, RefractingAir } from './place';

const RAD = Math.PI / 180;
const MS_PER_DAY = 86_400_000;
/** 2000-01-01T12:00:00 UTC in ms since 1970. */
const J2000_MS = 946_728_000_000;
/** Equatorial horizontal parallax of the sun at 1 au [deg], 8.794″ (IAU 1976). */
const PARALLAX_DEG = 8.794 / 3600;

/** Where the sun is, seen from one place at one instant. */
export interface SunPlace {
  /** Angle from the vertical as the eye sees it, refraction included [deg]. */
  readonly zenith_deg: number;
  /** The same without refraction [deg]. */
  readonly trueZenith_deg: number;
  /** From north, clockwise (east 90) [deg], 0…360. */
  readonly azimuth_deg: number;
  /** Local hour angle, west positive [deg], −180…180. */
  readonly hourAngle_deg: number;
  /** Apparent declination [deg]. */
  readonly declination_deg: number;
  /** Distance earth–sun [au]. */
  readonly distance_au: number;
}

/**
 * Bending of light by the air, NREL solar position algorithm.
 *
 *   Δe = P/1010 · 283/(273 + T) · 1.02/[60·tan(e₀ + 10.3/(e₀ + 5.11))]      (P in mbar; eq. 42)
 *
 * Zero while the whole disc is under the refracted horizon (e₀ < −0.8333°), as that publication has it.
 *
 * @param trueElevation_deg  elevation without refraction [deg], −90…90
 * @param pressure_Pa        air pressure at the site [Pa], > 0
 * @param temperature_C      air temperature [°C], > −273
 * @returns what is added to the true elevation [deg]
 * @throws {DomainError} outside those ranges
 * @example refraction_deg(39.87205, 82000, 11) // 0.01633
 * @see reda2008 in references.json (NREL/TP-560-34302, section 3.14.2)
 */
export function refraction_deg(
  trueElevation_deg: number,
  pressure_Pa: number,
  temperature_C: number,
): number {
  if (!(Math.abs(trueElevation_deg) <= 90.000001))
    throw new DomainError('true elevation', trueElevation_deg, '[-90, 90]°');
  if (!(pressure_Pa > 0 && pressure_Pa < 2e5))
    throw new DomainError('air pressure', pressure_Pa, '(0, 2e5) Pa');
  if (!(temperature_C > -100 && temperature_C < 100))
    throw new DomainError('air temperature', temperature_C, '(-100, 100) °C');
  if (trueElevation_deg < -0.83337) return 0;
  const e0 = trueElevation_deg;
  const mbar = pressure_Pa / 100;
  return (
    ((mbar / 1010) * (283 / (273 + temperature_C)) * 1.02) / (60 * Math.tan((e0 + 10.3 / (e0 + 5.11)) * RAD))
  );
}

/**
 * Position of the sun: true position by astronomy-engine (VSOP87, IAU nutation), parallax of the place,
 * then the refraction of the NREL algorithm with the site's own pressure and temperature.
 *
 * The apparent geocentric place is used with the parallax 8.794″·sin z added to the zenith angle; that is
 * within 0.0002° of the library's full topocentric place at about 0.6 of its cost.
 *
 * @param utc_ms  instant [ms since 1970-01-01T00:00Z]
 * @param place   latitude, longitude [deg], elevation [m]
 * @param air     air that refracts; standard pressure at the elevation and 10 °C when not given
 * @throws {DomainError} for an instant that is not finite, a latitude or longitude outside the globe
 * @example sunPlace(Date.UTC(2003, 9, 17, 19, 30, 30), golden, { pressure_Pa: 82000, temperature_C: 11 })
 *          // zenith 50.1117, azimuth 194.3403 (published 50.11162, 194.34024)
 * @see astronomyEngine, reda2008 in references.json
 */
export function sunPlace(utc_ms: number, place: Place, air?: RefractingAir): SunPlace {
  if (!Number.isFinite(utc_ms)) throw new DomainError('instant', utc_ms, 'finite ms');
  const { latitude_deg, longitude_deg } = place;
  if (!(Math.abs(latitude_deg) <= 90)) throw new DomainError('latitude', latitude_deg, '[-90, 90]°');
  if (!(Math.abs(longitude_deg) <= 180)) throw new DomainError('longitude', longitude_deg, '[-180, 180]°');

  const time = MakeTime((utc_ms - J2000_MS) / MS_PER_DAY);
  const ecliptic = SunPosition(time);
  const lon = ecliptic.elon * RAD;
  const lat = ecliptic.elat * RAD;
  const eps = e_tilt(time).tobl * RAD;
  const x = Math.cos(lat) * Math.cos(lon);
  const y = Math.cos(lat) * Math.sin(lon) * Math.cos(eps) - Math.sin(lat) * Math.sin(eps);
  const z = Math.cos(lat) * Math.sin(lon) * Math.sin(eps) + Math.sin(lat) * Math.cos(eps);
  const dec = Math.asin(Math.max(-1, Math.min(1, z)));
  const ha = wrap180(SiderealTime(time) * 15 + longitude_deg - Math.atan2(y, x) / RAD) * RAD;
  const phi = latitude_deg * RAD;

  const east = -Math.cos(dec) * Math.sin(ha);
  const north = Math.sin(dec) * Math.cos(phi) - Math.cos(dec) * Math.cos(ha) * Math.sin(phi);
  const up = Math.sin(dec) * Math.sin(phi) + Math.cos(dec) * Math.cos(ha) * Math.cos(phi);
  const horizontal = Math.hypot(east, north);
  const geocentric = Math.atan2(horizontal, up) / RAD;
  const { x: vx, y: vy, z: vz } = ecliptic.vec;
  const distance = Math.hypot(vx, vy, vz);
  const trueZenith = geocentric + (PARALLAX_DEG / distance) * horizontal;

  const pressure = air ? air.pressure_Pa : pressureAtElevation(place.elevation_m);
  const temperature = air ? air.temperature_C : 10;
  const azimuth = horizontal < 1e-12 ? 180 : (Math.atan2(east, north) / RAD + 360) % 360;
  return {
    zenith_deg: trueZenith - refraction_deg(90 - trueZenith, pressure, temperature),
    trueZenith_deg: trueZenith,
    azimuth_deg: azimuth,
    hourAngle_deg: ha / RAD,
    declination_deg: dec / RAD,
    distance_au: distance,
  };
}

function wrap180(deg: number): number {
  const d = ((deg % 360) + 540) % 360;
  return d - 180;
}
