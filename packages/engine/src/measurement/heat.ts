import { waterDensity, waterHeatCapacity } from '../fluids/water';
import { type Component, type Contribution, contributions, scaled } from './component';
import { combine } from './coverage';
import type { FlowMeasurement } from './flow';
import type { Rise } from './rise-types';

export interface HeatMeasurement {
  heat_W: number;
  standardUncertainty_W: number;
  dof: number;
  coverageFactor: number;
  /** half-width of the 95 % interval */
  expandedUncertainty_W: number;
  lower_W: number;
  upper_W: number;
  components: Component[];
  contributions: Contribution[];
  /** heat per kelvin of rise [W/K] */
  capacityFlow_WK: number;
}

/**
 * Heat carried by the water, Q = ρ·c·V̇·ΔT, with density at the temperature where the volume was taken and
 * heat capacity at the mean of inlet and outlet. Uncertainty by JCGM 100 with the interval of `combine`; the
 * second-order term of the product, u(V̇)·u(ΔT)·ρc (5.1.2, note), is a component of its own.
 *
 * @param flow         measured flow
 * @param rise         measured rise
 * @param volume_C     temperature of the measured volume [°C], 0…100: the pail's; the outlet's when left out
 * @param coverage     probability of the interval [–]
 * @throws {DomainError} temperature outside 0…100 °C
 * @example heat(flow of 20 L/min, rise from 26 to 29 °C, 27.5).heat_W // 4165.3
 */
export function heat(
  flow: FlowMeasurement,
  rise: Rise,
  volume_C = rise.outlet_C,
  coverage = 0.95,
): HeatMeasurement {
  const ρc = waterDensity(volume_C) * waterHeatCapacity((rise.inlet_C + rise.outlet_C) / 2);
  const components: Component[] = [
    ...scaled(flow.components, ρc * rise.rise_K),
    ...scaled(rise.components, ρc * flow.flow_m3s),
    {
      source: 'heat.product',
      label: 'flow and rise both doubtful',
      effect: ρc * flow.standardUncertainty_m3s * rise.standardUncertainty_K,
      dof: Infinity,
      shape: 'normal' as const,
    },
  ].filter((c) => c.effect !== 0);
  const value = ρc * flow.flow_m3s * rise.rise_K;
  const u = combine(components, coverage);
  return {
    heat_W: value,
    standardUncertainty_W: u.standardUncertainty,
    dof: u.dof,
    coverageFactor: u.coverageFactor,
    expandedUncertainty_W: u.expandedUncertainty,
    lower_W: value - u.expandedUncertainty,
    upper_W: value + u.expandedUncertainty,
    components,
    contributions: contributions(components),
    capacityFlow_WK: ρc * flow.flow_m3s,
  };
}
