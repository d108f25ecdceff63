import { DomainError } from '../numeric/errors';
import { rowFrame } from './row-frame';
import { type RowOptics, type RowWeather, rowLight } from './row-light';
import { evenRow, rowSight } from './row-sight';

/** Directions of the winding over which a coil's light is averaged. */
const DIRECTIONS = 8;

/** Light absorbed by a metre of a flat spiral, mean over its turns and directions. */
export interface CoilLight {
  /** From direct and circumsolar light, as if fully sunlit [W/m]. */
  readonly beam_Wm: number;
  readonly diffuse_Wm: number;
  readonly backingBeam_Wm2: number;
  readonly backingDiffuse_Wm2: number;
  /** Views of a mean metre [–] and its strip [m], for the long wave. */
  readonly front: number;
  readonly rear: number;
  readonly neighbours: number;
  readonly strip_m: number;
}

/**
 * A coil laid flat is a row of tubes in every direction: its turns cut along any radius are an even row.
 * Light is the mean over eight directions of the winding (16 change it by under 0.1 %).
 *
 * @param turns       along one radius, ≥ 1
 * @param pitch_m     from turn to turn [m], ≥ diameter
 * @param diameter_m  outer [m]
 * @param tilt_deg    of the plane it lies in [deg]
 * @param facing_deg  [deg]
 * @param optics      absorptance, backing
 * @param weather     sky and albedo
 * @throws {DomainError} for no turn, or turns closer than their diameter
 */
export function coilLight(
  turns: number,
  pitch_m: number,
  diameter_m: number,
  tilt_deg: number,
  facing_deg: number,
  optics: RowOptics,
  weather: RowWeather,
): CoilLight {
  if (!(Number.isInteger(turns) && turns >= 1)) throw new DomainError('turns', turns, '≥ 1');
  if (!(pitch_m >= diameter_m)) throw new DomainError('pitch of turns', pitch_m, `≥ ${diameter_m} m`);
  const sight = rowSight(evenRow(turns, pitch_m, diameter_m));
  const mean = (values: Float64Array) => values.reduce((s, v) => s + v, 0) / turns;
  const sum = { beam: 0, diffuse: 0, backingBeam: 0, backingDiffuse: 0 };
  for (let k = 0; k < DIRECTIONS; k += 1) {
    const frame = rowFrame(tilt_deg, facing_deg, (k * 180) / DIRECTIONS);
    const light = rowLight(frame, sight, optics, weather);
    sum.beam += mean(light.beam_Wm);
    sum.diffuse += mean(light.diffuse_Wm);
    sum.backingBeam += light.backingBeam_Wm2;
    sum.backingDiffuse += light.backingDiffuse_Wm2;
  }
  return {
    beam_Wm: sum.beam / DIRECTIONS,
    diffuse_Wm: sum.diffuse / DIRECTIONS,
    backingBeam_Wm2: sum.backingBeam / DIRECTIONS,
    backingDiffuse_Wm2: sum.backingDiffuse / DIRECTIONS,
    front: mean(sight.front),
    rear: mean(sight.rear),
    neighbours: mean(sight.neighbours),
    strip_m: mean(sight.strip_m),
  };
}
