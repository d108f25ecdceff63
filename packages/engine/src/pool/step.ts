import { waterDensity } from '../fluids/water';
import { DomainError } from '../numeric/errors';
import { findRoot } from '../numeric/roots';
import { checkConditions, type PoolBody, type PoolConditions } from './conditions';
import { HOTTEST_POOL_C, poolEnthalpy } from './enthalpy';
import type { PoolHeater } from './heater';
import { latentHeat, MELTING_HEAT_JKG } from './latent-heat';
import { gained, makeUp, mostSpare_kg, overflow, spareAfter } from './level';
import { type SurfaceHeat, surfaceHeat, surfaceStep } from './surface';

/** One well-mixed body of water. */
export interface PoolState {
  readonly water_C: number;
  readonly ice_kg: number;
  /** Water over the level at which the mains fill up [kg]; none when left out. */
  readonly spare_kg?: number;
}

/** Heat into the pool in one step, by cause [J], gains positive; and the water that moved [kg]. */
export interface PoolLedger {
  readonly sun_J: number;
  readonly evaporation_J: number;
  readonly convection_J: number;
  readonly longWave_J: number;
  readonly ground_J: number;
  readonly makeUp_J: number;
  readonly rain_J: number;
  readonly swimmers_J: number;
  readonly collector_J: number;
  readonly heater_J: number;
  /** Heat a pool frozen through can no longer give, booked so that the balance closes. */
  readonly frozenThrough_J: number;
  /** What the other heater burned or drew. */
  readonly fuel_J: number;
  /** Evaporated (+) or condensed (−). */
  readonly evaporated_kg: number;
  readonly makeUp_kg: number;
  readonly overflow_kg: number;
  /** Heat held by the water by which the level rose, at the pool's end temperature; negative as it sinks. */
  readonly level_J: number;
}

export interface PoolStep {
  readonly state: PoolState;
  readonly ledger: PoolLedger;
  /** Change of heat held minus sum of the ledger and of what the level holds [J]; and sum of the ledger's sizes [J]. */
  readonly residual_J: number;
  readonly throughput_J: number;
  readonly converged: boolean;
}

/** Heat of a collector into the pool [W] as a function of the pool's temperature [°C]. */
export type CollectorHeat = (water_C: number) => number;

const DENSITY = waterDensity(25);
const NO_HEAT: CollectorHeat = () => 0;
const HARDEST = 0.98; // share of the water that may freeze before the pool counts as frozen through

/**
 * Mass of the pool's water [kg]: its volume at 25 °C, which stands at the lowest level, and what is over that.
 *
 * @param spare_kg over the level at which the mains fill up
 */
export function poolMass_kg(body: Pick<PoolBody, 'volume_m3'>, spare_kg = 0): number {
  return body.volume_m3 * DENSITY + spare_kg;
}

/** Heat held [J]: mass × h(T), less the heat of melting of the ice. */
export function poolHeat_J(body: PoolBody, state: PoolState): number {
  return poolMass_kg(body, state.spare_kg) * poolEnthalpy(state.water_C) - state.ice_kg * MELTING_HEAT_JKG;
}

/**
 * One implicit step of the pool's heat balance (backward Euler).
 *
 *   m₀·[h(T₁) − h(T₀)] = Δt·[sun + surface(T₁) + ground(T₁) + swimmers + collector(T₁) + heater]
 *                        − make-up·[h(T₁) − h(T_mains)] + rain·[h(T_r) − h(T₁)]
 *
 * Make-up is what evaporated, splashed and was backwashed less the rain of the step and what earlier rain has left
 * over the lowest level (`level.ts`); rain beyond the highest runs over. m₀ is the mass at the step's start: all that
 * leaves does so at T₁ and so falls out of the balance, whatever the level does within the step.
 *
 * All fluxes are those at the end of the step, so that any step length is stable. Evaporation carries L and the
 * water's own enthalpy; make-up replaces it. The heater gives what reaches its set point, up to capacity. Below
 * 0 °C water freezes and keeps 0 °C.
 *
 * @param body       the pool
 * @param state      at the start
 * @param conditions over the step
 * @param collector  its heat as a function of the water's temperature, continuous and falling
 * @param heater     another heater, or none
 * @returns state at the end, heat by cause, and how well it closes
 * @throws {DomainError} for conditions that are none, or a balance beyond 0…60 °C
 * @example stepPool(body, { water_C: 28, ice_kg: 0 }, { ...QUIET_CONDITIONS, wind_ms: 2 })
 */
