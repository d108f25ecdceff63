import { DomainError } from '../numeric/errors';
import { radiationFilm } from './long-wave';
import { type OuterCurve, outerCurve } from './outer-curve';
import { backedConductance, type PlateFilm, plateFilm, tubeFilm } from './outside-film';

/** Long-wave emittance of plastics and black paint where none is given [–]. */
export const TUBE_EMITTANCE = 0.92;
/** Still air between the rear half of a tube and the board it lies on, 5 mm wide on the mean [W/m²K]; judgement. */
const GAP_FILM = 5;

/** The air and the sky round the collector at one moment. */
export interface OpenAir {
  readonly air_C: number;
  /** At the tubes: wind at 10 m × exposure [m/s]. */
  readonly wind_ms: number;
  readonly pressure_Pa: number;
  readonly sky_C: number;
  /** Share of the sky still seen past obstacles [–]; what is not sky is at air temperature. */
  readonly skyShare?: number;
}

/** One tube of a row, or a lone one. */
export interface TubeOutside {
  readonly diameter_m: number;
  readonly emittance?: number;
  /** View factors to the front and to the rear hemisphere [–] (½ and ½ for a lone tube). */
  readonly front: number;
  readonly rear: number;
  /** Tilt of the plane whose front that is [deg]. */
  readonly tilt_deg: number;
}

/** A board, a roof or the ground behind the tubes. */
export interface BackingHeat {
  readonly emittance: number;
  /** From its surface to what is behind it [W/m²K]. */
  readonly behind_Wm2K: number;
  readonly behind_C: number;
  /** Strip of it that is this tube's own [m]. */
  readonly strip_m: number;
}

/**
 * Outside of a tube in the open with air all round: the full circumference convects and radiates.
 *
 * Front hemisphere: sky (1 + cos tilt)/2 and the rest ground; rear hemisphere the other way round. Ground and
 * obstacles are at air temperature. View to other tubes is the panel's business.
 *
 * @param tube  geometry and views
 * @param air   the moment
 * @throws {DomainError} for views outside 0…1
 */
export function openTube(tube: TubeOutside, air: OpenAir): OuterCurve {
  const { d, eps, skyView, groundView } = checkTube(tube, air, true);
  const round = Math.PI * d;
  return outerCurve((surface, out) => {
    const film = tubeFilm(d, air.wind_ms, surface, air.air_C, air.pressure_Pa).joined;
    const toSky = round * skyView * radiationFilm(surface, air.sky_C, eps);
    const toAir = round * (film + groundView * radiationFilm(surface, air.air_C, eps));
    out.conductance_WmK = toSky + toAir;
    out.surroundings_C = (toSky * air.sky_C + toAir * air.air_C) / (toSky + toAir);
    out.backingShare = 0;
  });
}

/**
 * Outside of a tube on a backing: the front convects and sees the front hemisphere; the rear half exchanges
 * with the backing, whose own balance (air and sky through the gaps, what is behind it, the sun it absorbs)
 * is eliminated, so that only the tube remains.
 *
 * @param tube     geometry and views
 * @param backing  its emittance, what is behind it, the strip under this tube
 * @param air      the moment
 * @param plate    film of a closely packed row; default `watmuff`
 * @throws {DomainError} for views or emittances outside 0…1, a strip that is not positive
 */
