import { findSurface } from '@sunlap/data/surfaces';
import { type CoilLight, coilLight } from '@sunlap/engine/collector/coil-light';
import { longWaveOnPlane_Wm2 } from '@sunlap/engine/collector/long-wave';
import type { HeatOptions } from '@sunlap/engine/collector/options';
import type { OuterCurve } from '@sunlap/engine/collector/outer-curve';
import type { PanelConditions, RatedConditions } from '@sunlap/engine/collector/panel-types';
import { EMITTANCE_OVER_ABSORPTANCE, netIrradiance_Wm2 } from '@sunlap/engine/collector/rated-absorber';
import { rowFrame } from '@sunlap/engine/collector/row-frame';
import { type RowLight, type RowOptics, type RowWeather, rowLight } from '@sunlap/engine/collector/row-light';
import { evenRow, rowSight } from '@sunlap/engine/collector/row-sight';
import {
  backedTube,
  buriedPipe,
  indoorPipe,
  type OpenAir,
  openTube,
} from '@sunlap/engine/collector/surroundings';
import { lightOnPlane, type SkyLight, totalOnPlane_Wm2 } from '@sunlap/engine/sun/plane';
import type { CoilBank } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import type { HeatLayout, Standing } from './heat-layout';
import type { AssembledNetwork } from './network';
import type { PipeSize } from './sizes';

/** Weather of one moment, as the panel's surroundings need it. */
export interface HeatWeather {
  readonly sky: SkyLight;
  readonly air: OpenAir;
  readonly ground_C: number;
  readonly room_C: number;
  /** Share of direct light that reaches the collector [–]; 1 where nothing shades it. */
  readonly sunlit: number;
}

/** Emittance of boards, roofs and soil [–]; handbook value, from memory. */
const BACKING_EMITTANCE = 0.9;
/** From the face of a backing to what is behind it, where the file gives none [W/m²K]; judgement. */
const BACK_LOSS = { none: 0, board: 4, roof: 3, ground: 5, membrane: 3 } as const;
/** The engine's long wave ends at a mirror [–]. */
export const LEAST_EMITTANCE = 0.01;
/** More turns than this shade each other alike: the middle of a row [–]. */
const MOST_TURNS = 60;
/** Lone pipes see light from all round: the engine's row of one tube. */
const LONE = 1;

/** Everything the heat solver wants to know about a moment, and what the readouts need beside it. */
export interface HeatConditions {
  readonly panel: PanelConditions;
  /** On the collector's plane [W/m²]. */
  readonly planeIrradiance_Wm2: number;
  /** G″ of the plane [W/m²]. */
  readonly net_Wm2: number;
  readonly rows: readonly RowLight[];
}

/**
 * Conditions of every piece at one moment.
 *
 * @param light rivals of sky and film models
 */
