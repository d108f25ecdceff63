import { DomainError } from '../numeric/errors';
import type { SkyLight, SkyModel } from '../sun/plane';
import { lightOnPlane } from '../sun/plane';
import { plasticAngleFactor } from './cylinder-angle';
import { type RowFrame, sunOnRow } from './row-frame';
import { type RowSight, visibleWidths } from './row-sight';

const DEG = 180 / Math.PI;

/** Share of the light reflected by a backing that reaches tubes lying on it (fit to ray tracing, ±0.003). */
export const LYING_SHARE = 0.75;

/** What is behind the tubes. */
export interface Backing {
  /** For sunlight [–], 0…1. */
  readonly reflectance: number;
  /** Tubes lying on it, or held well off it. */
  readonly contact: 'lying' | 'spaced';
}

/** How a row meets light. */
export interface RowOptics {
  /** Absorptance of the tubes at normal incidence [–], 0…1. */
  readonly absorptance: number;
  /** null: an open rack, seen from behind too. */
  readonly backing: Backing | null;
}

/** Light of one moment on one row. */
export interface RowWeather {
  readonly sky: SkyLight;
  /** Of the ground round the collector [–], 0…1. */
  readonly albedo: number;
  /** Share of the sky still seen past obstacles [–]; 1 when left out. Direct light is shaded by the caller. */
  readonly skyShare?: number;
  readonly model?: SkyModel;
}

/**
 * Sunlight absorbed by each tube and by the backing. Direct light is apart from diffuse, so that a caller
 * shades a piece by `sunlit·beam + diffuse`.
 */
export interface RowLight {
  /** Absorbed by each tube from direct and circumsolar light, as if fully sunlit [W/m]. */
  readonly beam_Wm: Float64Array;
  /** Absorbed from the sky's and the ground's light [W/m]. */
  readonly diffuse_Wm: Float64Array;
  /** Direct light falling on each tube at first hit [W/m]. */
  readonly incidentBeam_Wm: Float64Array;
  /** Absorbed by the backing [W/m²]; 0 on an open rack. */
  readonly backingBeam_Wm2: number;
  readonly backingDiffuse_Wm2: number;
}

/**
 * Light absorbed by the tubes of a row.
 *
 * Direct: DNI·cosβ·(visible width) at first hit, times α and the angle factor round a cylinder; circumsolar
 * light goes with it. Diffuse: each hemisphere uniform, by each tube's own view. What neighbours and a
 * backing send back follows the two equations of a grey row over a grey backing,
 *
 *   a_t(1 − F_tt ρ_t)G_t − F ρ_b G_b = S_t        −F ρ_t G_t + G_b = S_b,       a_t = Σ πD/W
 *
 * with (S_t, S_b) = (F, 1 − F) for diffuse and (beam on tubes, beam through the gaps) for direct light; of
 * what a backing adds, tubes lying on it get 0.75. The mean flux G_t is then dealt out by each tube's own view.
 * An open rack sees its own ground, lit by what passes between the tubes.
 *
 * @param frame    axes of the row
 * @param sight    views of the tubes
 * @param optics   absorptance, backing
 * @param weather  sky, albedo; irradiance [W/m²]
 * @throws {DomainError} for shares outside 0…1
 */
