import { nusseltCoil, nusseltTube } from '../collector/inside-film';
import { type FlowOrder, flowOrder } from '../collector/panel-order';
import type { PreparedPanel } from '../collector/panel-prepare';
import { filmResistance } from '../collector/tube';
import { type WaterFilm, waterFilm } from '../collector/water-film';
import { waterHeatCapacity } from '../fluids/water';
import { DomainError } from '../numeric/errors';

/** Nodes of the table over the outer conductance: factors of √2 from 1/16 to 16 of the reference. */
const SCALES = 17;
const STEP_LN = Math.LN2 / 2;
/** Nodes over the water's temperature: from 0 to this, this far apart where nothing else is said [°C], [K]. */
const HOTTEST_C = 60;
const STEP_K = 5;
/** About so far apart are nodes with derivatives of their own [K]. */
const ANCHOR_K = 2.5;
/** Relative change for derivatives by the other kinds' conductance. */
const NUDGE = 0.05;
/** Rounds through water that circles within the panel. */
const RING_ROUNDS = 60;

/** What one kind of surroundings has of the panel at a moment. */
export interface ResponseRead {
  /** Effective length (area for rated absorbers): heat = Σ A·U·(Θ − T_in) [m or m²]. */
  readonly effective: Float64Array;
  /** Mean resistance of film and wall [m·K/W]. */
  readonly inner_mKW: Float64Array;
  /** ṁc of the whole panel [W/K]. */
  capacity_WK: number;
}

/** A panel at one state of the loop, ready to be asked for its heat at any conductance and water temperature. */
export interface PanelResponse {
  readonly kinds: number;
  /** Length of pipe by kind [m]; area of rated absorbers [m²]. */
  readonly length: Float64Array;
  read(water_C: number, conductance: Float64Array, out: ResponseRead): void;
}

/** Flows of all elements at a water temperature [kg/s]. */
export type FlowAt = (water_C: number) => ArrayLike<number>;

interface Node {
  readonly flow: ArrayLike<number>;
  /** ṁc of all that enters [W/K]. */
  readonly capacity_WK: number;
  readonly order: FlowOrder;
  readonly inner: Float64Array;
  readonly innerByKind: Float64Array;
  /** [scale] → effective lengths, then their derivatives by ln U of each kind. */
  readonly tables: (Float64Array | null)[];
}

/**
 * Response of a panel whose every piece stands in one of a few kinds of surroundings.
 *
 * With outer conductances U fixed, the heat into the water is exactly linear in what the pieces tend to,
 *
 *   Q = Σ_k A_k(U)·U_k·(Θ_k − T_in)
 *
 * and the effective lengths A_k follow from one sweep against the flow (the adjoint of the march through tubes
 * and headers). They are tabulated over the conductance of the main kind, with the others in proportion and
 * first derivatives for their departures, and over the water's temperature; nodes are filled when first met.
 * Long wave between neighbouring tubes is left out: what one gives the other gets.
 *
 * @param panel      from `preparePanel`
 * @param kindOfPiece kind of each piece, by place
 * @param kindOfRated kind of each rated absorber, by element; −1 elsewhere
 * @param reference  conductance of each kind in ordinary wind: per metre [W/mK], per area for rated [W/m²K]
 * @param main       the kind that takes up most
 * @param flowAt     flows of all elements by water temperature
 * @param laminarGain natural convection's gain on the laminar film [–]
 * @param step_K     between nodes of the water's temperature [K]; 5, less where flows turn from laminar
 * @throws {DomainError} for lists of the wrong length or conductances that are not positive
 */
