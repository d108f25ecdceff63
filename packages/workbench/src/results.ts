import type { Notice } from '@sunlap/engine/numeric/notice';

/** Interval that comes from what is not known: least and most of a quantity over the rival models. */
export interface Interval {
  low: number;
  high: number;
}

/** How a solver ended. A result that did not converge never looks like one that did. */
export interface SolverReport {
  converged: boolean;
  iterations: number;
  /** Largest energy residual over the largest head [–]. */
  residual: number;
  /** Where it stuck, in the person's words, when it did not converge. */
  worst?: string;
}

export type TubeState = 'full' | 'outfall' | 'unfilled' | 'airBound' | 'blocked';
export type AirGrade = 'clears' | 'doubtful' | 'holds';
export type HeaderVerdict = 'bigEnough' | 'marginal' | 'tooSmall';

export interface TubeFlow {
  /** Number within the bank, from 1, nearest the inlet first. */
  number: number;
  /** Number painted on the panel: from 1 at the header's first end. */
  position: number;
  flow_m3s: number;
  velocity_ms: number;
  reynolds: number;
  state: TubeState;
  air: AirGrade;
  /** Share over the mean of the bank's tubes that can flow; 1 is even. */
  share: number;
  /** Spread of `share` over the tee sets and friction laws. */
  shareBand: Interval;
}

export interface BankFlow {
  section: string;
  id: string;
  name: string;
  kind: 'tubes' | 'coil' | 'rated';
  /** m of the closed form; a quarter of it when the header is fed at both ends. Null where there is no header. */
  headerNumber: number | null;
  /** Null where there is no header, where nothing flows, and where the flows are not to be had. */
  headerVerdict: HeaderVerdict | null;
  leastOverMean: number;
  mostOverMean: number;
  leastBand: Interval;
  mostBand: Interval;
  flow_m3s: number;
  headLoss_m: number;
  tubes: TubeFlow[];
  /**
   * Flow along each header piece from the first end to the last, signed that way [m³/s]: the lead-in at the
   * first end (0 when it is capped), the pieces between tees, the lead-in at the last end.
   */
  supplyHeader_m3s: number[];
  gatherHeader_m3s: number[];
}

/** One piece of the loop as the loop sheet draws it, in the order in which water passes. */
export interface LoopPiece {
  id: string;
  name: string;
  /** Path in the project file that this piece comes from. */
  path: string;
  kind:
    | 'suction'
    | 'pipe'
    | 'pump'
    | 'filter'
    | 'device'
    | 'valve'
    | 'bypass'
    | 'collector'
    | 'outlet'
    | 'checkValve';
  /** Which way it belongs to: common to both, through the collector, or past it. */
  way: 'common' | 'through' | 'past';
  flow_m3s: number;
  velocity_ms: number;
  /** Distance along the way from the suction mouth to its two ends. */
  start_m: number;
  end_m: number;
  startHeight_m: number;
  endHeight_m: number;
  startHead_m: number;
  endHead_m: number;
  startGauge_Pa: number;
  endGauge_Pa: number;
  headLoss_m: number;
}

export interface CurvePoint {
  flow_m3s: number;
  head_m: number;
}

export interface SectionStart {
  section: string;
  /** Pump flow and speed at which this section comes alive when started from empty; null when it never does. */
  aliveAt_m3s: number | null;
  aliveAtSpeed: number | null;
  /** Down to which speed and flow it keeps running once it does; null when it never ran. */
  runsDownToSpeed: number | null;
  runsDownTo_m3s: number | null;
  /** Head lacking to its worst tube's crown at the highest speed; 0 when it comes alive. */
  missingLift_m: number;
  /** What holds it, when it stays dry. */
  cause: string | null;
}

