import { DomainError } from '../numeric/errors';

/** How the second header of a bank goes onto its tubes. */
export type ClosingWay = 'atOnce' | 'bowed' | 'teeByTee';

export interface Closing {
  /** Joints that close in one push. */
  readonly joints: number;
  /** To wet them all and push [s]. */
  readonly needed_s: number;
  /** Until the first has skinned over [s]. */
  readonly open_s: number;
  readonly way: ClosingWay;
}

/** To prime, cement and set one small joint, two people [s]; judgement. */
export const JOINT_TIME_S = 15;
/** Cement stays open about so long on small pipe in mild air [s]; common practice, shorter in sun and wind. */
export const OPEN_TIME_S = 60;
/** Bending strain that PVC takes for a short time [–]; common practice (radius 300 outside diameters is 1/600). */
export const SHORT_STRAIN = 1 / 200;

/**
 * Whether the second header can be closed. Each of its joints is wetted before the header is pushed on: with more joints
 * than the open time allows, either the tubes are long enough to be bowed in one at a time, or the header is built up tee
 * by tee, each tee pushed onto its tube and onto the nipple before it.
 *
 * A free tube end moves aside by y = (2/3)·ε·L²/D for an end force at strain ε; to clear a socket it has to shorten by
 * its depth: s ≈ (3/5)·y²/L for that curve. Small deflections: y is taken to L/4 at most.
 *
 * @param tubes   that close together, ≥ 1
 * @param length  free length of a tube [m], > 0
 * @param outside diameter of a tube [m], > 0
 * @param socket  depth that a tube end has to back out of [m], ≥ 0
 * @param open    open time of the cement [s], > 0
 * @throws {DomainError} outside those ranges
 * @example closingOf(18, 6.096, 0.021336, 0.0175).way // 'bowed'
 */
export function closingOf(
  tubes: number,
  length: number,
  outside: number,
  socket: number,
  open: number = OPEN_TIME_S,
): Closing {
  if (!(Number.isInteger(tubes) && tubes >= 1)) throw new DomainError('tubes', tubes, '1, 2, …');
  if (!(length > 0 && length < Infinity)) throw new DomainError('tube length', length, '(0, ∞) m');
  if (!(outside > 0 && outside < Infinity)) throw new DomainError('outside diameter', outside, '(0, ∞) m');
  if (!(socket >= 0 && socket < Infinity)) throw new DomainError('socket depth', socket, '[0, ∞) m');
  if (!(open > 0)) throw new DomainError('open time', open, '(0, ∞) s');
  const bow = Math.min(length / 4, ((2 / 3) * SHORT_STRAIN * length * length) / outside);
  const shortens = (0.6 * bow * bow) / length;
  const needed = tubes * JOINT_TIME_S;
  const way: ClosingWay = needed <= open ? 'atOnce' : shortens >= socket ? 'bowed' : 'teeByTee';
  return { joints: tubes, needed_s: needed, open_s: open, way };
}
