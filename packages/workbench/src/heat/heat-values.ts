import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import type { OuterState } from '@sunlap/engine/collector/outer-curve';
import {
  firstSlug,
  standingTemperature_C,
  timeConstant_s,
  tubeCapacity_JmK,
} from '@sunlap/engine/collector/standing';
import { pieceVolume } from '@sunlap/engine/hydraulics/fill';
import type { Project } from '@sunlap/project/schema/project';
import { type HeatWeather, heatConditions } from '../assembly/heat-conditions';
import { shadedPieces } from '../assembly/heat-shade';
import type { HeatShade, HeatValues, TubeHeat } from '../results';
import type { ResolvedMoment } from './moment';
import type { SolvedHeat } from './solve-heat';
import { wallOfPiece_Jm3K } from './wall-heat';

/** Points of a tube's temperature profile, both ends included. */
const PROFILE_POINTS = 9;
/** How long the water is taken to have stood in the sun before the first slug [s]; judgement. */
const STOOD_S = 3600;

/** What one solution of flow and heat says. */
export function heatValues(
  project: Project,
  now: ResolvedMoment,
  weather: HeatWeather,
  solved: SolvedHeat,
): HeatValues {
  const { panel, layout, flow } = solved;
  const { assembled } = flow;
  const water_C = now.moment.water_C;
  let collectorHeat_W = 0;
  layout.links.forEach((link, e) => {
    if (assembled.infos[link].bank >= 0) collectorHeat_W += panel.elementHeat_W[e];
  });
  const area = areas(project, solved);
  const plane = solved.conditions.planeIrradiance_Wm2;
  const sun = plane * area.gross_m2;
  const outlet = panel.outlet_C ?? water_C;
  return {
    moment: now.moment,
    heat_W: panel.heat_W,
    collectorHeat_W,
    pipesHeat_W: panel.heat_W - collectorHeat_W,
    inlet_C: water_C,
    outlet_C: outlet,
    rise_K: outlet - water_C,
    efficiency: sun > 1 && panel.massFlow_kgs > 0 ? panel.heat_W / sun : null,
    area,
    planeIrradiance_Wm2: plane,
    dryStanding_C: dryStanding_C(project, solved, weather),
    firstSlug: slug(solved, water_C),
    banks: bankHeats(project, solved),
    resistances: resistances(solved),
    curves: [],
    poolPerSunnyDay_K: 0,
    shade: shadeOf(solved, weather),
  };
}

/** Shares of light; what shade costs is looked at by the full study. */
function shadeOf({ layout }: SolvedHeat, { shade, sky }: HeatWeather): HeatShade | null {
  const cut = shadedPieces(layout);
  if (!shade || !cut || !(sky.sunZenith_deg < 90)) return null;
  const seen = shade.skyOfSection;
  return {
    sunlit: cut.mean,
    sky: seen.reduce((a, b) => a + b, 0) / Math.max(1, seen.length),
    cost_W: null,
    worst: null,
  };
}

/** Absorber: what tubes show straight on. Gross: the ground they cover, half-way to their neighbours. */
function areas(project: Project, solved: SolvedHeat): HeatValues['area'] {
  let absorber = 0;
  let gross = 0;
  const { geometry } = solved.flow.assembled;
  for (const row of solved.layout.rows) {
    row.tubes.forEach(({ bank, unit }, i) => {
      const b = geometry.banks[bank];
      const { length_m } = b.units[unit];
      absorber += b.size!.outer_m * length_m;
      gross += Math.min(row.sight.strip_m[i], 3 * b.spacing_m) * length_m;
    });
  }
  for (const b of geometry.banks) {
    const bank = project.collector.sections[b.section].banks[b.bank];
    if (bank.kind === 'coil') {
      absorber +=
        Math.min(b.size!.outer_m * bank.length_m, (Math.PI / 4) * bank.outerDiameter_m ** 2) * bank.count;
      gross += bank.outerDiameter_m * Math.max(b.spacing_m, bank.outerDiameter_m) * bank.count;
    } else if (bank.kind === 'rated') {
      absorber += bank.area_m2 * bank.count;
      gross += bank.area_m2 * bank.count;
    }
  }
  return { absorber_m2: absorber, gross_m2: gross };
}

