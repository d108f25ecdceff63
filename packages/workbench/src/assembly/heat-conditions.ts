import { type CoilLight, coilLight } from '@sunlap/engine/collector/coil-light';
import { longWaveOnPlane_Wm2 } from '@sunlap/engine/collector/long-wave';
import type { HeatOptions } from '@sunlap/engine/collector/options';
import type { OuterCurve } from '@sunlap/engine/collector/outer-curve';
import type { PanelConditions, RatedConditions } from '@sunlap/engine/collector/panel-types';
import { EMITTANCE_OVER_ABSORPTANCE, netIrradiance_Wm2 } from '@sunlap/engine/collector/rated-absorber';
import { rowFrame } from '@sunlap/engine/collector/row-frame';
import { type RowLight, type RowOptics, type RowWeather, rowLight } from '@sunlap/engine/collector/row-light';
import {
  backedTube,
  buriedPipe,
  indoorPipe,
  type OpenAir,
  openTube,
} from '@sunlap/engine/collector/surroundings';
import { lightOnPlane, type PlaneLight, type SkyLight, totalOnPlane_Wm2 } from '@sunlap/engine/sun/plane';
import type { CoilBank } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import {
  BACK_LOSS,
  BACKING_EMITTANCE,
  LEAST_EMITTANCE,
  loneSight,
  pipeSurface,
  SHADY_SKY,
} from './heat-assumed';
import type { HeatLayout, Standing } from './heat-layout';
import { type MomentShade, shadedPieces } from './heat-shade';
import type { AssembledNetwork } from './network';

/** Weather of one moment, as the panel's surroundings need it. */
export interface HeatWeather {
  readonly sky: SkyLight;
  readonly air: OpenAir;
  readonly ground_C: number;
  readonly room_C: number;
  /** Share of direct light that reaches the collector [–]; 1 where nothing shades it. On top of what stands round it. */
  readonly sunlit: number;
  /** What stands round the collector; nothing when absent. */
  readonly shade?: MomentShade | null;
}

/** More turns than this shade each other alike: the middle of a row [–]. */
const MOST_TURNS = 60;

