import { GRAVITY_MS2 } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/** Whether running water carries air out of a pipe. */
export type AirGrade = 'clears' | 'doubtful' | 'holds';

/** F for air pockets of small, medium and large volume (Escarameia 2007, from memory). */
const POCKET = { small: 0.45, large: 0.61 } as const;

function froude(bore: number): number {
  if (!(bore > 0 && bore < Infinity)) throw new DomainError('bore', bore, '(0, ∞) m');
  return Math.sqrt(GRAVITY_MS2 * bore);
}

function rootSine(angle: number): number {
  if (!(angle >= 0 && angle <= 90)) throw new DomainError('downward angle', angle, '[0, 90]°');
  return Math.sqrt(Math.sin((angle * Math.PI) / 180));
}

/**
 * Velocity that moves an air pocket down a pipe which falls in the direction of flow (Escarameia 2007, from
 * memory).
 *
 *   V = (F + 0.56·√sin θ)·√(g·D)      F = 0.45 small pockets … 0.61 large ones
 *
 * Measured in 150 mm pipe at slopes to about 22°; carried to small pipe and steeper slopes here, where nobody
 * has measured it.
 *
 * @param bore   [m], > 0
 * @param angle  of the fall under the horizontal [°], 0…90
 * @param pocket size of the pockets
 * @returns [m/s]
 * @throws {DomainError} outside those ranges
 * @example pocketVelocity(0.0158, 0, 'large') // 0.240
 */
export function pocketVelocity(bore: number, angle: number, pocket: keyof typeof POCKET): number {
  return (POCKET[pocket] + 0.56 * rootSine(angle)) * froude(bore);
}

/**
 * Velocity that sweeps air from a falling pipe, the strict figure (Wisner, Mohsen & Kouwen 1975).
 *
 *   V = (0.825 + 0.25·√sin θ)·√(g·D)
 *
 * An envelope over models of large pipelines.
 *
 * @param bore  [m], > 0
 * @param angle of the fall under the horizontal [°], 0…90
 * @returns [m/s]
 * @throws {DomainError} outside those ranges
 * @example sweepVelocity(0.0158, 0) // 0.325
 */
export function sweepVelocity(bore: number, angle: number): number {
  return (0.825 + 0.25 * rootSine(angle)) * froude(bore);
}

/** How well a pipe clears itself of air, with the velocities behind the grade. */
export interface AirClearing {
  readonly grade: AirGrade;
  /** below this the pipe holds air [m/s] */
  readonly holdsBelow_ms: number;
  /** from this on it clears [m/s] */
  readonly clearsFrom_ms: number;
}

/** Rise in the direction of flow from which air is sure to go ahead of the water [°] (judgement). */
const SURE_RISE = 1;

/**
 * Grades a pipe. Falling or level in the direction of flow, where the sources hold: `clears` from the strictest
 * of the figures on, `holds` under the mildest, `doubtful` between, because all of them come from larger pipe.
 * Rising, air goes ahead by itself or with little: it clears from the flat figure for small pockets, and only
 * standing water holds it. From level to a rise of 1° the one goes over into the other in a straight line, since
 * no pipe is laid so true. Flow against the fall carries air with it.
 *
 * @param velocity along the pipe, either sign as `angle` [m/s]
 * @param bore     [m], > 0
 * @param angle    of the pipe in the direction of positive velocity: > 0 falls, < 0 rises [°], −90…90
 * @throws {DomainError} outside those ranges
 * @example airClearing(0.5, 0.0158, 10).grade // 'clears'
 */
export function airClearing(velocity: number, bore: number, angle: number): AirClearing {
  if (!Number.isFinite(velocity)) throw new DomainError('velocity', velocity, 'finite');
  if (!(angle >= -90 && angle <= 90)) throw new DomainError('angle', angle, '[−90, 90]°');
  const fall = velocity < 0 ? -angle : angle;
  const speed = Math.abs(velocity);
  const small = pocketVelocity(bore, Math.max(0, fall), 'small');
  const strict = Math.max(
    pocketVelocity(bore, Math.max(0, fall), 'large'),
    sweepVelocity(bore, Math.max(0, fall)),
  );
  const rising = Math.min(1, Math.max(0, -fall) / SURE_RISE);
  const holdsBelow = small * (1 - rising);
  const clearsFrom = strict + rising * (small - strict);
  const grade = !(speed > 0) || speed < holdsBelow ? 'holds' : speed >= clearsFrom ? 'clears' : 'doubtful';
  return { grade, holdsBelow_ms: holdsBelow, clearsFrom_ms: clearsFrom };
}
