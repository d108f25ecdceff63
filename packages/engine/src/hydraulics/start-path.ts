import { GRAVITY_MS2 } from '../numeric/constants';
import { DomainError } from '../numeric/errors';
import { findRoot } from '../numeric/roots';
import { frictionFactorChurchill } from './friction';

/** Alike tubes in parallel between two headers that are taken as without loss. */
export interface TubePath {
  readonly tubes: number;
  readonly bore_m: number;
  readonly length_m: number;
  readonly roughness_m: number;
  /** velocity heads lost at entry, exit and fittings, together [–] */
  readonly minorLoss: number;
}

export interface LiftingFlow {
  /** in one tube of the lower path */
  readonly velocity_ms: number;
  readonly reynolds: number;
  /** in all tubes of the lower path [m³/s] */
  readonly flow_m3s: number;
}

/**
 * Head lost along a path at a velocity, (f·L/D + K)·V²/2g, f after Churchill.
 *
 * @param path      tubes, bore, length, roughness, velocity heads
 * @param velocity  in a tube [m/s], > 0
 * @param density   [kg/m³], > 0
 * @param viscosity [Pa·s], > 0
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example pathLoss({ tubes: 10, bore_m: 0.0158, length_m: 24, roughness_m: 1.5e-6, minorLoss: 3 }, 0.376, 996.5, 8.5e-4) // 0.400
 */
export function pathLoss(path: TubePath, velocity: number, density: number, viscosity: number): number {
  checkPath(path);
  if (!(velocity > 0 && velocity < Infinity)) throw new DomainError('velocity', velocity, '(0, ∞) m/s');
  if (!(density > 0 && density < Infinity)) throw new DomainError('density', density, '(0, ∞) kg/m³');
  if (!(viscosity > 0 && viscosity < Infinity)) throw new DomainError('viscosity', viscosity, '(0, ∞) Pa·s');
  const { bore_m: D, length_m: L, roughness_m: ε, minorLoss: K } = path;
  const f = frictionFactorChurchill((density * velocity * D) / viscosity, ε / D);
  return (((f * L) / D + K) * velocity ** 2) / (2 * GRAVITY_MS2);
}

/**
 * Flow through a lower path at which an air-filled path above it starts: the head lost through the lower one
 * equals the lift of the upper one. Below that flow the upper path stays dry, whatever its own resistance;
 * headers are taken as without loss. Turning the pump down afterwards may keep it full, because a full path
 * needs no lift.
 *
 * @param lower     path that is already running
 * @param lift      of the upper path's top over the lower path's discharge level [m], > 0
 * @param density   [kg/m³], > 0
 * @param viscosity [Pa·s], > 0
 * @throws {DomainError} outside those ranges
 * @example liftingFlow({ tubes: 10, bore_m: 0.0158, length_m: 24, roughness_m: 1.5e-6, minorLoss: 3 }, 0.4, 996.5, 8.5e-4).velocity_ms // 0.376
 */
export function liftingFlow(lower: TubePath, lift: number, density: number, viscosity: number): LiftingFlow {
  if (!(lift > 0 && lift < Infinity)) throw new DomainError('lift', lift, '(0, ∞) m');
  // Loss grows without bound with velocity, so that the bracket always closes.
  let high = 1;
  while (pathLoss(lower, high, density, viscosity) < lift) high *= 4;
  const { root } = findRoot((v) => pathLoss(lower, v, density, viscosity) - lift, 1e-9, high, 1e-12);
  return {
    velocity_ms: root,
    reynolds: (density * root * lower.bore_m) / viscosity,
    flow_m3s: lower.tubes * (Math.PI / 4) * lower.bore_m ** 2 * root,
  };
}

function checkPath(path: TubePath): void {
  if (!(path.tubes >= 1 && path.tubes < Infinity)) throw new DomainError('tubes', path.tubes, '[1, ∞)');
  if (!(path.bore_m > 0 && path.bore_m < Infinity)) throw new DomainError('bore', path.bore_m, '(0, ∞) m');
  if (!(path.length_m > 0 && path.length_m < Infinity))
    throw new DomainError('length', path.length_m, '(0, ∞) m');
  if (!(path.minorLoss >= 0 && path.minorLoss < Infinity))
    throw new DomainError('velocity heads', path.minorLoss, '[0, ∞)');
}