export function stepPool(
  body: PoolBody,
  state: PoolState,
  conditions: PoolConditions,
  collector: CollectorHeat = NO_HEAT,
  heater: PoolHeater | null = null,
): PoolStep {
  checkConditions(conditions);
  if (!(state.water_C >= 0 && state.water_C <= HOTTEST_POOL_C))
    throw new DomainError('water temperature', state.water_C, `[0, ${HOTTEST_POOL_C}] °C`);
  if (!(state.ice_kg >= 0)) throw new DomainError('ice', state.ice_kg, '[0, ∞) kg');
  if (!((state.spare_kg ?? 0) >= 0)) throw new DomainError('spare water', state.spare_kg!, '[0, ∞) kg');
  const c = conditions;
  const dt = c.step_s;
  const mass = poolMass_kg(body, state.spare_kg);
  const start = poolHeat_J(body, state);
  const surface = surfaceStep(body, c, state.ice_kg);
  const mains = poolEnthalpy(c.mains_C);
  const rainIn = poolEnthalpy(c.rain_C);
  const rain_kg = c.rain_kgm2 * body.area_m2;
  const spare_kg = state.spare_kg ?? 0;

  const at = (t: number): Balance => {
    const flux = surfaceHeat(surface, t);
    const h = poolEnthalpy(t);
    const evaporated = (-flux.evaporation_W / latentHeat(t)) * dt;
    const makeUp_kg = makeUp(evaporated, c, rain_kg, spare_kg);
    const balance = {
      flux,
      evaporated,
      makeUp_kg,
      makeUp_J: makeUp_kg * (mains - h),
      rain_J: rain_kg * (rainIn - h),
      ground_J: body.groundConductance_Wm2K * body.wettedArea_m2 * (c.ground_C - t) * dt,
      collector_J: collector(t) * dt,
      sum_J: 0,
    };
    balance.sum_J =
      (flux.sun_W + flux.evaporation_W + flux.convection_W + flux.longWave_W) * dt +
      balance.makeUp_J +
      balance.rain_J +
      balance.ground_J +
      balance.collector_J +
      c.swimmers * c.swimmerHeat_W * dt;
    return balance;
  };

  const solved = settle(at, start, mass, 0, state.water_C);
  let { water_C, converged } = solved;
  let heater_J = 0;
  if (heater && heater.enabled > 0 && water_C < heater.setpoint_C) {
    const most = heater.capacity_W * heater.enabled * dt;
    const wanted = mass * poolEnthalpy(heater.setpoint_C) - start - at(heater.setpoint_C).sum_J;
    if (wanted <= most) {
      heater_J = Math.max(0, wanted);
      water_C = heater.setpoint_C;
    } else {
      heater_J = most;
      ({ water_C, converged } = settle(at, start, mass, most, water_C));
    }
  }

  const balance = at(water_C);
  const warm = mass * poolEnthalpy(water_C);
  let ice_kg = 0;
  let frozenThrough_J = 0;
  if (water_C === 0) {
    ice_kg = Math.max(0, (warm - start - balance.sum_J - heater_J) / MELTING_HEAT_JKG);
    const most = Math.max(state.ice_kg, HARDEST * mass);
    if (ice_kg > most) {
      frozenThrough_J = (ice_kg - most) * MELTING_HEAT_JKG;
      ice_kg = most;
    }
  }
  const most_kg = mostSpare_kg(body);
  const end: PoolState = {
    water_C,
    ice_kg,
    spare_kg: spareAfter(most_kg, balance.evaporated, c, rain_kg, spare_kg),
  };
  const over_kg = overflow(most_kg, balance.evaporated, c, rain_kg, spare_kg);
  const more_kg = gained(balance.makeUp_kg, balance.evaporated, c, rain_kg, over_kg);
  const ledger: PoolLedger = {
    sun_J: balance.flux.sun_W * dt,
    evaporation_J: balance.flux.evaporation_W * dt,
    convection_J: balance.flux.convection_W * dt,
    longWave_J: balance.flux.longWave_W * dt,
    ground_J: balance.ground_J,
    makeUp_J: balance.makeUp_J,
    rain_J: balance.rain_J,
    swimmers_J: c.swimmers * c.swimmerHeat_W * dt,
    collector_J: balance.collector_J,
    heater_J,
    frozenThrough_J,
    fuel_J: heater_J > 0 && heater ? heater_J / heater.efficiency : 0,
    evaporated_kg: balance.evaporated,
    makeUp_kg: balance.makeUp_kg,
    overflow_kg: over_kg,
    level_J: more_kg * poolEnthalpy(water_C),
  };
  const parts = HEAT_PARTS.map((part) => ledger[part]);
  const residual_J = poolHeat_J(body, end) - start - ledger.level_J - parts.reduce((sum, q) => sum + q, 0);
  const throughput_J = parts.reduce((sum, q) => sum + Math.abs(q), 0);
  return { state: end, ledger, residual_J, throughput_J, converged };
}