/** Hottest dry tube in this sun and calm air. */
function dryStanding_C(project: Project, solved: SolvedHeat, weather: HeatWeather): number {
  const calm: HeatWeather = { ...weather, air: { ...weather.air, wind_ms: 0 } };
  const { panel } = heatConditions(project, solved.flow.assembled, solved.layout, calm, DEFAULT_HEAT_OPTIONS);
  let worst = weather.air.air_C;
  // the tube that takes up most decides; a few of each kind of surroundings are looked at
  const best = new Map<object, number>();
  solved.layout.pieceStanding.forEach((standing, piece) => {
    const kind = solved.layout.standings[standing].kind;
    if (kind !== 'row' && kind !== 'coil') return;
    const outside = panel.outside[standing];
    const known = best.get(outside);
    if (known === undefined || panel.absorbed_Wm[piece] > panel.absorbed_Wm[known]) best.set(outside, piece);
  });
  for (const [, piece] of best) {
    const outside = panel.outside[solved.layout.pieceStanding[piece]];
    worst = Math.max(
      worst,
      standingTemperature_C(outside, panel.absorbed_Wm[piece], panel.backingAbsorbed_Wm?.[piece] ?? 0),
    );
  }
  for (const rated of panel.rated ?? []) worst = Math.max(worst, ratedStanding_C(project, rated));
  return worst;
}

/** Where a rated absorber's own coefficients give no heat: Ta + η₀G″/b₁. */
function ratedStanding_C(project: Project, at: { net_Wm2: number; air_C: number }): number {
  let worst = at.air_C;
  for (const section of project.collector.sections) {
    for (const bank of section.banks) {
      if (bank.kind !== 'rated' || !(bank.b1_Wm2K > 0)) continue;
      worst = Math.max(worst, at.air_C + (bank.eta0 * at.net_Wm2) / bank.b1_Wm2K);
    }
  }
  return worst;
}

/** Element of the tube in the middle of the first bank that has tubes; −1 when none has. */
export function typicalElement(solved: SolvedHeat): number {
  for (const bank of solved.flow.assembled.banks) {
    if (!bank) continue;
    const link = bank.units[Math.floor(bank.units.length / 2)];
    const element = link === undefined ? -1 : solved.layout.elementOf[link];
    if (element >= 0 && solved.layout.panel.description.elements[element].kind === 'pipe') return element;
  }
  return -1;
}

function resistances(solved: SolvedHeat): HeatValues['resistances'] {
  const e = typicalElement(solved);
  if (e < 0) return { air_mKW: 0, wall_mKW: 0, water_mKW: 0, efficiencyFactor: 1 };
  const { panel } = solved;
  const air = panel.airResistance_mKW[e];
  const wall = panel.wallResistance_mKW[e];
  const water = panel.waterResistance_mKW[e];
  // F′ = 1/(1 + U′o(R_i + R_w)) with U′o = 1/R_air
  return {
    air_mKW: air,
    wall_mKW: wall,
    water_mKW: water,
    efficiencyFactor: air > 0 ? air / (air + wall + water) : 1,
  };
}

