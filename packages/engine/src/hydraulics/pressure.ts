import { GRAVITY_MS2 } from '../numeric/constants';
import { DomainError } from '../numeric/errors';
import type { NetworkDescription, NetworkSolution } from './network-types';

/** Where an absolute pressure becomes doubtful or bad. Judgement, no source. */
export const PRESSURE_LIMITS = {
  /** warn under this [Pa] */
  warn_Pa: 50_000,
  /** fail under this [Pa] */
  fail_Pa: 30_000,
  /** fail within this of the vapour pressure [Pa] */
  vapourMargin_Pa: 10_000,
} as const;

export type PressureGrade = 'fine' | 'warn' | 'fail';

/** Static pressure just inside a link's end. */
export interface EndPressure {
  /** place of the link in `links` */
  readonly link: number;
  readonly id: string;
  readonly end: 'from' | 'to';
  readonly gauge_Pa: number;
  readonly absolute_Pa: number;
  readonly grade: PressureGrade;
  /** over the nearest limit that fails; negative is past it [Pa] */
  readonly margin_Pa: number;
}

/**
 * Grades an absolute pressure: warn under 50 kPa; fail under 30 kPa or within 10 kPa of vapour pressure
 * (judgement, no source).
 *
 * @param absolute       [Pa], finite
 * @param vapourPressure of the water there [Pa], ≥ 0
 * @throws {DomainError} outside those ranges
 * @example gradePressure(45_000, 4247).grade // 'warn'
 */
export function gradePressure(
  absolute: number,
  vapourPressure: number,
): { readonly grade: PressureGrade; readonly margin_Pa: number } {
  if (!Number.isFinite(absolute)) throw new DomainError('absolute pressure', absolute, 'finite');
  if (!(vapourPressure >= 0 && vapourPressure < Infinity))
    throw new DomainError('vapour pressure', vapourPressure, '[0, ∞) Pa');
  const floor = Math.max(PRESSURE_LIMITS.fail_Pa, vapourPressure + PRESSURE_LIMITS.vapourMargin_Pa);
  const margin = absolute - floor;
  return {
    grade: margin < 0 ? 'fail' : absolute < PRESSURE_LIMITS.warn_Pa ? 'warn' : 'fine',
    margin_Pa: margin,
  };
}

/**
 * Absolute static pressure at both ends of every link.
 *
 * @param network        description that was solved
 * @param solution       its solution, running or stopped
 * @param atmosphere     [Pa], > 0
 * @param vapourPressure of the water [Pa], ≥ 0
 * @returns two entries a link, from end first, in the order of `links`
 * @throws {DomainError} outside those ranges
 */
export function endPressures(
  network: NetworkDescription,
  solution: NetworkSolution,
  atmosphere: number,
  vapourPressure: number,
): EndPressure[] {
  if (!(atmosphere > 0 && atmosphere < Infinity))
    throw new DomainError('atmosphere', atmosphere, '(0, ∞) Pa');
  const ends: EndPressure[] = [];
  for (const [link, { id }] of network.links.entries())
    for (const end of ['from', 'to'] as const) {
      const gauge_Pa = (end === 'from' ? solution.fromPressure_Pa : solution.toPressure_Pa)[link]!;
      const absolute_Pa = atmosphere + gauge_Pa;
      ends.push({ link, id, end, gauge_Pa, absolute_Pa, ...gradePressure(absolute_Pa, vapourPressure) });
    }
  return ends;
}

/**
 * The lowest of the pressures, or null in a network without links. Links given as dry (unfilled, air-bound)
 * hold air, not water, and are left out.
 *
 * @param ends from `endPressures`
 * @param dry  places of links that hold air
 */
export function lowestPressure(
  ends: readonly EndPressure[],
  dry: ReadonlySet<number> = new Set(),
): EndPressure | null {
  let lowest: EndPressure | null = null;
  for (const end of ends)
    if (!dry.has(end.link) && (lowest === null || end.absolute_Pa < lowest.absolute_Pa)) lowest = end;
  return lowest;
}

/**
 * Net positive suction head available at a pump.
 *
 *   NPSHa = (p_atm − p_v)/(ρ·g) + z_surface − z_pump − suction losses
 *
 * @param atmosphere     [Pa], > 0
 * @param vapourPressure [Pa], ≥ 0
 * @param density        [kg/m³], > 0
 * @param pumpElevation  over the pool's surface, which is z = 0 [m]
 * @param suctionLoss    head lost from the pool to the pump [m]
 * @returns [m]
 * @throws {DomainError} outside those ranges
 * @example suctionHeadAvailable(101325, 4247, 995.65, 0.5, 1.2) // 8.24
 */
export function suctionHeadAvailable(
  atmosphere: number,
  vapourPressure: number,
  density: number,
  pumpElevation: number,
  suctionLoss: number,
): number {
  if (!(atmosphere > 0 && atmosphere < Infinity))
    throw new DomainError('atmosphere', atmosphere, '(0, ∞) Pa');
  if (!(vapourPressure >= 0 && vapourPressure < Infinity))
    throw new DomainError('vapour pressure', vapourPressure, '[0, ∞) Pa');
  if (!(density > 0 && density < Infinity)) throw new DomainError('density', density, '(0, ∞) kg/m³');
  if (!Number.isFinite(pumpElevation)) throw new DomainError('pump elevation', pumpElevation, 'finite');
  if (!Number.isFinite(suctionLoss)) throw new DomainError('suction loss', suctionLoss, 'finite');
  return (atmosphere - vapourPressure) / (density * GRAVITY_MS2) - pumpElevation - suctionLoss;
}
