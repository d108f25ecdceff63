import { longWaveOnPlane_Wm2 } from '../collector/long-wave';
import type { OuterCurve, OuterState } from '../collector/outer-curve';
import type { PlateFilm } from '../collector/outside-film';
import { netIrradiance_Wm2, type RatedCoefficients } from '../collector/rated-absorber';
import {
  type BackingHeat,
  backedTube,
  buriedPipe,
  indoorPipe,
  type OpenAir,
  openTube,
  type TubeOutside,
} from '../collector/surroundings';
import { DomainError } from '../numeric/errors';
import { lightOnPlane, type SkyLight, type SkyModel, totalOnPlane_Wm2 } from '../sun/plane';
import type { CollectorRun, CollectorStanding, SeasonCollector } from './collector';
import type { PanelResponse, ResponseRead } from './panel-response';
import { type MeanLight, type PlaneMoment, planeMoment, type RowMean, rowMeanLight } from './row-mean';

/** What a kind of piece stands in. */
export type KindOutside =
  | { readonly kind: 'open'; readonly tube: TubeOutside }
  | {
      readonly kind: 'backed';
      readonly tube: TubeOutside;
      readonly backing: Omit<BackingHeat, 'behind_C'>;
      readonly behind: 'air' | 'ground';
    }
  | { readonly kind: 'indoors'; readonly diameter_m: number }
  | { readonly kind: 'buried'; readonly diameter_m: number }
  | { readonly kind: 'rated'; readonly coefficients: RatedCoefficients; readonly ratio: number };

/** Rows whose mean light a kind gets, and how much of it. */
export interface KindLight {
  readonly rows: readonly RowMean[];
  /** Place in the planes. */
  readonly plane: number;
  /** Share of direct light on top of the sunlit share, and share of diffuse light [–]. */
  readonly direct: number;
  readonly diffuse: number;
  /** Strip of backing that is a tube's own [m]; 0 without backing. */
  readonly strip_m: number;
}

/** One kind of piece: where its heat is booked, what is round it, what light it gets. */
export interface PanelKind {
  readonly name: string;
  readonly group: HeatGroup;
  readonly outside: KindOutside;
  readonly light: KindLight | null;
  /** Place of its sunlit share in the weather. */
  readonly part: number;
  /** Heat capacity of water and wall, for what stands in it [J/K]. */
  readonly capacity_JK: number;
}

export type HeatGroup = 'tubes' | 'headers' | 'pipes';

/** Weather of every step as the panel feels it. */
export interface PanelWeather {
  readonly zenith_deg: Float64Array;
  readonly azimuth_deg: Float64Array;
  readonly extraterrestrial_Wm2: Float64Array;
  readonly directNormal_Wm2: Float64Array;
  readonly diffuse_Wm2: Float64Array;
  readonly air_C: Float64Array;
  readonly sky_C: Float64Array;
  readonly pressure_Pa: Float64Array;
  /** At the tubes. */
  readonly wind_ms: Float64Array;
  readonly ground_C: number;
  readonly room_C: number;
  /** [part] → share of direct light that arrives. */
  readonly sunlit: readonly Float64Array[];
  /** [part] → share of the sky still seen. */
  readonly skyShare: readonly Float64Array[];
}

/** A panel with everything fixed but the hour. */
export interface PanelSetup {
  readonly response: PanelResponse;
  readonly kinds: readonly PanelKind[];
  readonly planes: readonly { readonly tilt_deg: number; readonly facing_deg: number }[];
  readonly albedo: number;
  readonly skyModel: SkyModel;
  readonly plateFilm: PlateFilm;
  /** Pump while water runs through the panel, and while it runs past [W]. */
  readonly powerThrough_W: number;
  readonly powerPast_W: number;
}

/**
 * Surroundings of a kind of pipe at one moment.
 *
 * @param o         what it stands in; not a rated absorber
 * @param air       the open air
 * @param ground_C  soil and what is behind a backing on the ground [°C]
 * @param room_C    indoors [°C]
 * @param plateFilm film of closely packed rows
 */
export function outsideCurve(
  o: Exclude<KindOutside, { kind: 'rated' }>,
  air: OpenAir,
  ground_C: number,
  room_C: number,
  plateFilm: PlateFilm,
): OuterCurve {
  switch (o.kind) {
    case 'open':
      return openTube(o.tube, air);
    case 'backed': {
      const behind_C = o.behind === 'ground' ? ground_C : air.air_C;
      return backedTube(o.tube, { ...o.backing, behind_C }, air, plateFilm);
    }
    case 'indoors':
      return indoorPipe(o.diameter_m, room_C, air.pressure_Pa);
    case 'buried':
      return buriedPipe(o.diameter_m, ground_C);
  }
}