export function rowLight(frame: RowFrame, sight: RowSight, optics: RowOptics, weather: RowWeather): RowLight {
  const alpha = optics.absorptance;
  const skyShare = weather.skyShare ?? 1;
  const backing = optics.backing;
  if (!(alpha >= 0 && alpha <= 1)) throw new DomainError('absorptance', alpha, '[0, 1]');
  if (!(skyShare >= 0 && skyShare <= 1)) throw new DomainError('share of the sky', skyShare, '[0, 1]');
  if (backing && !(backing.reflectance >= 0 && backing.reflectance <= 1))
    throw new DomainError('reflectance', backing.reflectance, '[0, 1]');

  const { sky, albedo } = weather;
  const front = lightOnPlane(sky, frame.tilt_deg, frame.facing_deg, albedo, weather.model);
  const n = sight.count;
  const width = sight.width_m;
  const sun = sunOnRow(frame, sky.sunZenith_deg, sky.sunAzimuth_deg);
  const isUp = sky.sunZenith_deg < 90;
  const fromFront = sun.normal > 0;
  const lit = isUp && (fromFront || !backing);
  const normalLight = lit ? sky.directNormal_Wm2 + front.circumsolarNormal_Wm2 : 0;

  const incident = new Float64Array(n);
  let onTubes = 0;
  if (normalLight > 0) {
    visibleWidths(
      sight.row,
      sun.across,
      sun.normal,
      incident,
      Int32Array.from({ length: n }, (_, i) => i),
    );
    for (let i = 0; i < n; i += 1) {
      incident[i] *= normalLight * sun.cosBeta;
      onTubes += incident[i];
    }
  }
  // light of the whole strip less what tubes took
  const onStrip = fromFront ? normalLight * sun.normal * width : 0;
  const through = Math.max(0, onStrip - onTubes);
  const passedBeam = onStrip > 0 ? through / onStrip : 1;

  const frontDiffuse = (front.background_Wm2 + front.horizon_Wm2) * skyShare + front.ground_Wm2;
  let rearDiffuse = 0;
  if (!backing) {
    const back = lightOnPlane(
      sky,
      180 - frame.tilt_deg,
      (frame.facing_deg + 180) % 360,
      albedo,
      weather.model,
    );
    const cosZ = Math.max(0, Math.cos(sky.sunZenith_deg / DEG));
    const direct = isUp ? sky.directNormal_Wm2 * cosZ : 0;
    const underPanel =
      albedo * (direct * passedBeam + sky.diffuseHorizontal_Wm2 * skyShare * (1 - sight.frontShare));
    const groundSeen = (1 + Math.cos(frame.tilt_deg / DEG)) / 2;
    rearDiffuse = (back.background_Wm2 + back.horizon_Wm2) * skyShare + underPanel * groundSeen;
  }

  const share = meanFlux(sight, optics);
  const beam = share(onTubes / width, through / width);
  const diffuse = share(
    sight.frontShare * frontDiffuse + sight.rearShare * rearDiffuse,
    backing ? (1 - sight.frontShare) * frontDiffuse : 0,
  );
  const angle =
    normalLight > 0 ? plasticAngleFactor(Math.min(90, Math.acos(Math.min(1, sun.cosBeta)) * DEG)) : 1;
  const beamAbsorbed = new Float64Array(n);
  const diffuseAbsorbed = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    const round = Math.PI * sight.row.diameter_m[i];
    const rear = round * sight.rear[i];
    const aside = round * sight.neighbours[i];
    beamAbsorbed[i] = alpha * (incident[i] * angle + aside * beam.fromNeighbours + rear * beam.fromBacking);
    diffuseAbsorbed[i] =
      alpha *
      (round * sight.front[i] * frontDiffuse +
        rear * rearDiffuse +
        aside * diffuse.fromNeighbours +
        rear * diffuse.fromBacking);
  }
  return {
    beam_Wm: beamAbsorbed,
    diffuse_Wm: diffuseAbsorbed,
    incidentBeam_Wm: incident,
    backingBeam_Wm2: beam.onBacking * (1 - (backing?.reflectance ?? 1)),
    backingDiffuse_Wm2: diffuse.onBacking * (1 - (backing?.reflectance ?? 1)),
  };
}

/** Fluxes that come back after the first hit [W/m²]. */
interface Returned {
  readonly fromNeighbours: number;
  readonly fromBacking: number;
  readonly onBacking: number;
}

/** The two equations for this row, solved for any first hits on tubes and backing (per m² of row). */
function meanFlux(sight: RowSight, optics: RowOptics): (onTubes: number, onBacking: number) => Returned {
  let around = 0;
  let seen = 0;
  for (let i = 0; i < sight.count; i += 1) {
    const round = Math.PI * sight.row.diameter_m[i];
    around += round;
    seen += round * sight.neighbours[i];
  }
  const at = around / sight.width_m;
  const ftt = seen / around;
  const rhoT = 1 - optics.absorptance;
  const rhoB = optics.backing?.reflectance ?? 0;
  const f = sight.rearShare;
  const a11 = at * (1 - ftt * rhoT);
  return (onTubes, onBacking) => {
    const plain = onTubes / a11;
    if (!optics.backing) return { fromNeighbours: rhoT * plain, fromBacking: 0, onBacking: 0 };
    // G_t from eliminating G_b = S_b + F·ρ_t·G_t
    const gt = (onTubes + f * rhoB * onBacking) / (a11 - f * f * rhoB * rhoT);
    const gb = onBacking + f * rhoT * gt;
    const kept = optics.backing.contact === 'lying' ? LYING_SHARE : 1;
    return {
      fromNeighbours: rhoT * (plain + kept * (gt - plain)),
      fromBacking: kept * rhoB * gb,
      onBacking: gb,
    };
  };
}