/** Everything the heat solver wants to know about a moment, and what the readouts need beside it. */
export interface HeatConditions {
  readonly panel: PanelConditions;
  /** On the collector's plane [W/m²]. */
  readonly planeIrradiance_Wm2: number;
  /** G″ of the plane [W/m²]. */
  readonly net_Wm2: number;
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
  const { shade } = weather;
  const { banks } = assembled.geometry;
  const wholeSky = weather.air.skyShare ?? 1;
  const skyOfSection = (section: number): number => wholeSky * (shade?.skyOfSection[section] ?? 1);
  const skyOf = (bank: number): number => skyOfSection(banks[bank].section);
  const meanSky = wholeSky * (shade ? meanOfTubes(shade.skyOfSection, assembled, layout) : 1);
  const airs = new Map<number, OpenAir>();
  const airUnder = (skyShare: number): OpenAir => {
    if (!shade) return weather.air;
    const known = airs.get(skyShare) ?? { ...weather.air, skyShare };
    airs.set(skyShare, known);
    return known;
  };
  const under = (skyShare: number): RowWeather => (shade ? { ...rowWeather, skyShare } : rowWeather);
  const rowLights = new Map<string, RowLight>();
  const lightOf = (row: number, skyShare: number): RowLight => {
    const key = `${row} ${skyShare}`;
    const { frame, sight } = layout.rows[row];
    const known = rowLights.get(key) ?? rowLight(frame, sight, optics, under(skyShare));
    rowLights.set(key, known);
    return known;
  };
  const coils = new Map<number, CoilLight>();
  const outside: OuterCurve[] = [];
  const count = layout.standings.length;
  const [direct, diffuse] = [new Float64Array(count), new Float64Array(count)];
  const [backingDirect, backingDiffuse] = [new Float64Array(count), new Float64Array(count)];
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
  const inRow = (outer: number, front: number, rear: number, strip: number, sky: number): OuterCurve => {
    const round = (x: number): number => Math.round(x * 500) / 500;
    const key = `${outer} ${round(front)} ${round(rear)} ${layout.lying ? round(strip / outer) : ''} ${sky}`;
    return curve(key, () => {
      const tube = { diameter_m: outer, emittance, front: round(front), rear: round(rear), tilt_deg };
      const strip_m = Math.max(strip, 1e-4);
      return layout.lying
        ? backedTube(tube, { ...behind, strip_m }, airUnder(sky), light.plateFilm)
        : openTube(tube, airUnder(sky));
    });
  };
  layout.standings.forEach((s, i) => {
    switch (s.kind) {
      case 'row': {
        const { sight, tubes } = layout.rows[s.row];
        const sky = skyOf(tubes[s.tube].bank);
        const own = lightOf(s.row, sky);
        const strip = sight.strip_m[s.tube];
        outside.push(inRow(s.outer_m, sight.front[s.tube], sight.rear[s.tube], strip, sky));
        direct[i] = own.beam_Wm[s.tube];
        diffuse[i] = own.diffuse_Wm[s.tube];
        backingDirect[i] = strip * own.backingBeam_Wm2;
        backingDiffuse[i] = strip * own.backingDiffuse_Wm2;
        break;
      }
      case 'coil': {
        const sky = skyOf(s.bank);
        const c = coilOf(project, assembled, s.bank, optics, under(sky), coils);
        outside.push(inRow(banks[s.bank].size!.outer_m, c.front, c.rear, c.strip_m, sky));
        direct[i] = c.beam_Wm;
        diffuse[i] = c.diffuse_Wm;
        backingDirect[i] = c.strip_m * c.backingBeam_Wm2;
        backingDiffuse[i] = c.strip_m * c.backingDiffuse_Wm2;
        break;
      }
      case 'header':
      case 'pipe': {
        // pipe whose way nobody has drawn sees the mean
        const sky = s.kind === 'header' ? skyOfSection(s.section) : meanSky;
        outside.push(lonePipe(s, weather, airUnder(sky), sky, tilt_deg, emittance, curve));
        const own = loneLight(s, under(sky), tilt_deg, facing_deg, optics.absorptance);
        direct[i] = own.beam_Wm;
        diffuse[i] = own.diffuse_Wm;
        break;
      }
    }
  });
  const cut = shadedPieces(layout);
  const onPlane = lightOnPlane(weather.sky, tilt_deg, facing_deg, site.groundAlbedo, light.skyModel);
  /** What falls on the plane past what hides sun and sky [W/m²], and its long wave. */
  const planeUnder = (sunlit: number, sky: number) => ({
    plane: shade ? pastShade_Wm2(onPlane, sunlit, sky / wholeSky) : totalOnPlane_Wm2(onPlane),
    longWave: longWaveOnPlane_Wm2(
      tilt_deg,
      weather.air.sky_C,
      weather.air.air_C,
      shade ? sky : weather.air.skyShare,
    ),
  });
  const rated: RatedConditions[] = layout.rated.map((bank, k) => {
    const { section, bank: place } = banks[bank];
    const spec = collector.sections[section].banks[place];
    const ratio = spec.kind === 'rated' ? spec.emittanceOverAbsorptance : undefined;
    const { plane, longWave } = planeUnder(cut?.rated[k] ?? 1, skyOf(bank));
    return {
      net_Wm2: netIrradiance_Wm2(plane, longWave, weather.air.air_C, ratio ?? EMITTANCE_OVER_ABSORPTANCE),
      wind_ms: weather.air.wind_ms,
      air_C: weather.air.air_C,
    };
  });
  const { plane, longWave } = planeUnder(cut?.mean ?? 1, meanSky);
  const pieces = layout.pieceStanding;
  const sunlit = (piece: number): number => weather.sunlit * (cut ? cut.pieces[piece] : 1);
  return {
    panel: {
      outside,
      absorbed_Wm: Float64Array.from(pieces, (s, p) => sunlit(p) * direct[s] + diffuse[s]),
      backingAbsorbed_Wm: Float64Array.from(
        pieces,
        (s, p) => sunlit(p) * backingDirect[s] + backingDiffuse[s],
      ),
      rated,
    },
    planeIrradiance_Wm2: plane,
    net_Wm2: netIrradiance_Wm2(
      plane,
      longWave,
      weather.air.air_C,
      emittance / Math.max(0.05, optics.absorptance),
    ),
  };
}

