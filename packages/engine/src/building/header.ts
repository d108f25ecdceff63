import { DomainError } from '../numeric/errors';

function check(quantity: string, value: number): void {
  if (!(value >= 0 && value < Infinity)) throw new DomainError(quantity, value, '[0, ∞) m');
}

/** A header tee's own dimensions along the run; the standard's, or measured on one that was bought. */
export interface TeeRun {
  /** G: centre to socket bottom [m]. */
  readonly takeOff_m: number;
  /** S: depth of the socket [m]. */
  readonly socket_m: number;
}

/**
 * Nipple between two header tees: p − 2G, from socket bottom to socket bottom.
 *
 * @param pitch   distance of the tees' centres [m], ≥ 0
 * @param takeOff G, centre to socket bottom [m], ≥ 0
 * @returns [m]; under 2S the tees would meet before the pitch is reached, see {@link leastPitch}
 * @throws {DomainError} outside those ranges
 * @example nippleLength(0.0762, 0.0122555) // 0.0517: 3 in pitch, half-inch branches
 */
export function nippleLength(pitch: number, takeOff: number): number {
  check('pitch', pitch);
  check('take-off', takeOff);
  return pitch - 2 * takeOff;
}

/**
 * Least pitch of tubes on a header of tees: 2(G + S), the tees' faces touching.
 *
 * @param tee G and S along the run [m], ≥ 0
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example leastPitch({ takeOff_m: 0.0122555, socket_m: 0.022225 }) // 0.0690: 1 × 1/2, 2.715 in
 */
export function leastPitch(tee: TeeRun): number {
  check('take-off', tee.takeOff_m);
  check('socket depth', tee.socket_m);
  return 2 * (tee.takeOff_m + tee.socket_m);
}

/** How far the last tube is off after so many steps. */
export interface PitchError {
  /** Every nipple or tee off by the same amount, the same way: it adds up [m]. */
  readonly accumulated_m: number;
  /** The same amount either way by chance: it grows with the root [m]. */
  readonly random_m: number;
  /** Set against a jig, each by itself [m]. */
  readonly withJig_m: number;
}

/**
 * What an error of each step does along a header. A step is one nipple with two take-offs: its error is that of the cut
 * plus twice that of G where the tees are longer than thought.
 *
 * @param tubes   on the header, ≥ 1
 * @param perStep error of one step [m], finite
 * @throws {DomainError} outside those ranges
 * @example pitchError(18, 0.001).accumulated_m // 0.017
 */
export function pitchError(tubes: number, perStep: number): PitchError {
  if (!(Number.isInteger(tubes) && tubes >= 1)) throw new DomainError('tubes', tubes, '1, 2, …');
  if (!Number.isFinite(perStep)) throw new DomainError('error of one step', perStep, 'finite m');
  const steps = tubes - 1;
  return {
    accumulated_m: steps * perStep,
    random_m: Math.sqrt(steps) * Math.abs(perStep),
    withJig_m: Math.abs(perStep),
  };
}

/**
 * How far a tube's far end is off when its tee is twisted on the header: L·tan φ.
 *
 * @param length of the tube [m], ≥ 0
 * @param twist  [deg], −45…45
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example twistOffset(6.096, 1) // 0.106
 */
export function twistOffset(length: number, twist: number): number {
  check('tube length', length);
  if (!(Math.abs(twist) <= 45)) throw new DomainError('twist', twist, '−45…45°');
  return length * Math.tan((twist * Math.PI) / 180);
}

/**
 * Marks on a strip laid along the header: distance of every tee centre from one end.
 *
 * @param tubes  on the header, ≥ 1
 * @param pitch  [m], ≥ 0
 * @param leadIn from the header's end to the first tee's centre [m], ≥ 0
 * @returns [m], first to last
 * @throws {DomainError} outside those ranges
 * @example headerMarks(3, 0.0762, 0.05) // [0.05, 0.1262, 0.2024]
 */
export function headerMarks(tubes: number, pitch: number, leadIn: number): number[] {
  if (!(Number.isInteger(tubes) && tubes >= 1)) throw new DomainError('tubes', tubes, '1, 2, …');
  check('pitch', pitch);
  check('lead-in', leadIn);
  return Array.from({ length: tubes }, (_, i) => leadIn + i * pitch);
}
