import type { Notice } from '@sunlap/engine/numeric/notice';
import type { InLineJoint } from '../assembly/in-line';

/** What a cut length is for. */
export type PieceUse = 'tube' | 'coil' | 'nipple' | 'stub' | 'handover' | 'run' | 'branch';

/** Equal lengths of one pipe from one place of the design. */
export interface Piece {
  readonly pipe: string;
  readonly length_m: number;
  readonly count: number;
  readonly use: PieceUse;
  /** JSON pointer to what it comes from. */
  readonly path: string;
  /** As the person would call it. */
  readonly label: string;
  /** False for what water never flows through in the flow study: capped stubs, drain branches. */
  readonly inFlow: boolean;
  /** True where the length follows from corners that the file does not place: cut to fit on site. */
  readonly onSite: boolean;
}

export type PartKind =
  | 'tee'
  | 'elbow90'
  | 'elbow45'
  | 'sweep90'
  | 'coupling'
  | 'reducer'
  | 'bush'
  | 'cap'
  | 'union'
  | 'adapter'
  | 'clamp'
  | 'valve'
  | 'checkValve'
  | 'diverter'
  | 'vent'
  | 'breaker'
  | 'cock'
  | 'absorber'
  | 'device'
  | 'wallFitting'
  | 'support'
  | 'fastener'
  | 'member'
  | 'tape'
  | 'cement'
  | 'primer';

/** Glued joints by nominal size: one socket with one pipe. */
export interface Joints {
  readonly nominal: string;
  readonly count: number;
}

/** Equal parts from one place of the design. */
export interface Fitting {
  readonly part: string;
  readonly label: string;
  readonly kind: PartKind;
  readonly count: number;
  readonly path: string;
  /** Glued, of one part. */
  readonly joints: readonly Joints[];
  /** Joined by barb, clamp or push, of one part. */
  readonly dryJoints: number;
  /** How its dimensions are known. */
  readonly known: string;
}

/** Parts being gathered. */
export interface Bag {
  readonly pieces: Piece[];
  readonly fittings: Fitting[];
  readonly notices: Notice[];
  /** Joints in the water's way, for the flow study: what the file itself writes on a pipe is not among them. */
  readonly inLine: InLineJoint[];
  /** Length of the flow study's pipes that sits in fittings [m]. */
  taken_m: number;
  /** Pipe added beyond the flow study because fittings need room [m]. */
  grown_m: number;
}

export function newBag(): Bag {
  return { pieces: [], fittings: [], notices: [], inLine: [], taken_m: 0, grown_m: 0 };
}

/** Once for each code and place. */
export function notice(bag: Bag, n: Notice): void {
  if (!bag.notices.some((m) => m.code === n.code && m.path === n.path && m.message === n.message))
    bag.notices.push(n);
}