export function panelResponse(
  panel: PreparedPanel,
  kindOfPiece: ArrayLike<number>,
  kindOfRated: ArrayLike<number>,
  reference: Float64Array,
  main: number,
  flowAt: FlowAt,
  laminarGain = 1,
  step_K = STEP_K,
): PanelResponse {
  if (!(step_K > 0 && step_K <= HOTTEST_C)) throw new DomainError('step of the water', step_K, '(0, 60] K');
  const hottest = Math.ceil(HOTTEST_C / step_K);
  // derivatives bend less than flows: where nodes are close, one in a few has its own
  const anchors = Math.max(1, Math.round(ANCHOR_K / step_K));
  const kinds = reference.length;
  const elements = panel.description.elements;
  if (kindOfPiece.length !== panel.pieceLength_m.length)
    throw new DomainError('kinds of pieces', kindOfPiece.length, `${panel.pieceLength_m.length}`);
  for (const u of reference) if (!(u > 0)) throw new DomainError('reference conductance', u, '> 0');
  const length = new Float64Array(kinds);
  elements.forEach((element, e) => {
    if (element.kind === 'rated') length[kindOfRated[e]] += element.area_m2;
    for (let p = panel.pieceStart[e]; p < panel.pieceStart[e + 1]; p++)
      length[kindOfPiece[p]] += panel.pieceLength_m[p];
  });
  const nodes: (Node | null)[] = new Array(hottest + 1).fill(null);
  const scratch = new Float64Array(kinds);

  function nodeAt(t: number): Node {
    const known = nodes[t];
    if (known) return known;
    const water_C = Math.min(HOTTEST_C, t * step_K);
    const flow = flowAt(water_C);
    const inner = new Float64Array(panel.pieceLength_m.length);
    const byKind = new Float64Array(kinds);
    const film: WaterFilm = { conductivity_WmK: 0, viscosity_Pas: 0, prandtl: 0 };
    waterFilm(water_C, film);
    elements.forEach((element, e) => {
      if (element.kind !== 'pipe') return;
      const re = (4 * Math.abs(flow[e])) / (Math.PI * element.bore_m * film.viscosity_Pas);
      const nu = element.coilDiameter_m
        ? nusseltCoil(re, film.prandtl, element.bore_m / element.coilDiameter_m)
        : nusseltTube(re, film.prandtl, panel.length_m[e] / element.bore_m, laminarGain);
      const r = panel.wall_mKW[e] + filmResistance(nu, film.conductivity_WmK);
      for (let p = panel.pieceStart[e]; p < panel.pieceStart[e + 1]; p++) {
        inner[p] = r;
        byKind[kindOfPiece[p]] += r * panel.pieceLength_m[p];
      }
    });
    for (let k = 0; k < kinds; k++) if (length[k] > 0) byKind[k] /= length[k];
    const order = flowOrder(panel.description.nodeCount, panel.from, panel.to, flow);
    const made = {
      flow,
      capacity_WK: entering_kgs(panel, flow) * waterHeatCapacity(water_C),
      order,
      inner,
      innerByKind: byKind,
      tables: new Array<Float64Array | null>(SCALES).fill(null),
    };
    nodes[t] = made;
    return made;
  }

  function tableAt(node: Node, t: number, j: number): Float64Array {
    const known = node.tables[j];
    if (known) return known;
    const scale = Math.exp((j - (SCALES - 1) / 2) * STEP_LN);
    const u = reference.map((r) => r * scale);
    const table = new Float64Array(kinds * (kinds + 1));
    const c = waterHeatCapacity(Math.min(HOTTEST_C, t * step_K));
    sweep(node, c, u, table, 0);
    const anchor = Math.min(hottest, Math.round(t / anchors) * anchors);
    if (anchor !== t) {
      table.set(tableAt(nodeAt(anchor), anchor, j).subarray(kinds), kinds);
      node.tables[j] = table;
      return table;
    }
    for (let i = 0; i < kinds; i++) {
      if (i === main) continue;
      const changed = Float64Array.from(u);
      changed[i] *= 1 + NUDGE;
      sweep(node, c, changed, table, kinds * (i + 1));
      for (let k = 0; k < kinds; k++) {
        const at = kinds * (i + 1) + k;
        table[at] = (table[at] - table[k]) / Math.log1p(NUDGE);
      }
    }
    node.tables[j] = table;
    return table;
  }

  /** Effective lengths by one sweep against the flow. */
  function sweep(node: Node, c: number, u: Float64Array, out: Float64Array, at: number): void {
    const { flow, inner, order } = node;
    const count = order.elements.length;
    const rounds = order.acyclic < count ? RING_ROUNDS : 1;
    // how the leaving water's ΣṁT depends on each node's temperature
    let pull = Float64Array.from(order.leaving);
    scratch.fill(0);
    for (let round = 0; round < rounds; round++) {
      const last = round === rounds - 1;
      const next = rounds === 1 ? pull : Float64Array.from(order.leaving);
      for (let k = count - 1; k >= 0; k--) {
        const e = order.elements[k];
        const m = Math.abs(flow[e]);
        const up = flow[e] > 0 ? panel.from[e] : panel.to[e];
        const down = flow[e] > 0 ? panel.to[e] : panel.from[e];
        // upstream of any ring everything downstream has been gathered; within one, the last round's counts
        let share = ((k < order.acyclic ? next : pull)[down] * m) / order.through[down];
        const element = elements[e];
        if (element.kind === 'rated') {
          const kind = kindOfRated[e];
          const effect = -Math.expm1((-u[kind] * element.area_m2) / (m * c));
          if (last) scratch[kind] += c * share * effect;
          share *= 1 - effect;
        } else {
          const a = panel.pieceStart[e];
          const b = panel.pieceStart[e + 1];
          for (let q = b - 1; q >= a; q--) {
            const p = flow[e] > 0 ? q : a + (b - 1 - q);
            const kind = kindOfPiece[p];
            const whole = (u[kind] * panel.pieceLength_m[p]) / (1 + u[kind] * inner[p]);
            const effect = -Math.expm1(-whole / (m * c));
            if (last) scratch[kind] += c * share * effect;
            share *= 1 - effect;
          }
        }
        next[up] += share;
      }
      pull = next;
    }
    for (let k = 0; k < kinds; k++) out[at + k] = scratch[k] / u[k];
  }

  const weights = new Float64Array(4);
  const departure = new Float64Array(kinds);

  return {
    kinds,
    length,
    read(water_C, conductance, out) {
      const x = Math.min(hottest - 1e-9, Math.max(0, water_C / step_K));
      const t = Math.floor(x);
      const g = x - t;
      const lnMain = Math.log(conductance[main] / reference[main]);
      const y = Math.min(SCALES - 1.000001, Math.max(0, lnMain / STEP_LN + (SCALES - 1) / 2));
      const j = Math.floor(y);
      cubicWeights(y - j, weights);
      for (let i = 0; i < kinds; i++)
        departure[i] = i === main ? 0 : Math.log(conductance[i] / reference[i]) - lnMain;
      const { effective, inner_mKW } = out;
      effective.fill(0);
      inner_mKW.fill(0);
      out.capacity_WK = 0;
      for (let side = 0; side < 2; side++) {
        const part = side === 0 ? 1 - g : g;
        if (part === 0) continue;
        const node = nodeAt(t + side);
        out.capacity_WK += part * node.capacity_WK;
        for (let k = 0; k < kinds; k++) inner_mKW[k] += part * node.innerByKind[k];
        for (let q = 0; q < 4; q++) {
          const w = part * weights[q];
          if (w === 0) continue;
          const table = tableAt(node, t + side, Math.min(SCALES - 1, Math.max(0, j - 1 + q)));
          for (let k = 0; k < kinds; k++) effective[k] += w * table[k];
          for (let i = 0, at = kinds; i < kinds; i++, at += kinds) {
            const off = w * departure[i];
            if (off !== 0) for (let k = 0; k < kinds; k++) effective[k] += off * table[at + k];
          }
        }
      }
    },
  };
}

/** Water that comes into a panel from outside: what leaves its nodes beyond what arrives there [kg/s]. */
function entering_kgs(panel: PreparedPanel, flow: ArrayLike<number>): number {
  const net = new Float64Array(panel.description.nodeCount);
  for (let e = 0; e < panel.from.length; e++) {
    net[panel.from[e]] += flow[e];
    net[panel.to[e]] -= flow[e];
  }
  let mass = 0;
  for (let i = 0; i < net.length; i++) if (net[i] > 0) mass += net[i];
  return mass;
}

/** Weights of the four nodes round a place, Catmull & Rom 1974. */
function cubicWeights(f: number, w: Float64Array): void {
  w[0] = (-f + 2 * f * f - f * f * f) / 2;
  w[1] = (2 - 5 * f * f + 3 * f * f * f) / 2;
  w[2] = (f + 4 * f * f - 3 * f * f * f) / 2;
  w[3] = (-f * f + f * f * f) / 2;
}