/** Names of the ledger's heat entries: with `level_J` they add up to the change of heat held. */
export const HEAT_PARTS = [
  'sun_J',
  'evaporation_J',
  'convection_J',
  'longWave_J',
  'ground_J',
  'makeUp_J',
  'rain_J',
  'swimmers_J',
  'collector_J',
  'heater_J',
  'frozenThrough_J',
] as const satisfies readonly (keyof PoolLedger)[];

interface Balance {
  readonly flux: SurfaceHeat;
  readonly evaporated: number;
  readonly makeUp_kg: number;
  readonly makeUp_J: number;
  readonly rain_J: number;
  readonly ground_J: number;
  readonly collector_J: number;
  sum_J: number;
}

/** Temperature at which the balance closes: secant from the old temperature, Brent where that strays. */
function settle(
  at: (t: number) => Balance,
  start_J: number,
  mass: number,
  extra_J: number,
  guess_C: number,
): { water_C: number; converged: boolean } {
  const lack = (t: number): number => mass * poolEnthalpy(t) - start_J - extra_J - at(t).sum_J;
  const enough = 1e-9 * mass * 4180; // a millionth of a millikelvin
  let t0 = guess_C;
  let f0 = lack(t0);
  if (guess_C === 0 && f0 >= 0) return { water_C: 0, converged: true };
  let t1 = t0 - f0 / (mass * 4200);
  for (let step = 0; step < 12; step++) {
    if (!(t1 >= 0 && t1 <= HOTTEST_POOL_C)) break;
    const f1 = lack(t1);
    if (Math.abs(f1) <= enough) return { water_C: t1, converged: true };
    const next = t1 - (f1 * (t1 - t0)) / (f1 - f0);
    t0 = t1;
    f0 = f1;
    t1 = next;
  }
  if (lack(0) >= 0) return { water_C: 0, converged: true };
  if (!(lack(HOTTEST_POOL_C) >= 0))
    throw new DomainError('balance of the pool', `over ${HOTTEST_POOL_C} °C`, `[0, ${HOTTEST_POOL_C}] °C`);
  const found = findRoot(lack, 0, HOTTEST_POOL_C, 1e-12);
  return { water_C: found.root, converged: found.converged };
}