/** Light on a plane of which a share of the direct light, and of the sky, is left [W/m²]. */
function pastShade_Wm2(light: PlaneLight, sunlit: number, sky: number): number {
  return (
    sunlit * (light.direct_Wm2 + light.circumsolar_Wm2) +
    sky * (light.background_Wm2 + light.horizon_Wm2) +
    light.ground_Wm2
  );
}

/** Mean of the sections by their tubes: length × diameter, or area; as in the year. */
function meanOfTubes(
  ofSection: readonly number[],
  { infos, geometry }: AssembledNetwork,
  { panel, links }: HeatLayout,
): number {
  let sum = 0;
  let size = 0;
  panel.description.elements.forEach((element, e) => {
    const { role, bank } = infos[links[e]];
    if (role !== 'tube' || element.kind === 'link') return;
    const own = element.kind === 'rated' ? element.area_m2 : panel.length_m[e] * element.outerDiameter_m;
    sum += own * (ofSection[geometry.banks[bank].section] ?? 1);
    size += own;
  });
  return size > 0 ? sum / size : 1;
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
  air: OpenAir,
  sky: number,
  tilt_deg: number,
  emittance: number,
  curve: (key: string, make: () => OuterCurve) => OuterCurve,
): OuterCurve {
  const outer = s.kind === 'header' ? s.outer_m : s.size.outer_m;
  const open = (tilt: number, eps: number): OuterCurve =>
    curve(`lone ${outer} ${tilt} ${eps} ${sky}`, () =>
      openTube({ diameter_m: outer, emittance: eps, front: 0.5, rear: 0.5, tilt_deg: tilt }, air),
    );
  if (s.kind === 'header') return open(tilt_deg, emittance);
  if (s.surroundings === 'indoors') {
    return curve(`indoors ${outer}`, () => indoorPipe(outer, weather.room_C, weather.air.pressure_Pa));
  }
  if (s.surroundings === 'buried') return curve(`buried ${outer}`, () => buriedPipe(outer, weather.ground_C));
  return open(0, pipeSurface(s.size).emittance);
}

/** Absorbed by a metre of lone pipe, direct light as if sunlit [W/m]. */
function loneLight(
  s: Lone,
  rowWeather: RowWeather,
  tilt_deg: number,
  facing_deg: number,
  absorptance: number,
): { beam_Wm: number; diffuse_Wm: number } {
  if (s.kind === 'header') {
    const frame = rowFrame(tilt_deg, facing_deg, s.angle_deg);
    const light = rowLight(frame, loneSight(s.outer_m), { absorptance, backing: null }, rowWeather);
    return { beam_Wm: light.beam_Wm[0], diffuse_Wm: light.diffuse_Wm[0] };
  }
  if (s.surroundings === 'indoors' || s.surroundings === 'buried') return { beam_Wm: 0, diffuse_Wm: 0 };
  const own = pipeSurface(s.size).absorptance;
  // a pipe of which only the length is known: the mean of two level directions at right angles
  const lights = [0, 90].map((angle) =>
    rowLight(
      rowFrame(0, facing_deg, angle),
      loneSight(s.size.outer_m),
      { absorptance: own, backing: null },
      rowWeather,
    ),
  );
  const beam = (lights[0].beam_Wm[0] + lights[1].beam_Wm[0]) / 2;
  const diffuse = (lights[0].diffuse_Wm[0] + lights[1].diffuse_Wm[0]) / 2;
  return s.surroundings === 'sun'
    ? { beam_Wm: beam, diffuse_Wm: diffuse }
    : { beam_Wm: 0, diffuse_Wm: SHADY_SKY * diffuse };
}