function slug(solved: SolvedHeat, water_C: number): HeatValues['firstSlug'] {
  const { assembled } = solved.flow;
  const links = assembled.description.links;
  let volume = assembled.geometry.volume_m3;
  assembled.infos.forEach((info, link) => {
    const law = links[link].law;
    if (info.path.startsWith('/loop/return') && law.kind === 'pipe') {
      volume += pieceVolume({ length_m: law.length_m, bore_m: law.bore_m });
    }
  });
  const flow = solved.panel.massFlow_kgs / assembled.description.referenceDensity_kgm3;
  const seconds = flow > 1e-9 ? volume / flow : 0;
  const e = typicalElement(solved);
  if (e < 0) return { temperature_C: water_C, volume_m3: volume, seconds, timeConstant_s: 0 };
  const element = solved.layout.panel.description.elements[e];
  if (element.kind !== 'pipe')
    return { temperature_C: water_C, volume_m3: volume, seconds, timeConstant_s: 0 };
  const standing = solved.panel.elementStanding_C[e];
  const state: OuterState = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
  solved.conditions.panel.outside[element.pieces[0].outside].exact(standing, state);
  const inner = solved.panel.wallResistance_mKW[e] + solved.panel.waterResistance_mKW[e];
  const conductance = 1 / (1 / state.conductance_WmK + inner);
  const { layout } = solved;
  const { bank } = assembled.infos[layout.links[e]];
  const wall = wallOfPiece_Jm3K(layout, assembled.geometry, element.pieces[0].outside, bank);
  const capacity = tubeCapacity_JmK(element.bore_m, element.outerDiameter_m, undefined, wall);
  const first = firstSlug(standing, water_C, STOOD_S, capacity, conductance, volume);
  return {
    temperature_C: first.temperature_C,
    volume_m3: volume,
    seconds,
    timeConstant_s: timeConstant_s(capacity, conductance),
  };
}

function bankHeats(project: Project, solved: SolvedHeat): HeatValues['banks'] {
  const { panel, layout, flow } = solved;
  return flow.assembled.banks.flatMap((links, place) => {
    if (!links) return [];
    const geometry = flow.assembled.geometry.banks[place];
    const section = project.collector.sections[links.section];
    let heat = 0;
    flow.assembled.infos.forEach((info, link) => {
      const e = layout.elementOf[link];
      if (info.bank === place && e >= 0) heat += panel.elementHeat_W[e];
    });
    const tubes: TubeHeat[] = links.units.map((link, i) => {
      const e = layout.elementOf[link];
      const inlet = panel.elementInlet_C[e];
      const outlet = panel.elementOutlet_C[e];
      return {
        number: geometry.units[i].number,
        position: geometry.units[i].position,
        inlet_C: inlet,
        outlet_C: outlet,
        heat_W: panel.elementHeat_W[e],
        profile_C: profile(solved, e),
      };
    });
    const mean = (nodes: readonly number[]): number =>
      nodes.reduce((sum, n) => sum + panel.node_C[n], 0) / Math.max(1, nodes.length);
    return [
      {
        section: section.id,
        id: section.banks[links.bank].id,
        heat_W: heat,
        inlet_C: mean(links.inNodes),
        outlet_C: mean(links.outNodes),
        tubes: tubes.sort((a, b) => a.number - b.number),
      },
    ];
  });
}

/** Along each piece T = T_eq + (T_in − T_eq)·e^(−NTU·x/L), one after another in the direction of flow. */
function profile({ layout, panel, elementFlow_kgs }: SolvedHeat, e: number): number[] {
  const inlet = panel.elementInlet_C[e];
  const outlet = panel.elementOutlet_C[e];
  const [from, to] = [layout.panel.pieceStart[e], layout.panel.pieceStart[e + 1]];
  const length = layout.panel.length_m[e];
  const out: number[] = [];
  let t = inlet;
  let start = 0;
  let k = 0;
  const place = (n: number): number => (elementFlow_kgs[e] < 0 ? to - 1 - n : from + n);
  for (let i = 0; i < PROFILE_POINTS; i++) {
    const x = (i / (PROFILE_POINTS - 1)) * length;
    if (!(to > from) || !(elementFlow_kgs[e] !== 0)) {
      out.push(inlet + ((outlet - inlet) * i) / (PROFILE_POINTS - 1));
      continue;
    }
    for (; k < to - from - 1 && x > start + layout.panel.pieceLength_m[place(k)]; k++) {
      t = along(panel, place(k), t, 1);
      start += layout.panel.pieceLength_m[place(k)];
    }
    out.push(along(panel, place(k), t, (x - start) / layout.panel.pieceLength_m[place(k)]));
  }
  return out;
}

/** Temperature a share of a piece down from its inlet [°C]. */
function along(panel: SolvedHeat['panel'], piece: number, inlet_C: number, share: number): number {
  const rest = panel.pieceStanding_C[piece];
  return rest + (inlet_C - rest) * Math.exp(-panel.pieceNtu[piece] * Math.min(1, share));
}
