import { GRAVITY_MS2 } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/** Mass of a pipe and of the water it holds, per length. */
export interface PipeMass {
  readonly wall_kgm: number;
  readonly water_kgm: number;
}

/** Throws unless 0 < bore < outside diameter; NaN throws too. */
function checkPipe(outsideDiameter: number, bore: number): void {
  if (!(outsideDiameter > 0 && outsideDiameter < Infinity))
    throw new DomainError('outside diameter', outsideDiameter, '(0, ∞) m');
  if (!(bore > 0 && bore < outsideDiameter)) throw new DomainError('bore', bore, '(0, outside diameter) m');
}

/**
 * Mass per length of a pipe's wall and of its filling.
 *
 * @param outsideDiameter [m], > bore
 * @param bore            [m], > 0
 * @param wallDensity     [kg/m³], > 0
 * @param waterDensity    [kg/m³], ≥ 0; 0 is an empty pipe
 * @returns [kg/m] each
 * @throws {DomainError} outside those ranges
 * @example pipeMass(0.02134, 0.0158, 1400, 996) // wall 0.2262, water 0.1953 kg/m
 */
export function pipeMass(
  outsideDiameter: number,
  bore: number,
  wallDensity: number,
  waterDensity: number,
): PipeMass {
  checkPipe(outsideDiameter, bore);
  if (!(wallDensity > 0 && wallDensity < Infinity))
    throw new DomainError('wall density', wallDensity, '(0, ∞) kg/m³');
  if (!(waterDensity >= 0 && waterDensity < Infinity))
    throw new DomainError('water density', waterDensity, '[0, ∞) kg/m³');
  return {
    wall_kgm: (Math.PI / 4) * (outsideDiameter ** 2 - bore ** 2) * wallDensity,
    water_kgm: (Math.PI / 4) * bore ** 2 * waterDensity,
  };
}

/**
 * Weight per length of a filled pipe.
 *
 * @param mass of wall and filling [kg/m]
 * @returns [N/m]
 * @example pipeWeight({ wall_kgm: 0.2262, water_kgm: 0.1953 }) // 4.134
 */
export function pipeWeight(mass: PipeMass): number {
  return GRAVITY_MS2 * (mass.wall_kgm + mass.water_kgm);
}

/**
 * Second moment of area of a pipe's wall, π/64·(Do⁴ − Di⁴).
 *
 * @param outsideDiameter [m], > bore
 * @param bore            [m], > 0
 * @returns [m⁴]
 * @throws {DomainError} outside those ranges
 * @example pipeSecondMoment(0.02134, 0.0158) // 7.121e-9
 */
export function pipeSecondMoment(outsideDiameter: number, bore: number): number {
  checkPipe(outsideDiameter, bore);
  return (Math.PI / 64) * (outsideDiameter ** 4 - bore ** 4);
}

/** What a group of pipes weighs on its rack. */
export interface CarriedWeight {
  readonly dry_kg: number;
  readonly filled_kg: number;
  /** filled, per area [kg/m²] */
  readonly perArea_kgm2: number;
  /** filled, per support line, evenly shared [N]; end lines carry about half of it */
  readonly perSupport_N: number;
}

/**
 * Filled weight of pipes per area and per support line. A number for the person; no support is sized by it.
 *
 * @param runs     mass per length and total length of each kind of pipe [kg/m, m]
 * @param area     ground area the group covers [m²], > 0
 * @param supports number of support lines, ≥ 1
 * @throws {DomainError} outside those ranges
 * @example carriedWeight([{ mass: pipeMass(0.02134, 0.0158, 1400, 996), length_m: 240 }], 12, 8).filled_kg // 101
 */
export function carriedWeight(
  runs: readonly { readonly mass: PipeMass; readonly length_m: number }[],
  area: number,
  supports: number,
): CarriedWeight {
  if (!(area > 0 && area < Infinity)) throw new DomainError('area', area, '(0, ∞) m²');
  if (!(Number.isInteger(supports) && supports >= 1)) throw new DomainError('supports', supports, '1, 2, …');
  let dry = 0;
  let water = 0;
  for (const { mass, length_m } of runs) {
    if (!(length_m >= 0 && length_m < Infinity)) throw new DomainError('length', length_m, '[0, ∞) m');
    dry += mass.wall_kgm * length_m;
    water += mass.water_kgm * length_m;
  }
  const filled = dry + water;
  return {
    dry_kg: dry,
    filled_kg: filled,
    perArea_kgm2: filled / area,
    perSupport_N: (GRAVITY_MS2 * filled) / supports,
  };
}
