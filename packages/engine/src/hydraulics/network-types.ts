/**
 * Plain-data description of a water network, and of its solution. An assembly layer writes the first, a
 * report reads the second; `prepareNetwork` in `./network` turns one into the other.
 *
 * Nodes and links are named by id for people and by their place in the list (`from`, `to`, `branch`, `run`)
 * for the solver, so that converting a description costs one pass and no look-ups.
 *
 * Signs: flow is positive from `from` to `to`. Total head H [m] is on the reference density:
 * H = p/(ρ_ref g) + z + V²/2g. The pool surface is H = 0.
 */

/** A point where links meet. One total head; static pressure belongs to link ends, not to nodes. */
export interface NetworkNode {
  readonly id: string;
  /** height over the pool surface [m] */
  readonly elevation_m: number;
  /**
   * Held total head [m]. Pool surface, or the far side of an outlet under water: 0. Far side of an outlet in
   * the air at height z: z. Left out: the head is solved for.
   */
  readonly fixedHead_m?: number;
  /**
   * Water put in from outside [kg/s], negative when taken out; 0 when left out. For a part studied alone at a
   * given flow. Not at a node that has a tee, and not where the head is held.
   */
  readonly inflow_kgs?: number;
}

/** Straight round pipe, Darcy–Weisbach, with whatever fittings stand on it lumped into one K. */
export interface PipeLaw {
  readonly kind: 'pipe';
  readonly length_m: number;
  readonly bore_m: number;
  readonly roughness_m: number;
  /** sum of loss coefficients on the pipe's own velocity head [–]; 0 when left out */
  readonly minorLoss?: number;
}

/** Pipe wound to a coil: Mishra & Gupta laminar, Ito turbulent. */
export interface CoilLaw {
  readonly kind: 'coil';
  readonly length_m: number;
  readonly bore_m: number;
  readonly roughness_m: number;
  /** diameter of the winding, centre line to centre line [m], > bore */
  readonly coilDiameter_m: number;
  readonly minorLoss?: number;
}

/** Fitting: a constant coefficient on the velocity head in `bore_m`. */
export interface FittingLaw {
  readonly kind: 'fitting';
  readonly bore_m: number;
  readonly coefficient: number;
  /** coefficient for flow from `to` to `from`; the same when left out */
  readonly reverseCoefficient?: number;
}

/**
 * Mouth of a pipe, water leaving at `to`, which must be a node of fixed head (0 under water, z in the air:
 * both leave one velocity head behind, so H inside the mouth is that head + V²/2g). Pressure reported at the
 * `to` end is inside the mouth.
 */
export interface OutletLaw {
  readonly kind: 'outlet';
  readonly bore_m: number;
  /** [–]; one velocity head when left out */
  readonly exitLoss?: number;
  /** coefficient when water is drawn in instead [–]; 0.5 when left out */
  readonly entranceLoss?: number;
}

/** Valve by its flow coefficient at the present opening (`./valve` turns an opening into Kv). */
export interface ValveLaw {
  readonly kind: 'valve';
  readonly bore_m: number;
  /** flow coefficient [m³/h at 1 bar, 1000 kg/m³]; exactly 0 is closed, Infinity is without loss */
  readonly kv_m3h: number;
}

/** Filter: Δp = k1·µ·Q + k2·ρ·Q² (Ergun form). */
export interface FilterLaw {
  readonly kind: 'filter';
  readonly bore_m: number;
  /** [1/m³] */
  readonly k1: number;
  /** [1/m⁴] */
  readonly k2: number;
}

/** Thing with a quadratic loss known at one flow: heater, chlorinator, meter. */
export interface DeviceLaw {
  readonly kind: 'device';
  readonly bore_m: number;
  /** pressure loss at `ratedFlow_m3s` [Pa] */
  readonly ratedLoss_Pa: number;
  readonly ratedFlow_m3s: number;
}

/** Head of a pump at full speed. */
export type PumpCurve =
  | {
      readonly kind: 'points';
      /** flow [m³/s], rising; same length as `head_m`, at least 2 */
      readonly flow_m3s: readonly number[];
      /** head [m], falling */
      readonly head_m: readonly number[];
    }
  /** H = H0 − a·Q² */
  | { readonly kind: 'parabola'; readonly shutOffHead_m: number; readonly coefficient_s2m5: number };

/** Pump pushing from `from` to `to`. */
export interface PumpLaw {
  readonly kind: 'pump';
  readonly bore_m: number;
  readonly curve: PumpCurve;
  /** speed over the speed of the curve [–], ≥ 0; 0 is stopped: a passive loss, either direction */
  readonly speed: number;
  /** loss coefficient of the stopped pump on the velocity head in `bore_m` [–]; 4 when left out (judgement) */
  readonly stoppedLoss?: number;
  /** true: the pump holds a check valve, no flow from `to` to `from` */
  readonly checkValve?: boolean;
}

/** Check valve: flow only from `from` to `to`; shut is exact. */
export interface CheckValveLaw {
  readonly kind: 'checkValve';
  readonly bore_m: number;
  readonly coefficient: number;
}

export type LinkLaw =
  | PipeLaw
  | CoilLaw
  | FittingLaw
  | OutletLaw
  | ValveLaw
  | FilterLaw
  | DeviceLaw
  | PumpLaw
  | CheckValveLaw;

