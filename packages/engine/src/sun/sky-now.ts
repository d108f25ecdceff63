import { DomainError } from '../numeric/errors';
import { absoluteAirMass } from './air-mass';
import { clearSkyIneichen, type Irradiance } from './clear-sky';
import { splitGlobal } from './split';

/** What a person says of the sky, or the global irradiance they read from a meter [W/m²]. */
export type SaidSky = 'clear' | 'hazy' | 'overcast' | number;

/** Linke turbidity of the words; common practice. */
const TURBIDITY = { clear: 3, hazy: 6, overcast: 3 };
/** Cloud cover of the words, for long wave; judgement. */
const COVER = { clear: 0, hazy: 0.2, overcast: 1 };

/** Light and cloud of one moment. */
export interface SkyNow extends Irradiance {
  /** Share of the sky covered [–], for the long wave. */
  readonly cloud: number;
}

/**
 * Global light under cloud over that of the clear sky: 1 − 0.75·n^3.4 (Kasten & Czeplak 1980, from memory).
 *
 * @param cloud  share of the sky covered [–], 0…1
 * @throws {DomainError} outside that range
 * @example cloudTransmission(1) // 0.25
 */
export function cloudTransmission(cloud: number): number {
  if (!(cloud >= 0 && cloud <= 1)) throw new DomainError('cloud cover', cloud, '[0, 1]');
  return 1 - 0.75 * cloud ** 3.4;
}

/**
 * Cloud cover that would leave this share of the clear sky's light: the same formula turned round.
 *
 * @param share  global light over that of the clear sky [–], ≥ 0
 * @throws {DomainError} when negative or not a number
 * @example cloudFromShare(0.25) // 1
 */
export function cloudFromShare(share: number): number {
  if (!(share >= 0)) throw new DomainError('share of clear light', share, '≥ 0');
  return Math.min(1, Math.max(0, (1 - share) / 0.75) ** (1 / 3.4));
}

/**
 * Light of a moment from a word or from a reading.
 *
 * Clear and hazy are clear skies of turbidity 3 and 6; overcast is a quarter of the clear light, all of it
 * diffuse; a reading is split by Erbs and its cloud judged against the clear sky of the hour.
 *
 * @param said                  word, or global irradiance on the horizontal [W/m²], ≥ 0
 * @param apparentZenith_deg    of the sun [deg]
 * @param elevation_m           of the site [m]
 * @param pressure_Pa           [Pa]
 * @param extraterrestrial_Wm2  facing the sun above the air [W/m²]
 * @throws {DomainError} for a reading that is negative or not a number
 */
export function skyNow(
  said: SaidSky,
  apparentZenith_deg: number,
  elevation_m: number,
  pressure_Pa: number,
  extraterrestrial_Wm2: number,
): SkyNow {
  const am = absoluteAirMass(apparentZenith_deg, pressure_Pa);
  const word = typeof said === 'number' ? 'clear' : said;
  const clear = clearSkyIneichen(apparentZenith_deg, am, TURBIDITY[word], elevation_m, extraterrestrial_Wm2);
  if (typeof said === 'number') {
    if (!(said >= 0 && said <= 2000)) throw new DomainError('global irradiance', said, '[0, 2000] W/m²');
    const share = clear.globalHorizontal_Wm2 > 1 ? said / clear.globalHorizontal_Wm2 : 1;
    return { ...splitGlobal(said, apparentZenith_deg, extraterrestrial_Wm2), cloud: cloudFromShare(share) };
  }
  if (said !== 'overcast') return { ...clear, cloud: COVER[said] };
  const global = clear.globalHorizontal_Wm2 * cloudTransmission(1);
  return { globalHorizontal_Wm2: global, directNormal_Wm2: 0, diffuseHorizontal_Wm2: global, cloud: 1 };
}
