import { DomainError } from '../numeric/errors';
import type { PumpCurve } from './network-types';

/** Generic pump without a maker: H = H0 − a·Q², and its wire-to-water efficiency. Common practice. */
export interface ShelfPump {
  readonly shutOffHead_m: number;
  /** flow at zero head [m³/s] */
  readonly mostFlow_m3s: number;
  /** wire to water, near the middle of the curve [–] */
  readonly wireToWater: number;
}

/** Rated power of the reference pump of the shelf [W]: 1 hp. */
const REFERENCE_W = 745.7;
/** Its shut-off head [m], largest flow [m³/s] and efficiency: the middle of 18–22 m, 5.5–6.5 L/s, 30–45 %, from memory. */
const REFERENCE: ShelfPump = { shutOffHead_m: 20, mostFlow_m3s: 6e-3, wireToWater: 0.38 };
/** Head and flow with rated power: of P ∝ H·Q the flow takes the larger part (judgement, no source). */
const HEAD_EXPONENT = 0.35;

/**
 * Shelf pump by rated power. Common practice: true pumps differ by a third; one measured point mends most of it.
 *
 * @param rated_W rated shaft power [W], 150…2500
 * @throws {DomainError} outside that range
 * @example shelfPump(745.7) // { shutOffHead_m: 20, mostFlow_m3s: 0.006, wireToWater: 0.38 }
 */
export function shelfPump(rated_W: number): ShelfPump {
  if (!(rated_W >= 150 && rated_W <= 2500)) throw new DomainError('rated power', rated_W, '[150, 2500] W');
  const ratio = rated_W / REFERENCE_W;
  return {
    shutOffHead_m: REFERENCE.shutOffHead_m * ratio ** HEAD_EXPONENT,
    mostFlow_m3s: REFERENCE.mostFlow_m3s * ratio ** (1 - HEAD_EXPONENT),
    wireToWater: REFERENCE.wireToWater,
  };
}

/**
 * Curve of a shelf pump, scaled by one measured point when there is one: head and flow by s² and s, as the
 * affinity laws scale a slightly larger or smaller wheel, so that the curve passes through the point.
 *
 * @param pump  shelf pump
 * @param point measured at full speed: flow [m³/s] ≥ 0 and head [m] > 0
 * @returns parabola H = H0 − a·Q²
 * @throws {DomainError} for a point without head
 * @example shelfCurve(shelfPump(745.7)) // shutOffHead_m 20, coefficient_s2m5 555556
 */
export function shelfCurve(
  pump: ShelfPump,
  point?: { readonly flow_m3s: number; readonly head_m: number },
): PumpCurve & { kind: 'parabola' } {
  const a = pump.shutOffHead_m / pump.mostFlow_m3s ** 2;
  if (!point) return { kind: 'parabola', shutOffHead_m: pump.shutOffHead_m, coefficient_s2m5: a };
  if (!(point.flow_m3s >= 0 && point.flow_m3s < Infinity))
    throw new DomainError('measured flow', point.flow_m3s, '[0, ∞) m³/s');
  if (!(point.head_m > 0 && point.head_m < Infinity))
    throw new DomainError('measured head', point.head_m, '(0, ∞) m');
  // s²·H0 − a·Q² = H: under the affinity laws a stays, H0 moves
  return {
    kind: 'parabola',
    shutOffHead_m: point.head_m + a * point.flow_m3s ** 2,
    coefficient_s2m5: a,
  };
}