export interface NetworkLink {
  readonly id: string;
  /** place of the node in `nodes` */
  readonly from: number;
  readonly to: number;
  readonly law: LinkLaw;
  /** mean density in this link [kg/m³]; the reference when left out. A difference is buoyancy. */
  readonly density_kgm3?: number;
  /** mean dynamic viscosity in this link [Pa·s]; the network's when left out */
  readonly viscosity_Pas?: number;
  /** shut or blocked: the link leaves the system, its flow is exactly 0 */
  readonly closed?: boolean;
}

/** A 90° tee at a node. Legs are places in `links`; each must end at `node`. At most one tee per node. */
export interface NetworkTee {
  readonly node: number;
  readonly branch: number;
  /** the straight-through legs; null is a capped end, and then r = 1. Not both null. */
  readonly run: readonly [number | null, number | null];
  readonly branchBore_m: number;
  readonly headerBore_m: number;
  /** coefficients of the 'constant' set for this tee; `CONSTANT_TEE` when left out */
  readonly constant?: ConstantTee;
}

/** Tee without physics, each leg on its own velocity head: for comparison with general network solvers. */
export interface ConstantTee {
  /** water leaving the header into the branch */
  readonly branchOut: number;
  /** water entering the header from the branch */
  readonly branchIn: number;
  /** either run leg when water leaves through it */
  readonly runOut: number;
  readonly runIn: number;
}

export interface NetworkDescription {
  /** density at the loop's mean temperature [kg/m³] */
  readonly referenceDensity_kgm3: number;
  /** dynamic viscosity where a link gives none [Pa·s] */
  readonly viscosity_Pas: number;
  readonly nodes: readonly NetworkNode[];
  readonly links: readonly NetworkLink[];
  readonly tees: readonly NetworkTee[];
}

/** Which tee coefficients: Idelchik's form in Crane TP-410; Gardel 1957; ideal momentum; constant per leg. */
export type TeeSet = 'default' | 'gardel' | 'ideal' | 'constant';

/** Friction where it is not known, Re 2000–4000: the smooth bridge, 64/Re, or Blasius. Equal elsewhere. */
export type FrictionLaw = 'churchill' | 'laminar' | 'blasius';

export interface SolveOptions {
  /** 'default' when left out */
  readonly tees?: TeeSet;
  /** 'churchill' when left out */
  readonly friction?: FrictionLaw;
  /** relative, on flow change and on energy; 1e-9 when left out. Mass always closes to 1e-10. */
  readonly tolerance?: number;
  /** 100 when left out */
  readonly maxIterations?: number;
  /** an earlier solution of the same nodes and links to start from */
  readonly start?: Pick<NetworkSolution, 'flow_kgs' | 'head_m'>;
  /** false: density differences drive nothing; true when left out */
  readonly buoyancy?: boolean;
  /** true: solve from a second, different start too, and report another solution if there is one */
  readonly twoStarts?: boolean;
}

/** Which of the three criteria is the furthest from met. */
export type ResidualKind = 'flow' | 'energy' | 'mass';

export interface SolverReport {
  readonly converged: boolean;
  readonly iterations: number;
  /** the worst of the three, over its tolerance: ≤ 1 when converged [–] */
  readonly residual: number;
  readonly residualKind: ResidualKind;
  /** where it is: id of a link (flow, energy) or of a node (mass); '' in a network without open links */
  readonly worst: string;
  /** what stands in the way, in words; '' when converged */
  readonly message: string;
}

/** Solution. Lists run as the description's `links` or `nodes` do. Fresh arrays: the caller owns them. */
export interface NetworkSolution {
  readonly report: SolverReport;
  /** mass flow, positive from → to [kg/s]; exactly 0 in closed links and in still water */
  readonly flow_kgs: Float64Array;
  /** total head per node [m] */
  readonly head_m: Float64Array;
  /** static gauge pressure just inside the link at its `from` end, tee loss taken off [Pa] */
  readonly fromPressure_Pa: Float64Array;
  readonly toPressure_Pa: Float64Array;
  /** velocity in the link's bore, signed as the flow [m/s] */
  readonly velocity_ms: Float64Array;
  /** Reynolds number in the link's bore, ≥ 0 [–] */
  readonly reynolds: Float64Array;
  /** head the link itself loses from `from` to `to`, without tees and buoyancy; negative in a pump [m] */
  readonly headLoss_m: Float64Array;
  /** head lost in the tee at the `from` end, seen along from → to [m]; 0 without a tee */
  readonly fromTeeLoss_m: Float64Array;
  readonly toTeeLoss_m: Float64Array;
  /** 1: closed by the caller, by Kv = 0, or held shut as a check valve */
  readonly shut: Uint8Array;
  /** per node, 1: no way to a fixed head; water stands, head 0, pressure from its elevation */
  readonly still: Uint8Array;
  /** a second solution, when `twoStarts` was asked for and found one */
  readonly other?: NetworkSolution;
}

/**
 * A network whose structure has been analysed. `solve` may be called again and again; `update` takes new
 * numbers, and only redoes the analysis when nodes, ends of links, kinds of law or legs of tees differ.
 */
export interface PreparedNetwork {
  readonly description: NetworkDescription;
  solve(options?: SolveOptions): NetworkSolution;
  /** @returns true when the analysis was kept, false when the structure differed and it was done anew */
  update(description: NetworkDescription): boolean;
}

/** Entry .5 and exit 1 on the branch's velocity head, nothing along the run: common practice (Crane TP-410). */
export const CONSTANT_TEE: ConstantTee = { branchOut: 0.5, branchIn: 1, runOut: 0, runIn: 0 };
