import { DomainError } from '../numeric/errors';
import { findRoot } from '../numeric/roots';
import type { OuterCurve, OuterState } from './outer-curve';

/** Ends of the search; no bare plastic tube stands outside them. */
const COLDEST_C = -60;
const HOTTEST_C = 300;

/**
 * Temperature at which a dry tube stands in the sun: what it absorbs equals what it loses,
 * S′ = U′o(T)·(T − Te(T)). Give it the surroundings in calm air for the worst case.
 *
 * @param outside             surroundings of the tube
 * @param absorbed_Wm         sunlight absorbed [W/m], ≥ 0
 * @param backingAbsorbed_Wm  absorbed by its strip of backing [W/m], ≥ 0
 * @returns [°C], −60…300; −60 where it would be colder still, for there the films of air end
 * @throws {DomainError} for light that is negative, or more than a tube of 300 °C loses
 */
export function standingTemperature_C(
  outside: OuterCurve,
  absorbed_Wm: number,
  backingAbsorbed_Wm = 0,
): number {
  if (!(absorbed_Wm >= 0)) throw new DomainError('absorbed light', absorbed_Wm, '≥ 0 W/m');
  if (!(backingAbsorbed_Wm >= 0)) throw new DomainError('absorbed light', backingAbsorbed_Wm, '≥ 0 W/m');
  const state: OuterState = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
  const excess = (t: number) => {
    outside.exact(t, state);
    const gain = absorbed_Wm + state.backingShare * backingAbsorbed_Wm;
    return gain - state.conductance_WmK * (t - state.surroundings_C);
  };
  if (!(excess(HOTTEST_C) < 0))
    throw new DomainError(
      'light absorbed by a dry tube',
      absorbed_Wm,
      `what a tube of ${HOTTEST_C} °C loses`,
    );
  if (excess(COLDEST_C) <= 0) return COLDEST_C;
  return findRoot(excess, COLDEST_C, HOTTEST_C, 1e-9).root;
}

/** Water that stood in the sun and comes first. */
export interface FirstSlug {
  readonly temperature_C: number;
  /** Of panel and return pipe [m³]. */
  readonly volume_m3: number;
  readonly timeConstant_s: number;
}

/**
 * Temperature of water standing in the panel some time after the flow stopped.
 *
 *   T = T_stag + (T_0 − T_stag)·e^(−t/τ),  τ = C/U
 *
 * @param standing_C          temperature it tends to [°C]
 * @param start_C             when the flow stopped [°C]
 * @param elapsed_s           since then [s], ≥ 0
 * @param heatCapacity_JmK    water and wall, per metre [J/mK], > 0
 * @param conductance_WmK     water to surroundings, per metre [W/mK], > 0
 * @param volume_m3           panel and return pipe [m³], ≥ 0
 * @throws {DomainError} outside those ranges
 */
export function firstSlug(
  standing_C: number,
  start_C: number,
  elapsed_s: number,
  heatCapacity_JmK: number,
  conductance_WmK: number,
  volume_m3: number,
): FirstSlug {
  if (!(elapsed_s >= 0)) throw new DomainError('time since the flow stopped', elapsed_s, '≥ 0 s');
  if (!(volume_m3 >= 0)) throw new DomainError('volume', volume_m3, '≥ 0 m³');
  const tau = timeConstant_s(heatCapacity_JmK, conductance_WmK);
  return {
    temperature_C: standing_C + (start_C - standing_C) * Math.exp(-elapsed_s / tau),
    volume_m3,
    timeConstant_s: tau,
  };
}

/**
 * Time constant of a full tube without flow, τ = C/U.
 *
 * @param heatCapacity_JmK  [J/mK], > 0
 * @param conductance_WmK   [W/mK], > 0
 * @returns [s]
 * @throws {DomainError} outside those ranges
 */
export function timeConstant_s(heatCapacity_JmK: number, conductance_WmK: number): number {
  if (!(heatCapacity_JmK > 0)) throw new DomainError('heat capacity', heatCapacity_JmK, '> 0 J/mK');
  if (!(conductance_WmK > 0)) throw new DomainError('conductance', conductance_WmK, '> 0 W/mK');
  return heatCapacity_JmK / conductance_WmK;
}

/**
 * Heat capacity of a full tube, per metre.
 *
 * @param bore_m                  [m]
 * @param outerDiameter_m         [m], > bore
 * @param waterCapacity_Jm3K      ρc of water [J/m³K]; 4.16e6 at 30 °C
 * @param wallCapacity_Jm3K       ρc of the wall [J/m³K]; PVC about 1.45e6 (1400 kg/m³ × 1040 J/kgK, from memory)
 * @returns [J/mK]
 * @throws {DomainError} for a bore not inside the wall
 * @example tubeCapacity_JmK(0.0158, 0.02134) // 1050
 */
export function tubeCapacity_JmK(
  bore_m: number,
  outerDiameter_m: number,
  waterCapacity_Jm3K = 4.16e6,
  wallCapacity_Jm3K = 1.45e6,
): number {
  if (!(bore_m > 0 && bore_m < outerDiameter_m))
    throw new DomainError('bore', bore_m, `(0, ${outerDiameter_m}) m`);
  const bore = (Math.PI / 4) * bore_m * bore_m;
  const all = (Math.PI / 4) * outerDiameter_m * outerDiameter_m;
  return bore * waterCapacity_Jm3K + (all - bore) * wallCapacity_Jm3K;
}