/** Rounds between surface temperatures and heat in one step; each brings about a digit. */
const ROUNDS = 2;

/**
 * The panel hour by hour: light by mean rows, outer conductance from the engine's own films at the surface
 * temperature, heat by the panel's response. Heat is linear in the pool's temperature within a step.
 *
 * @param setup   the panel
 * @param weather every step
 * @throws {DomainError} when kinds and response do not belong together
 */
export function panelCollector(setup: PanelSetup, weather: PanelWeather): SeasonCollector {
  const { response, kinds } = setup;
  const n = kinds.length;
  if (response.kinds !== n) throw new DomainError('kinds of surroundings', n, `${response.kinds}`);
  const surface = new Float64Array(n).fill(Number.NaN);
  const conductance = new Float64Array(n);
  const towards = new Float64Array(n);
  const absorbed = new Float64Array(n);
  const backing = new Float64Array(n);
  const heat = new Float64Array(n);
  const read: ResponseRead = {
    effective: new Float64Array(n),
    inner_mKW: new Float64Array(n),
    capacity_WK: 0,
  };
  const kept = { surface: new Float64Array(n), inner: new Float64Array(n) };
  const state: OuterState = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
  const mean: MeanLight = { beam_Wm: 0, diffuse_Wm: 0, backingBeam_Wm2: 0, backingDiffuse_Wm2: 0 };
  const outsides: ((surface_C: number) => void)[] = [];
  const held = (pipes: boolean): number =>
    kinds.reduce((sum, k) => sum + ((k.group === 'pipes') === pipes ? k.capacity_JK : 0), 0);
  const holds_JK = held(false);
  const pipes_JK = held(true);
  let prepared = -1;
  const stood_C = { tubes: Number.NaN, pipes: Number.NaN };

  function prepare(i: number): void {
    if (prepared === i) return;
    prepared = i;
    const sky: SkyLight = {
      sunZenith_deg: weather.zenith_deg[i],
      sunAzimuth_deg: weather.azimuth_deg[i],
      directNormal_Wm2: weather.directNormal_Wm2[i],
      diffuseHorizontal_Wm2: weather.diffuse_Wm2[i],
      extraterrestrial_Wm2: weather.extraterrestrial_Wm2[i],
    };
    const dark = sky.directNormal_Wm2 <= 0 && sky.diffuseHorizontal_Wm2 <= 0;
    const planes: (PlaneMoment | null)[] = setup.planes.map(() => null);
    const airs: (OpenAir | null)[] = weather.skyShare.map(() => null);
    for (let k = 0; k < n; k++) {
      const kind = kinds[k];
      const { light, part } = kind;
      let sun = 0;
      let behind = 0;
      if (light && !dark) {
        const at = setup.planes[light.plane];
        const plane =
          planes[light.plane] ?? planeMoment(sky, at.tilt_deg, at.facing_deg, setup.albedo, setup.skyModel);
        planes[light.plane] = plane;
        const sunlit = weather.sunlit[part][i] * light.direct;
        for (const row of light.rows) {
          rowMeanLight(row, plane, weather.skyShare[part][i], mean);
          sun += (sunlit * mean.beam_Wm + light.diffuse * mean.diffuse_Wm) / light.rows.length;
          behind += (sunlit * mean.backingBeam_Wm2 + mean.backingDiffuse_Wm2) / light.rows.length;
        }
      }
      absorbed[k] = sun;
      backing[k] = behind * (light?.strip_m ?? 0);
      const air = airs[part] ?? {
        air_C: weather.air_C[i],
        wind_ms: weather.wind_ms[i],
        pressure_Pa: weather.pressure_Pa[i],
        sky_C: weather.sky_C[i],
        skyShare: weather.skyShare[part][i],
      };
      airs[part] = air;
      outsides[k] = outsideOf(kind.outside, air, k, sky);
    }
  }

  /** A function that fills conductance and what the piece tends to, at a surface temperature. */
  function outsideOf(o: KindOutside, air: OpenAir, k: number, sky: SkyLight): (t: number) => void {
    if (o.kind === 'rated') {
      const c = o.coefficients;
      const { part, light: own } = kinds[k];
      const plane = setup.planes[own?.plane ?? 0];
      const light = lightOnPlane(sky, plane.tilt_deg, plane.facing_deg, setup.albedo, setup.skyModel);
      const shaded = (light.direct_Wm2 + light.circumsolar_Wm2) * (1 - weather.sunlit[part][prepared]);
      const hidden = (light.background_Wm2 + light.horizon_Wm2) * (1 - weather.skyShare[part][prepared]);
      const long = longWaveOnPlane_Wm2(plane.tilt_deg, air.sky_C, air.air_C, air.skyShare);
      const net = netIrradiance_Wm2(totalOnPlane_Wm2(light) - shaded - hidden, long, air.air_C, o.ratio);
      const loss = c.b1 + c.b2 * air.wind_ms;
      const eq = air.air_C + (c.eta0 * Math.max(0, 1 - c.bu * air.wind_ms) * net) / loss;
      return () => {
        conductance[k] = loss;
        towards[k] = eq;
      };
    }
    const curve = outsideCurve(o, air, weather.ground_C, weather.room_C, setup.plateFilm);
    return (t) => {
      curve.exact(t, state);
      conductance[k] = state.conductance_WmK;
      towards[k] =
        state.surroundings_C + (absorbed[k] + state.backingShare * backing[k]) / state.conductance_WmK;
    };
  }

  return {
    powerThrough_W: setup.powerThrough_W,
    powerPast_W: setup.powerPast_W,
    holds_JK,
    running(i: number, water_C: number, out: CollectorRun, aside = false): void {
      if (aside) {
        kept.surface.set(surface);
        kept.inner.set(read.inner_mKW);
      }
      prepare(i);
      let total = 0;
      let mean_C = water_C;
      for (let k = 0; k < n; k++) if (Number.isNaN(surface[k])) surface[k] = weather.air_C[i] + 5;
      for (let round = 0; round < ROUNDS; round++) {
        for (let k = 0; k < n; k++) outsides[k](surface[k]);
        response.read(mean_C, conductance, read);
        total = 0;
        for (let k = 0; k < n; k++) {
          heat[k] = read.effective[k] * conductance[k] * (towards[k] - water_C);
          total += heat[k];
        }
        mean_C = read.capacity_WK > 0 ? water_C + total / (2 * read.capacity_WK) : water_C;
        for (let k = 0; k < n; k++) {
          const length = response.length[k];
          surface[k] = mean_C + (length > 0 ? (heat[k] / length) * read.inner_mKW[k] : 0);
        }
      }
      out.heat_W = total;
      out.slope_WK = 0;
      out.headers_W = 0;
      out.pipes_W = 0;
      out.headersSlope_WK = 0;
      out.pipesSlope_WK = 0;
      for (let k = 0; k < n; k++) {
        const slope = -read.effective[k] * conductance[k];
        out.slope_WK += slope;
        if (kinds[k].group === 'headers') {
          out.headers_W += heat[k];
          out.headersSlope_WK += slope;
        } else if (kinds[k].group === 'pipes') {
          out.pipes_W += heat[k];
          out.pipesSlope_WK += slope;
        }
      }
      out.rise_K = read.capacity_WK > 0 ? total / read.capacity_WK : 0;
      out.capacity_WK = read.capacity_WK;
      out.mean_C = mean_C;
      if (aside) {
        surface.set(kept.surface);
        read.inner_mKW.set(kept.inner);
      }
    },
    standing: (i, out) => stand(i, 'tubes', out),
    pipes: pipes_JK > 0 ? { holds_JK: pipes_JK, standing: (i, out) => stand(i, 'pipes', out) } : null,
  };

  /** Where water tends to that stands in the tubes, or in feed and return pipe. */
  function stand(i: number, group: 'tubes' | 'pipes', out: CollectorStanding): void {
    prepare(i);
    let weight = 0;
    let sum = 0;
    let loss = 0;
    for (let k = 0; k < n; k++) {
      const kind = kinds[k];
      if (kind.group !== group || !(kind.capacity_JK > 0)) continue;
      // water that stands is as warm as its tube: two rounds from where it last stood
      outsides[k](Number.isNaN(stood_C[group]) ? weather.air_C[i] + 5 : stood_C[group]);
      outsides[k](clamp(towards[k]));
      const still = conductance[k] / (1 + conductance[k] * read.inner_mKW[k]);
      weight += kind.capacity_JK;
      sum += kind.capacity_JK * towards[k];
      loss += still * response.length[k];
    }
    stood_C[group] = weight > 0 ? clamp(sum / weight) : weather.air_C[i];
    out.standing_C = stood_C[group];
    out.tau_s = loss > 0 ? weight / loss : Infinity;
  }
}

function clamp(t: number): number {
  return Math.min(150, Math.max(-60, t));
}
