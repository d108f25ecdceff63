import { DomainError } from '../numeric/errors';
import { nusseltCoil, nusseltTube } from './inside-film';
import { radiationFilm } from './long-wave';
import { type OuterState, readOuter } from './outer-curve';
import type { PreparedPanel } from './panel-prepare';
import type { PanelConditions, PanelOptions, PanelPipe, PanelRated } from './panel-types';
import { filmResistance } from './tube';
import { type WaterFilm, waterFilm } from './water-film';

/** The water's film is renewed when its temperature has moved by this much: 10⁻⁶ of the film. */
const FILM_STEP_K = 1e-4;

/** What one solution is about. */
export interface Moment {
  readonly flow_kgs: ArrayLike<number>;
  readonly conditions: PanelConditions;
  readonly options: PanelOptions;
  /** Heat capacity of water over the panel [J/kgK]. */
  heatCapacity_JkgK: number;
}

/** Coefficients of all elements and pieces in the present round. */
export interface ElementMaps {
  /** T_out = T_in + gain·(target − T_in) over the whole element. */
  readonly gain: Float64Array;
  readonly target: Float64Array;
  readonly standing: Float64Array;
  readonly reynolds: Float64Array;
  readonly air: Float64Array;
  readonly water: Float64Array;
  /** Per piece: standing temperature, NTU at this flow, F′U′o. */
  readonly pieceEq: Float64Array;
  readonly pieceNtu: Float64Array;
  /** 1 − e^(−NTU) of each piece. */
  readonly pieceEffect: Float64Array;
  readonly pieceU: Float64Array;
  /** Temperature at which the water's film was last worked out. */
  readonly filmAt_C: Float64Array;
  readonly film: WaterFilm;
  readonly outer: OuterState;
  readonly pull: { conductance: number; temperature: number };
}

/** Empty lists for a panel. */
export function elementMaps(panel: PreparedPanel): ElementMaps {
  const n = panel.from.length;
  const p = panel.pieceLength_m.length;
  return {
    gain: new Float64Array(n),
    target: new Float64Array(n),
    standing: new Float64Array(n),
    reynolds: new Float64Array(n),
    air: new Float64Array(n),
    water: new Float64Array(n),
    pieceEq: new Float64Array(p),
    pieceNtu: new Float64Array(p),
    pieceEffect: new Float64Array(p),
    pieceU: new Float64Array(p),
    filmAt_C: new Float64Array(n).fill(Number.NaN),
    film: { conductivity_WmK: 0, viscosity_Pas: 0, prandtl: 0 },
    outer: { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 },
    pull: { conductance: 0, temperature: 0 },
  };
}

/** Coefficients of one element at its present temperatures: everything but its inlet temperature. */
export function mapElement(panel: PreparedPanel, maps: ElementMaps, e: number, moment: Moment): void {
  const element = panel.description.elements[e];
  if (element.kind === 'pipe') mapPipe(panel, maps, e, element, moment);
  else if (element.kind === 'rated') mapRated(maps, e, element, moment);
}

/**
 * A rated absorber marched like a tube, NTU = A(b₁ + b₂u)/(ṁc): at ordinary flows its logarithmic mean stands
 * for the arithmetic T_m of the standard (apart by NTU²/12), and no flow is too small for it.
 */
function mapRated(maps: ElementMaps, e: number, element: PanelRated, moment: Moment): void {
  const at = moment.conditions.rated?.[element.conditions];
  if (!at) throw new DomainError(`conditions of rated absorber ${e}`, element.conditions, 'one per absorber');
  const c = element.coefficients;
  const loss = c.b1 + c.b2 * at.wind_ms;
  if (!(loss > 0)) throw new DomainError('loss of a rated absorber', loss, '> 0 W/m²K');
  const capacity = Math.abs(moment.flow_kgs[e]) * moment.heatCapacity_JkgK;
  const target = at.air_C + (c.eta0 * Math.max(0, 1 - c.bu * at.wind_ms) * at.net_Wm2) / loss;
  maps.target[e] = target;
  maps.standing[e] = target;
  maps.gain[e] = capacity > 0 ? -Math.expm1((-loss * element.area_m2) / capacity) : 1;
}

/** Water's film of a pipe at its present mean temperature. */
function filmOf(panel: PreparedPanel, maps: ElementMaps, e: number, pipe: PanelPipe, moment: Moment): void {
  const { film } = maps;
  waterFilm(panel.water_C[e], film);
  const re = (4 * Math.abs(moment.flow_kgs[e])) / (Math.PI * pipe.bore_m * film.viscosity_Pas);
  const nu = pipe.coilDiameter_m
    ? nusseltCoil(re, film.prandtl, pipe.bore_m / pipe.coilDiameter_m)
    : nusseltTube(re, film.prandtl, panel.length_m[e] / pipe.bore_m, moment.options.laminarGain);
  maps.reynolds[e] = re;
  maps.water[e] = filmResistance(nu, film.conductivity_WmK);
  maps.filmAt_C[e] = panel.water_C[e];
}

