import { sizedFittingLoss } from '@sunlap/engine/hydraulics/fitting-loss';
import type { HeaderEnd } from '@sunlap/project/schema/collector';
import { distance_m, type PanelPoint } from './frame';
import { type BankGeometry, bankPort, type HeaderGeometry } from './geometry';

/** Places nearer than this are one place; nobody draws a pipe for it. */
export const SAME_PLACE_M = 0.02;

/** Elbows in a pipe that the file does not describe: one away from where it starts, one towards where it ends. */
export const ASSUMED_ELBOWS = 2;

/** What a pipe that the file does not describe is made of besides pipe. */
export interface AssumedFittings {
  readonly elbows: number;
  /** Tees that it begins or ends in, by their branches. */
  readonly tees: number;
}

/** Loss coefficient of an assumed pipe's fittings on its own velocity head [–]. */
export const assumedLoss = ({ elbows, tees }: AssumedFittings, bore_m: number): number =>
  elbows * sizedFittingLoss('elbow90', bore_m) + tees * sizedFittingLoss('teeBranch', bore_m);

/** How two header ends lie to each other: facing in one line, side by side, or neither. */
export type HandoverShape = 'straight' | 'turned' | 'other';

/**
 * Shape of a hand-over between two header ends. Headers that face each other in line are joined by straight pipe; all
 * others turn twice.
 */
export function handoverShape(
  from: BankGeometry,
  to: BankGeometry,
  fromEnd: HeaderEnd,
  toEnd: HeaderEnd,
): HandoverShape {
  if (!from.gather || !to.supply) return 'other';
  const d = direction(bankPort(from, 'gather', fromEnd), bankPort(to, 'supply', toEnd));
  if (!d) return 'straight';
  const out = outward(from.gather, fromEnd);
  const back = outward(to.supply, toEnd);
  if (dot(out, d) > 0.99 && dot(back, d) < -0.99) return 'straight';
  return dot(out, back) > 0.99 && Math.abs(dot(out, d)) < 0.1 ? 'turned' : 'other';
}

/** Elbows of a hand-over of a shape. */
export const handoverElbows = (shape: HandoverShape): number => (shape === 'straight' ? 0 : ASSUMED_ELBOWS);

/** Between a header and the pipe that feeds both its ends, in outside diameters: room for two elbows; judgement. */
const BOTH_ENDS_OFFSET_OD = 4;

/**
 * One arm of the pipe to both ends of a header: half the header along, and across to its axis with two elbows [m].
 *
 * @example bothEndsArm_m({ length_m: 2, size: { outer_m: 0.05 } }) // 1.2
 */
export function bothEndsArm_m(
  header: Pick<HeaderGeometry, 'length_m'> & { readonly size: { readonly outer_m: number } },
): number {
  return header.length_m / 2 + BOTH_ENDS_OFFSET_OD * header.size.outer_m;
}

type Vector = readonly [number, number, number];

const dot = (x: Vector, y: Vector): number => x[0] * y[0] + x[1] * y[1] + x[2] * y[2];

function direction(a: PanelPoint, b: PanelPoint): Vector | null {
  const l = distance_m(a, b);
  if (!(l > SAME_PLACE_M)) return null;
  return [(b.x_m - a.x_m) / l, (b.y_m - a.y_m) / l, (b.height_m - a.height_m) / l];
}

function outward(header: { first: PanelPoint; last: PanelPoint }, end: HeaderEnd): Vector {
  const d = direction(header.first, header.last) ?? [1, 0, 0];
  return end === 'last' ? d : [-d[0], -d[1], -d[2]];
}