export function heatConditions(
  project: Project,
  assembled: AssembledNetwork,
  layout: HeatLayout,
  weather: HeatWeather,
  light: HeatOptions,
): HeatConditions {
  const { collector, site } = project;
  const { tilt_deg, facing_deg } = collector.placement;
  const rowWeather: RowWeather = {
    sky: weather.sky,
    albedo: site.groundAlbedo,
    skyShare: weather.air.skyShare,
    model: light.skyModel,
  };
  const optics: RowOptics = {
    absorptance: collector.surface.absorptance,
    backing:
      collector.backing.kind === 'none'
        ? null
        : { reflectance: collector.backing.reflectance, contact: layout.lying ? 'lying' : 'spaced' },
  };
  const rows = layout.rows.map((r) => rowLight(r.frame, r.sight, optics, rowWeather));
  const coils = new Map<number, CoilLight>();
  const outside: OuterCurve[] = [];
  const absorbed = new Float64Array(layout.standings.length);
  const backing = new Float64Array(layout.standings.length);
  const shared = new Map<string, OuterCurve>();
  const curve = (key: string, make: () => OuterCurve): OuterCurve => {
    const known = shared.get(key) ?? make();
    shared.set(key, known);
    return known;
  };
  const emittance = Math.max(LEAST_EMITTANCE, collector.surface.emittance);
  const behind = {
    emittance: BACKING_EMITTANCE,
    behind_Wm2K: collector.backing.backLoss_Wm2K ?? BACK_LOSS[collector.backing.kind],
    behind_C: collector.backing.kind === 'ground' ? weather.ground_C : weather.air.air_C,
  };
  /** Outside of a tube in a row: on a backing or with air all round. */
  const inRow = (outer: number, front: number, rear: number, strip: number): OuterCurve => {
    const round = (x: number): number => Math.round(x * 500) / 500;
    const key = `${outer} ${round(front)} ${round(rear)} ${layout.lying ? round(strip / outer) : ''}`;
    return curve(key, () => {
      const tube = { diameter_m: outer, emittance, front: round(front), rear: round(rear), tilt_deg };
      const strip_m = Math.max(strip, 1e-4);
      return layout.lying
        ? backedTube(tube, { ...behind, strip_m }, weather.air, light.plateFilm)
        : openTube(tube, weather.air);
    });
  };
  layout.standings.forEach((s, i) => {
    switch (s.kind) {
      case 'row': {
        const { sight } = layout.rows[s.row];
        const own = rows[s.row];
        outside.push(inRow(s.outer_m, sight.front[s.tube], sight.rear[s.tube], sight.strip_m[s.tube]));
        absorbed[i] = weather.sunlit * own.beam_Wm[s.tube] + own.diffuse_Wm[s.tube];
        backing[i] = sight.strip_m[s.tube] * (weather.sunlit * own.backingBeam_Wm2 + own.backingDiffuse_Wm2);
        break;
      }
      case 'coil': {
        const c = coilOf(project, assembled, s.bank, optics, rowWeather, coils);
        const outer = assembled.geometry.banks[s.bank].size!.outer_m;
        outside.push(inRow(outer, c.front, c.rear, c.strip_m));
        absorbed[i] = weather.sunlit * c.beam_Wm + c.diffuse_Wm;
        backing[i] = c.strip_m * (weather.sunlit * c.backingBeam_Wm2 + c.backingDiffuse_Wm2);
        break;
      }
      case 'header':
      case 'pipe':
        outside.push(lonePipe(s, weather, tilt_deg, emittance, curve));
        absorbed[i] = loneLight(s, weather, rowWeather, tilt_deg, facing_deg, optics.absorptance);
        break;
    }
  });
  const plane = totalOnPlane_Wm2(
    lightOnPlane(weather.sky, tilt_deg, facing_deg, site.groundAlbedo, light.skyModel),
  );
  const longWave = longWaveOnPlane_Wm2(tilt_deg, weather.air.sky_C, weather.air.air_C, weather.air.skyShare);
  const rated: RatedConditions[] = layout.rated.map((bank) => {
    const { section, bank: k } = assembled.geometry.banks[bank];
    const spec = collector.sections[section].banks[k];
    const ratio = spec.kind === 'rated' ? spec.emittanceOverAbsorptance : undefined;
    return {
      net_Wm2: netIrradiance_Wm2(plane, longWave, weather.air.air_C, ratio ?? EMITTANCE_OVER_ABSORPTANCE),
      wind_ms: weather.air.wind_ms,
      air_C: weather.air.air_C,
    };
  });
  const pieces = layout.pieceStanding;
  return {
    panel: {
      outside,
      absorbed_Wm: Float64Array.from(pieces, (p) => absorbed[p]),
      backingAbsorbed_Wm: Float64Array.from(pieces, (p) => backing[p]),
      rated,
    },
    planeIrradiance_Wm2: plane,
    net_Wm2: netIrradiance_Wm2(
      plane,
      longWave,
      weather.air.air_C,
      emittance / Math.max(0.05, optics.absorptance),
    ),
    rows,
  };
}

function coilOf(
  project: Project,
  assembled: AssembledNetwork,
  place: number,
  optics: RowOptics,
  weather: RowWeather,
  known: Map<number, CoilLight>,
): CoilLight {
  const found = known.get(place);
  if (found) return found;
  const geometry = assembled.geometry.banks[place];
  const bank = project.collector.sections[geometry.section].banks[geometry.bank] as CoilBank;
  const outer = geometry.size!.outer_m;
  const { turns, pitch_m } = coilTurns(bank, outer);
  const { tilt_deg, facing_deg } = project.collector.placement;
  const light = coilLight(turns, pitch_m, outer, tilt_deg, facing_deg, optics, weather);
  known.set(place, light);
  return light;
}