function mapPipe(panel: PreparedPanel, maps: ElementMaps, e: number, pipe: PanelPipe, moment: Moment): void {
  const { outer, pull } = maps;
  const { conditions } = moment;
  const flow = moment.flow_kgs[e];
  const capacity = Math.abs(flow) * moment.heatCapacity_JkgK;
  if (!(Math.abs(panel.water_C[e] - maps.filmAt_C[e]) < FILM_STEP_K)) filmOf(panel, maps, e, pipe, moment);
  const inner = maps.water[e] + panel.wall_mKW[e];
  pullOfNeighbours(panel, maps, e, pipe);
  const first = panel.pieceStart[e];
  const last = panel.pieceStart[e + 1];
  let conductance = 0;
  let hottest = -Infinity;
  let fromPieces = 0;
  let gain = 0;
  // T_out = (1 − gain)·T_in + fromPieces, piece after piece in the direction of flow
  for (let k = first; k < last; k += 1) {
    const p = flow < 0 ? last - 1 - (k - first) : k;
    readOuter(conditions.outside[panel.pieceOutside[p]], panel.surface_C[p], outer);
    const u = outer.conductance_WmK + pull.conductance;
    const te = (outer.conductance_WmK * outer.surroundings_C + pull.conductance * pull.temperature) / u;
    const absorbed =
      conditions.absorbed_Wm[p] + outer.backingShare * (conditions.backingAbsorbed_Wm?.[p] ?? 0);
    const eq = te + absorbed / u;
    const uf = u / (1 + u * inner);
    const ntu = capacity > 0 ? (uf * panel.pieceLength_m[p]) / capacity : Infinity;
    const effect = shareExchanged(ntu);
    fromPieces += (eq - fromPieces) * effect;
    gain += (1 - gain) * effect;
    maps.pieceEffect[p] = effect;
    maps.pieceEq[p] = eq;
    maps.pieceNtu[p] = ntu;
    maps.pieceU[p] = uf;
    conductance += u * panel.pieceLength_m[p];
    if (eq > hottest) hottest = eq;
  }
  maps.air[e] = panel.length_m[e] / conductance;
  maps.standing[e] = hottest;
  maps.gain[e] = gain;
  maps.target[e] = gain > 0 ? fromPieces / gain : maps.pieceEq[first];
}

/** 1 − e^(−x) for x ≥ 0; the series where it is short enough to be exact and quick (x < 0.01: error 1e-13). */
function shareExchanged(x: number): number {
  if (x < 0.01) return x * (1 - x * (1 / 2 - x * (1 / 6 - x * (1 / 24 - x / 120))));
  return 1 - Math.exp(-x);
}

/** Long wave from the tubes on either side at their last surface temperatures, per metre. */
function pullOfNeighbours(panel: PreparedPanel, maps: ElementMaps, e: number, pipe: PanelPipe): void {
  const { pull } = maps;
  pull.conductance = 0;
  pull.temperature = 0;
  const near = pipe.neighbours;
  if (!near || near.view === 0 || (near.left < 0 && near.right < 0)) return;
  const left = near.left < 0 ? near.right : near.left;
  const right = near.right < 0 ? near.left : near.right;
  pull.temperature = (meanSurface_C(panel, left) + meanSurface_C(panel, right)) / 2;
  const film = radiationFilm(meanSurface_C(panel, e), pull.temperature, 1 / (2 / near.emittance - 1));
  pull.conductance = Math.PI * pipe.outerDiameter_m * near.view * film;
}

function meanSurface_C(panel: PreparedPanel, e: number): number {
  const first = panel.pieceStart[e];
  const last = panel.pieceStart[e + 1];
  if (last - first === 1) return panel.surface_C[first];
  let sum = 0;
  for (let p = first; p < last; p += 1) sum += panel.surface_C[p] * panel.pieceLength_m[p];
  return sum / panel.length_m[e];
}

/**
 * New mean water and surface temperatures of an element.
 *
 * @returns the largest change [K]
 */
export function renewElement(
  panel: PreparedPanel,
  maps: ElementMaps,
  e: number,
  moment: Moment,
  node_C: Float64Array,
): number {
  const flow = moment.flow_kgs[e];
  const capacity = Math.abs(flow) * moment.heatCapacity_JkgK;
  const inlet = node_C[flow >= 0 ? panel.from[e] : panel.to[e]];
  const first = panel.pieceStart[e];
  const last = panel.pieceStart[e + 1];
  if (first === last) return renewPlain(panel, maps, e, flow, inlet, node_C);
  let t = inlet;
  let mean = 0;
  let change = 0;
  for (let k = first; k < last; k += 1) {
    const p = flow < 0 ? last - 1 - (k - first) : k;
    const eq = maps.pieceEq[p];
    const ntu = maps.pieceNtu[p];
    let water = eq;
    if (capacity > 0) {
      const effect = maps.pieceEffect[p];
      water = eq + (t - eq) * (ntu > 1e-12 ? effect / ntu : 1);
      t += (eq - t) * effect;
    }
    const surface = water + maps.pieceU[p] * (eq - water) * (maps.water[e] + panel.wall_mKW[e]);
    change = Math.max(change, Math.abs(surface - panel.surface_C[p]));
    panel.surface_C[p] = surface;
    mean += water * panel.pieceLength_m[p];
  }
  panel.water_C[e] = mean / panel.length_m[e];
  return change;
}

/** Rated absorbers and plain links: nothing in them depends on their own temperature. */
function renewPlain(
  panel: PreparedPanel,
  maps: ElementMaps,
  e: number,
  flow: number,
  inlet: number,
  node_C: Float64Array,
): number {
  if (flow !== 0) panel.water_C[e] = inlet + (maps.gain[e] * (maps.target[e] - inlet)) / 2;
  else if (panel.description.elements[e].kind === 'rated') panel.water_C[e] = maps.target[e];
  else panel.water_C[e] = (node_C[panel.from[e]] + node_C[panel.to[e]]) / 2;
  return 0;
}
