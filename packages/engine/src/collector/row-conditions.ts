import { DEFAULT_HEAT_OPTIONS, type HeatOptions } from './options';
import type { OuterCurve } from './outer-curve';
import type { PanelNeighbours } from './panel-types';
import type { RowFrame } from './row-frame';
import { type Backing, type RowWeather, rowLight } from './row-light';
import { evenRow, type RowSight, rowSight } from './row-sight';
import { backedTube, type OpenAir, openTube, TUBE_EMITTANCE } from './surroundings';

/** Views nearer to each other than this share one curve of surroundings. */
const SAME_VIEW = 0.002;

/** Everything a row of tubes is, apart from water. */
export interface RowSurface {
  readonly absorptance: number;
  readonly emittance?: number;
  /** null: an open rack. */
  readonly backing: (Backing & RowBackingHeat) | null;
}

/** Heat side of a backing. */
export interface RowBackingHeat {
  readonly emittance: number;
  /** From its surface to what is behind [W/m²K]. */
  readonly behind_Wm2K: number;
  readonly behind_C: number;
}

/** What the tubes of a row stand in at one moment, ready for `solvePanel`. */
export interface RowConditions {
  /** Distinct surroundings; tubes that see the same share one. */
  readonly outside: readonly OuterCurve[];
  /** Place in `outside` for each tube. */
  readonly outsideOf: Int32Array;
  /** Absorbed by each tube when fully sunlit, and from diffuse light [W/m]. */
  readonly beam_Wm: Float64Array;
  readonly diffuse_Wm: Float64Array;
  /** Absorbed by each tube's strip of backing, likewise [W/m]. */
  readonly backingBeam_Wm: Float64Array;
  readonly backingDiffuse_Wm: Float64Array;
}

/**
 * Light and surroundings of every tube of a row. A piece of a tube whose sunlit share is s absorbs
 * s·beam + diffuse.
 *
 * @param frame    axes of the row
 * @param sight    views, once per layout
 * @param surface  tubes and backing
 * @param weather  sky of the moment; its model is that of the options
 * @param air      air, wind at the tubes, sky temperature
 * @param options  rivals; default where left out
 */
export function rowConditions(
  frame: RowFrame,
  sight: RowSight,
  surface: RowSurface,
  weather: RowWeather,
  air: OpenAir,
  options: HeatOptions = DEFAULT_HEAT_OPTIONS,
): RowConditions {
  const light = rowLight(frame, sight, surface, { ...weather, model: weather.model ?? options.skyModel });
  const n = sight.count;
  const outside: OuterCurve[] = [];
  const outsideOf = new Int32Array(n);
  const known = new Map<string, number>();
  const backingBeam = new Float64Array(n);
  const backingDiffuse = new Float64Array(n);
  for (let i = 0; i < n; i += 1) {
    const strip = sight.strip_m[i];
    backingBeam[i] = light.backingBeam_Wm2 * strip;
    backingDiffuse[i] = light.backingDiffuse_Wm2 * strip;
    const diameter_m = sight.row.diameter_m[i];
    const key = [
      Math.round(sight.front[i] / SAME_VIEW),
      Math.round(sight.rear[i] / SAME_VIEW),
      surface.backing ? Math.round((strip / diameter_m) * 100) : 0,
      diameter_m,
    ].join();
    let place = known.get(key);
    if (place === undefined) {
      place = outside.length;
      known.set(key, place);
      const tube = {
        diameter_m,
        emittance: surface.emittance ?? TUBE_EMITTANCE,
        front: sight.front[i],
        rear: sight.rear[i],
        tilt_deg: frame.tilt_deg,
      };
      outside.push(
        surface.backing
          ? backedTube(tube, { ...surface.backing, strip_m: Math.max(strip, 1e-6) }, air, options.plateFilm)
          : openTube(tube, air),
      );
    }
    outsideOf[i] = place;
  }
  return {
    outside,
    outsideOf,
    beam_Wm: light.beam_Wm,
    diffuse_Wm: light.diffuse_Wm,
    backingBeam_Wm: backingBeam,
    backingDiffuse_Wm: backingDiffuse,
  };
}

/** A lone pipe in the open: header, feed, return. */
export interface LonePipe {
  readonly outside: OuterCurve;
  /** Absorbed when sunlit [W/m]; take none in the shade. */
  readonly beam_Wm: number;
  readonly diffuse_Wm: number;
}

/**
 * Light and surroundings of a pipe that stands by itself, air all round.
 *
 * @param frame       a plane that holds its axis; its tilt is no matter to what a lone pipe sees
 * @param diameter_m  outer [m]
 * @param surface     absorptance and emittance
 * @param weather     sky of the moment
 * @param air         air, wind at the pipe, sky temperature
 * @param options     rivals; default where left out
 */
export function lonePipe(
  frame: RowFrame,
  diameter_m: number,
  surface: { readonly absorptance: number; readonly emittance?: number },
  weather: RowWeather,
  air: OpenAir,
  options: HeatOptions = DEFAULT_HEAT_OPTIONS,
): LonePipe {
  const sight = rowSight(evenRow(1, 0, diameter_m));
  const row = rowConditions(frame, sight, { ...surface, backing: null }, weather, air, options);
  return { outside: row.outside[0], beam_Wm: row.beam_Wm[0], diffuse_Wm: row.diffuse_Wm[0] };
}

/**
 * Real neighbours of a tube as the panel's elements.
 *
 * @param sight      views of the row
 * @param tube       place in the row
 * @param elementOf  place of each tube of the row among the panel's elements
 * @param emittance  of the tubes [–]
 */
export function rowNeighbours(
  sight: RowSight,
  tube: number,
  elementOf: ArrayLike<number>,
  emittance = TUBE_EMITTANCE,
): PanelNeighbours {
  const l = sight.left[tube];
  const r = sight.right[tube];
  return {
    left: l < 0 ? -1 : elementOf[l],
    right: r < 0 ? -1 : elementOf[r],
    view: sight.neighbours[tube],
    emittance,
  };
}