export interface FlowValues {
  /** Through the pump. */
  flow_m3s: number;
  collectorFlow_m3s: number;
  pump: { head_m: number; power_W: number; speed: number; npshAvailable_m: number; suction_Pa: number };
  collector: {
    headLoss_m: number;
    volume_m3: number;
    /** Section by section as plumbed. */
    sections: { id: string; name: string; flow_m3s: number; headLoss_m: number; share: number }[];
    banks: BankFlow[];
    tubesWithoutWater: number;
    drains: { ok: boolean; litresLeft: number; where: string[] };
  };
  suctions: { id: string; name: string; flow_m3s: number; share: number; coverRating_m3s: number | null }[];
  outlets: { id: string; name: string; flow_m3s: number }[];
  start: {
    leastFlowAllTubes_m3s: number | null;
    leastStartSpeed: number | null;
    leastRunSpeed: number | null;
    sections: SectionStart[];
  };
  vacuumBreaker: {
    state: 'none' | 'closed' | 'open';
    margin_Pa: number | null;
    opensBelowSpeed: number | null;
    /** Through the collector with the breaker held in either state. */
    collectorFlowOpen_m3s: number | null;
    collectorFlowClosed_m3s: number | null;
  } | null;
  /**
   * False where water would have to stand under its vapour pressure somewhere: there the column breaks, and these
   * flows are not had.
   */
  attainable: boolean;
  /** Never under the vapour pressure: there the water boils. */
  lowestPressure: { absolute_Pa: number; at: string };
  turnover_h: number | null;
  loop: {
    pieces: LoopPiece[];
    pumpCurve: CurvePoint[];
    /** Loop curves: all water through the collector, as the bypass stands, and past it. */
    curveThrough: CurvePoint[];
    curveNow: CurvePoint[];
    curvePast: CurvePoint[];
    suctionVelocity_ms: number;
    pressureVelocity_ms: number;
  };
  /** Panel, and the pipes to and from it as far as they stand dry. */
  firstFill: { volume_m3: number; minutes: number | null; poolFall_m: number };
}

/** What every use-case gives back. */
export interface Answer<T> {
  result: T;
  solver: SolverReport;
  /** Intervals by the name of the quantity they belong to. */
  band: Record<string, Interval>;
  notices: Notice[];
  /** False for the quick answer of one solution: no bands, no start-up, no loop curves, no notices. */
  complete: boolean;
}

export type FlowAnswer = Answer<FlowValues>;

/** Conditions of one moment, as given or as assumed; assumed ones are named in `assumed`. */
export interface Moment {
  /** Local time at the site, `2026-04-12T11:00`. */
  at: string;
  water_C: number;
  air_C: number;
  dewPoint_C: number;
  /** At 10 m in the open. */
  wind_ms: number;
  sky: string;
  directNormal_Wm2: number;
  diffuse_Wm2: number;
  global_Wm2: number;
  sun: { elevation_deg: number; azimuth_deg: number };
  assumed: string[];
}

export interface TubeHeat {
  number: number;
  position: number;
  inlet_C: number;
  outlet_C: number;
  heat_W: number;
  /** Temperatures along the tube at equal steps from its inlet, both ends included. */
  profile_C: number[];
}

export interface HeatValues {
  moment: Moment;
  /** Into the pool: collector and its pipes. */
  heat_W: number;
  collectorHeat_W: number;
  pipesHeat_W: number;
  inlet_C: number;
  outlet_C: number;
  rise_K: number;
  /** Heat over the sun on the stated area. */
  efficiency: number | null;
  area: { absorber_m2: number; gross_m2: number };
  planeIrradiance_Wm2: number;
  dryStanding_C: number;
  firstSlug: { temperature_C: number; volume_m3: number; seconds: number; timeConstant_s: number };
  banks: {
    section: string;
    id: string;
    heat_W: number;
    inlet_C: number;
    outlet_C: number;
    tubes: TubeHeat[];
  }[];
  /** Of one metre of a typical tube [m·K/W]. */
  resistances: { air_mKW: number; wall_mKW: number; water_mKW: number; efficiencyFactor: number };
  /** ISO 9806 form of this panel for several winds. */
  curves: { wind_ms: number; eta0: number; loss_Wm2K: number }[];
  poolPerSunnyDay_K: number;
  /** What stands in the yard does at this moment; null where nothing stands, or the sun is down. */
  shade?: HeatShade | null;
}

/** Share of direct light on the tubes, and of the sky that they see [–]. */
export interface HeatShade {
  sunlit: number;
  sky: number;
  /** Heat that would come more in the open [W]; null where it was not looked at. */
  cost_W: number | null;
  /** What keeps off most direct light by itself. */
  worst: string | null;
}

export type HeatAnswer = Answer<HeatValues> & { flow: FlowAnswer };