/**
 * Turns of a coil along one radius and their pitch. A flat spiral fills the ring between its diameters; a helix
 * is taken as its side seen flat, turn against turn.
 */
export function coilTurns(bank: CoilBank, outer_m: number): { turns: number; pitch_m: number } {
  const mean = (Math.PI * (bank.innerDiameter_m + bank.outerDiameter_m)) / 2;
  const wound = Math.max(1, Math.round(bank.length_m / mean));
  const turns = Math.min(MOST_TURNS, wound);
  const ring = Math.max(0, (bank.outerDiameter_m - bank.innerDiameter_m) / 2);
  const pitch = bank.shape === 'flat' ? ring / wound : outer_m;
  return { turns, pitch_m: Math.max(pitch, outer_m) };
}

type Lone = Extract<Standing, { kind: 'header' | 'pipe' }>;

function lonePipe(
  s: Lone,
  weather: HeatWeather,
  tilt_deg: number,
  emittance: number,
  curve: (key: string, make: () => OuterCurve) => OuterCurve,
): OuterCurve {
  const outer = s.kind === 'header' ? s.outer_m : s.size.outer_m;
  const open = (tilt: number, eps: number): OuterCurve =>
    curve(`lone ${outer} ${tilt} ${eps}`, () =>
      openTube({ diameter_m: outer, emittance: eps, front: 0.5, rear: 0.5, tilt_deg: tilt }, weather.air),
    );
  if (s.kind === 'header') return open(tilt_deg, emittance);
  if (s.surroundings === 'indoors') {
    return curve(`indoors ${outer}`, () => indoorPipe(outer, weather.room_C, weather.air.pressure_Pa));
  }
  if (s.surroundings === 'buried') return curve(`buried ${outer}`, () => buriedPipe(outer, weather.ground_C));
  return open(0, pipeSurface(s.size).emittance);
}

/** Surface of feed and return pipe, which the file does not colour: weathered white PVC, anything else black. */
function pipeSurface(size: PipeSize): { absorptance: number; emittance: number } {
  const row = findSurface(size.material.startsWith('PVC') ? 'white_pvc_weathered' : 'black_pe_pp');
  return { absorptance: row?.absorptance ?? 0.45, emittance: row?.emittance ?? 0.92 };
}

const loneSights = new Map<number, ReturnType<typeof rowSight>>();

function loneSight(outer: number): ReturnType<typeof rowSight> {
  const known = loneSights.get(outer) ?? rowSight(evenRow(LONE, 1, outer));
  loneSights.set(outer, known);
  return known;
}

function loneLight(
  s: Lone,
  weather: HeatWeather,
  rowWeather: RowWeather,
  tilt_deg: number,
  facing_deg: number,
  absorptance: number,
): number {
  if (s.kind === 'header') {
    const frame = rowFrame(tilt_deg, facing_deg, s.angle_deg);
    const light = rowLight(frame, loneSight(s.outer_m), { absorptance, backing: null }, rowWeather);
    return weather.sunlit * light.beam_Wm[0] + light.diffuse_Wm[0];
  }
  if (s.surroundings === 'indoors' || s.surroundings === 'buried') return 0;
  const own = pipeSurface(s.size).absorptance;
  // a pipe of which only the length is known: the mean of two level directions at right angles
  let sum = 0;
  for (const angle of [0, 90]) {
    const light = rowLight(
      rowFrame(0, facing_deg, angle),
      loneSight(s.size.outer_m),
      { absorptance: own, backing: null },
      rowWeather,
    );
    // what shades the sun hides about half the sky as well
    sum +=
      s.surroundings === 'sun'
        ? weather.sunlit * light.beam_Wm[0] + light.diffuse_Wm[0]
        : 0.5 * light.diffuse_Wm[0];
  }
  return sum / 2;
}
