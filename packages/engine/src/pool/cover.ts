import { STEFAN_BOLTZMANN, ZERO_CELSIUS_K } from '../numeric/constants';
import { DomainError } from '../numeric/errors';

/** What lies on the water. */
export interface CoverKind {
  readonly id: string;
  readonly name: string;
  /** Share of sunlight that passes into the water [–]. */
  readonly solarTransmittance: number;
  /** Share of sunlight that warms the cover itself [–]. */
  readonly solarAbsorptance: number;
  /** Heat through the cover, water to upper face [W/m²K]; Infinity for a film. */
  readonly conductance_Wm2K: number;
  /** Long-wave emittance of the upper face [–]. */
  readonly emittance: number;
  /** Share of the open water's evaporation that is left (gaps, puddles, film) [–]. */
  readonly evaporationLeft: number;
  readonly source: string;
}

/** @throws {DomainError} for shares outside 0…1 or a conductance that is none */
export function checkCover(cover: CoverKind): void {
  const shares = [
    ['transmittance of the cover', cover.solarTransmittance],
    ['absorptance of the cover', cover.solarAbsorptance],
    ['transmittance and absorptance together', cover.solarTransmittance + cover.solarAbsorptance],
    ['emittance of the cover', cover.emittance],
    ['evaporation left by the cover', cover.evaporationLeft],
  ] as const;
  for (const [quantity, value] of shares)
    if (!(value >= 0 && value <= 1 + 1e-9)) throw new DomainError(quantity, value, '[0, 1]');
  if (!(cover.conductance_Wm2K > 0))
    throw new DomainError('conductance of the cover', cover.conductance_Wm2K, '(0, ∞] W/m²K');
}

/**
 * Temperature of a cover's upper face from its own heat balance.
 *
 *   U·(Tw − Tc) + S = h·(Tc − Ta) + ε·(σ·Tc⁴ − L)
 *
 * Newton on a function that only falls; five steps reach 1e-9 K.
 *
 * @param water_C        under it [°C]
 * @param conductance    U [W/m²K]
 * @param sun_Wm2        S, absorbed by the cover [W/m²]
 * @param convection     h, to the air [W/m²K]
 * @param air_C          [°C]
 * @param emittance      ε [–]
 * @param longWave_Wm2   L, from sky and surroundings [W/m²]
 * @returns [°C]
 * @throws {DomainError} where no temperature balances it
 */
export function coverTemperature(
  water_C: number,
  conductance: number,
  sun_Wm2: number,
  convection: number,
  air_C: number,
  emittance: number,
  longWave_Wm2: number,
): number {
  if (conductance === Infinity) return water_C;
  let t = (conductance * water_C + convection * air_C) / (conductance + convection);
  for (let step = 0; step < 30; step++) {
    const k = t + ZERO_CELSIUS_K;
    const f =
      conductance * (water_C - t) +
      sun_Wm2 -
      convection * (t - air_C) -
      emittance * (STEFAN_BOLTZMANN * k ** 4 - longWave_Wm2);
    const change = f / (conductance + convection + 4 * emittance * STEFAN_BOLTZMANN * k ** 3);
    t += change;
    if (Math.abs(change) < 1e-9) return t;
  }
  throw new DomainError('balance of the cover', t, 'one that ends: finite light, wind and temperatures');
}
