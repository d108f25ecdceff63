import type { OuterCurve } from './outer-curve';
import type { RatedCoefficients } from './rated-absorber';

/**
 * Plain-data description of everything between the collector's inlet and outlet that gains or loses heat, and
 * of the answer. The graph is that of the water network: same nodes, one element per link, flow positive from
 * `from` to `to`. An assembly layer writes it, `preparePanel` checks it, `solvePanel` answers.
 */

/** Length of tube with one set of conditions, in order from `from` to `to`. */
export interface PanelPiece {
  readonly length_m: number;
  /** Place in `PanelConditions.outside`. */
  readonly outside: number;
}

/** Long wave between tubes of a row that face each other. */
export interface PanelNeighbours {
  /** Place of the element on either side; −1 at an edge. */
  readonly left: number;
  readonly right: number;
  /** View factor to both together [–]. */
  readonly view: number;
  /** Emittance of both sides [–]. */
  readonly emittance: number;
}

/** Straight or coiled round pipe: tube, header piece, feed, return. */
export interface PanelPipe {
  readonly kind: 'pipe';
  readonly from: number;
  readonly to: number;
  readonly bore_m: number;
  readonly outerDiameter_m: number;
  readonly wallConductivity_WmK: number;
  /** Of the winding; straight when left out. */
  readonly coilDiameter_m?: number;
  readonly pieces: readonly PanelPiece[];
  readonly neighbours?: PanelNeighbours;
}

/** Absorber known by test coefficients. */
export interface PanelRated {
  readonly kind: 'rated';
  readonly from: number;
  readonly to: number;
  readonly area_m2: number;
  readonly coefficients: RatedCoefficients;
  /** Place in `PanelConditions.rated`. */
  readonly conditions: number;
}

/** Carries water without heat: fitting, valve, hand-over. */
export interface PanelLink {
  readonly kind: 'link';
  readonly from: number;
  readonly to: number;
}

export type PanelElement = PanelPipe | PanelRated | PanelLink;

export interface PanelDescription {
  readonly nodeCount: number;
  readonly elements: readonly PanelElement[];
}

/** What a rated absorber stands in. */
export interface RatedConditions {
  /** G″ [W/m²] */
  readonly net_Wm2: number;
  readonly wind_ms: number;
  readonly air_C: number;
}

/** The moment, as the panel feels it. Pieces are counted through all elements in order. */
export interface PanelConditions {
  readonly outside: readonly OuterCurve[];
  /** Sunlight absorbed by each piece [W/m]. */
  readonly absorbed_Wm: ArrayLike<number>;
  /** Sunlight absorbed by each piece's strip of backing [W/m]; none when left out. */
  readonly backingAbsorbed_Wm?: ArrayLike<number>;
  readonly rated?: readonly RatedConditions[];
}

export interface PanelOptions {
  /** Natural convection's gain on the laminar film [–], 1…2; 1 when left out. */
  readonly laminarGain?: number;
  /** Largest change of a temperature in the last round [K]; 1e-7 when left out. */
  readonly tolerance_K?: number;
  /** 60 when left out. */
  readonly maxIterations?: number;
}

/** The answer. Lists run as the description's elements or nodes do. Fresh arrays: the caller owns them. */
export interface PanelSolution {
  readonly converged: boolean;
  readonly iterations: number;
  /** Largest change of a temperature in the last round [K]. */
  readonly residual_K: number;
  /** |heat − ṁc(out − in)| over the larger of heat and what 1 K would carry [–]. */
  readonly closure: number;
  readonly heat_W: number;
  /** Of what leaves the panel, mixed; null when nothing flows. */
  readonly outlet_C: number | null;
  /**
   * Somewhere the water is below 0 °C: it freezes there, which is not computed, and its temperatures stand for how
   * much heat it lacks.
   */
  readonly frozen: boolean;
  readonly massFlow_kgs: number;
  readonly heatCapacity_JkgK: number;
  readonly node_C: Float64Array;
  /** Heat into the water of each element [W]. */
  readonly elementHeat_W: Float64Array;
  /** Where the water enters and leaves each element, whichever way it runs [°C]. */
  readonly elementInlet_C: Float64Array;
  readonly elementOutlet_C: Float64Array;
  readonly elementMean_C: Float64Array;
  /** Hottest piece's temperature without flow, in this wind [°C]. */
  readonly elementStanding_C: Float64Array;
  /** What the outlet of each element tends to as a whole, T_out = T_in + gain·(target − T_in) [°C]. */
  readonly elementTarget_C: Float64Array;
  /** What each piece tends to [°C], and its NTU at this flow (∞ without flow). */
  readonly pieceStanding_C: Float64Array;
  readonly pieceNtu: Float64Array;
  readonly reynolds: Float64Array;
  /** The three resistances of a metre [m·K/W]; NaN-free: 0 for elements that are not pipes. */
  readonly airResistance_mKW: Float64Array;
  readonly wallResistance_mKW: Float64Array;
  readonly waterResistance_mKW: Float64Array;
}
