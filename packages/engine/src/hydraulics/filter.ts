import { DomainError } from '../numeric/errors';

/** Coefficients of Δp = k1·µ·Q + k2·ρ·Q². */
export interface FilterCoefficients {
  /** [1/m³] */
  readonly k1: number;
  /** [1/m⁴] */
  readonly k2: number;
}

/**
 * Coefficients from a clean filter's loss at one flow, the share of it that is viscous, and dirt, which only
 * raises the viscous part (finer passages in series with a clean bed).
 *
 * @param loss_Pa       clean loss at that flow [Pa], ≥ 0
 * @param flow_m3s      that flow [m³/s], > 0
 * @param viscousShare  share of the loss that goes with µ·Q [–], 0…1 (sand at pool rates: about 0.7, judgement)
 * @param dirt          growth of k1 [–], ≥ 0; 1 doubles the viscous part
 * @param density_kgm3  of that water [kg/m³], > 0
 * @param viscosity_Pas of that water [Pa·s], > 0
 * @throws {DomainError} outside those ranges
 * @example filterFromLoss(6000, 0.002, 1 / 3, 0, 1000, 1e-3) // { k1: 1e9, k2: 1e6 }
 */
export function filterFromLoss(
  loss_Pa: number,
  flow_m3s: number,
  viscousShare: number,
  dirt: number,
  density_kgm3: number,
  viscosity_Pas: number,
): FilterCoefficients {
  if (!(loss_Pa >= 0 && loss_Pa < Infinity)) throw new DomainError('filter loss', loss_Pa, '[0, ∞) Pa');
  if (!(flow_m3s > 0)) throw new DomainError('flow', flow_m3s, '(0, ∞) m³/s');
  if (!(viscousShare >= 0 && viscousShare <= 1))
    throw new DomainError('viscous share', viscousShare, '[0, 1]');
  if (!(dirt >= 0 && dirt < Infinity)) throw new DomainError('dirt', dirt, '[0, ∞)');
  if (!(density_kgm3 > 0)) throw new DomainError('density', density_kgm3, '(0, ∞) kg/m³');
  if (!(viscosity_Pas > 0)) throw new DomainError('viscosity', viscosity_Pas, '(0, ∞) Pa·s');
  return {
    k1: ((1 + dirt) * viscousShare * loss_Pa) / (viscosity_Pas * flow_m3s),
    k2: ((1 - viscousShare) * loss_Pa) / (density_kgm3 * flow_m3s * flow_m3s),
  };
}