export function backedTube(
  tube: TubeOutside,
  backing: BackingHeat,
  air: OpenAir,
  plate?: PlateFilm,
): OuterCurve {
  const { d, eps, skyView, groundView } = checkTube(tube, air, false);
  if (!(backing.emittance > 0 && backing.emittance <= 1))
    throw new DomainError('emittance of the backing', backing.emittance, '(0, 1]');
  if (!(backing.behind_Wm2K >= 0))
    throw new DomainError('conductance behind the backing', backing.behind_Wm2K, '≥ 0 W/m²K');
  const strip = backing.strip_m;
  if (!(strip > 0)) throw new DomainError('strip of backing', strip, '> 0 m');
  const round = Math.PI * d;
  const hPlate = plateFilm(air.wind_ms, plate);
  const gap = Math.max(0, strip - d);
  const open = Math.max(0, 1 - (round * tube.front) / strip);
  const between = 1 / (1 / eps + 1 / backing.emittance - 1);
  return outerCurve((surface, out) => {
    const lone = tubeFilm(d, air.wind_ms, surface, air.air_C, air.pressure_Pa).joined;
    const toSky = round * skyView * radiationFilm(surface, air.sky_C, eps);
    const toAir =
      backedConductance(d, strip / d, hPlate, lone) +
      round * groundView * radiationFilm(surface, air.air_C, eps);
    const toBacking = round * (tube.rear * radiationFilm(surface, surface, between) + GAP_FILM / 2);
    const total = tube.front > 0 ? skyView / tube.front : 0;
    const backSky = strip * open * total * radiationFilm(surface, air.sky_C, backing.emittance);
    const backAir =
      gap * hPlate + strip * open * (1 - total) * radiationFilm(surface, air.air_C, backing.emittance);
    const backRear = strip * backing.behind_Wm2K;
    const away = backSky + backAir + backRear;
    const share = toBacking / (toBacking + away);
    const heldAt = backSky * air.sky_C + backAir * air.air_C + backRear * backing.behind_C;
    out.conductance_WmK = toSky + toAir + share * away;
    out.surroundings_C =
      (toSky * air.sky_C + toAir * air.air_C + share * heldAt) / (toSky + toAir + share * away);
    out.backingShare = share;
  });
}

/**
 * Outside of a pipe indoors: still air and walls at room temperature.
 *
 * @param diameter_m   outer [m], > 0
 * @param room_C       [°C]
 * @param pressure_Pa  [Pa]
 * @param emittance    [–]
 */
export function indoorPipe(
  diameter_m: number,
  room_C: number,
  pressure_Pa: number,
  emittance = TUBE_EMITTANCE,
): OuterCurve {
  if (!(diameter_m > 0)) throw new DomainError('diameter', diameter_m, '> 0 m');
  return outerCurve((surface, out) => {
    const film = tubeFilm(diameter_m, 0, surface, room_C, pressure_Pa).still;
    out.conductance_WmK = Math.PI * diameter_m * (film + radiationFilm(surface, room_C, emittance));
    out.surroundings_C = room_C;
    out.backingShare = 0;
  });
}

/**
 * Outside of a buried pipe: 0.1 m of soil to ground temperature, 2πk/ln[(D + 0.2)/D].
 *
 * @param diameter_m              outer [m], > 0
 * @param ground_C                [°C]
 * @param soilConductivity_WmK    [W/mK]; moist soil about 1
 */
export function buriedPipe(diameter_m: number, ground_C: number, soilConductivity_WmK = 1): OuterCurve {
  if (!(diameter_m > 0)) throw new DomainError('diameter', diameter_m, '> 0 m');
  if (!(soilConductivity_WmK > 0))
    throw new DomainError('conductivity of the soil', soilConductivity_WmK, '> 0 W/mK');
  const conductance = (2 * Math.PI * soilConductivity_WmK) / Math.log((diameter_m + 0.2) / diameter_m);
  return outerCurve((_surface, out) => {
    out.conductance_WmK = conductance;
    out.surroundings_C = ground_C;
    out.backingShare = 0;
  });
}

function checkTube(tube: TubeOutside, air: OpenAir, rearOpen: boolean) {
  const { diameter_m: d, front, rear } = tube;
  const eps = tube.emittance ?? TUBE_EMITTANCE;
  const share = air.skyShare ?? 1;
  if (!(d > 0)) throw new DomainError('diameter', d, '> 0 m');
  if (!(eps > 0 && eps <= 1)) throw new DomainError('emittance', eps, '(0, 1]');
  if (!(front >= 0 && rear >= 0 && front + rear <= 1.000001))
    throw new DomainError('view factors', front + rear, '[0, 1]');
  if (!(share >= 0 && share <= 1)) throw new DomainError('share of the sky', share, '[0, 1]');
  if (!Number.isFinite(air.air_C + air.sky_C)) throw new DomainError('air and sky', air.air_C, 'finite °C');
  const up = (1 + Math.cos((tube.tilt_deg * Math.PI) / 180)) / 2;
  const skyView = share * (front * up + (rearOpen ? rear * (1 - up) : 0));
  return { d, eps, skyView, groundView: front + (rearOpen ? rear : 0) - skyView };
}
