import type { PoolBody, PoolConditions } from '../pool/conditions';
import { HOTTEST_POOL_C, poolEnthalpy } from '../pool/enthalpy';
import { latentHeat } from '../pool/latent-heat';
import { gained, makeUp, mostSpare_kg, overflow, spareAfter } from '../pool/level';
import { type PoolState, poolMass_kg, stepPool } from '../pool/step';
import { type SurfaceStep, surfaceHeat, surfaceStep } from '../pool/surface';

/** Heat into a pool in one step, by cause [J]; and water that moved [kg]. Filled in place. */
export interface StepHeat {
  /** By {@link PART}. */
  readonly parts_J: Float64Array;
  evaporated_kg: number;
  makeUp_kg: number;
  overflow_kg: number;
  /** Held by the water by which the level rose, at the end's temperature [J]. */
  level_J: number;
  fuel_J: number;
  /** Change of heat held less the sum of the parts and of what the level holds [J]. */
  residual_J: number;
}

/** Places of the causes in a step's heat; with what the level holds they are the change of heat held. */
export const PART = {
  sun: 0,
  evaporation: 1,
  convection: 2,
  longWave: 3,
  ground: 4,
  makeUp: 5,
  rain: 6,
  swimmers: 7,
  collector: 8,
  heater: 9,
  frozenThrough: 10,
} as const;
export type PartName = keyof typeof PART;
export const PARTS = 11;
const SURFACE_PARTS = 8;

export function emptyStepHeat(): StepHeat {
  return {
    parts_J: new Float64Array(PARTS),
    evaporated_kg: 0,
    makeUp_kg: 0,
    overflow_kg: 0,
    level_J: 0,
    fuel_J: 0,
    residual_J: 0,
  };
}

/** What a collector gives in a step, straight in the pool's temperature about that at the step's start. */
export interface CollectorLine {
  /** Heat over the step at the start's temperature [J], and its slope [J/K], ≤ 0. */
  heat_J: number;
  slope_JK: number;
}

/** Another heater of the pool, for one step. */
export interface StepHeater {
  readonly capacity_W: number;
  readonly setpoint_C: number;
  readonly efficiency: number;
  readonly enabled: number;
}

/** Width over which slopes are taken [K]. */
const PROBE_K = 0.25;
/** A step that moves the water by more is solved with the full equations [K]. */
const STRAIGHT_K = 1.5;

/** Lists that a line fills; the next line made with them ends it. */
export interface LineRoom {
  readonly value: Float64Array;
  readonly slope: Float64Array;
}

export function lineRoom(): LineRoom {
  return { value: new Float64Array(SURFACE_PARTS), slope: new Float64Array(SURFACE_PARTS) };
}

/**
 * The pool's heat over one step as straight lines in its temperature about that at the start.
 *
 * All fluxes are smooth and the water moves by tenths of a kelvin in an hour, so that value and slope at the
 * start say what they are at the end: the step is implicit (Rosenbrock's linearised Euler), and what is booked
 * is what was solved, so that the balance closes to rounding. Against the full equations of `stepPool` an
 * hour's end differs by under 10⁻³ K.
 */
export class PoolLine {
  /** At the start: what leaves within the step does so at its end's temperature and needs no heat. */
  readonly mass_kg: number;
  readonly water_C: number;
  readonly ice_kg: number;
  readonly spare_kg: number;
  /** At the start's temperature [J], and slope [J/K]. */
  readonly value: Float64Array;
  readonly slope: Float64Array;
  evaporated_kg = 0;
  evaporatedSlope = 0;
  sum_J = 0;
  sumSlope_JK = 0;

  constructor(
    readonly body: PoolBody,
    readonly conditions: PoolConditions,
    state: PoolState,
    surface: SurfaceStep = surfaceStep(body, conditions, state.ice_kg),
    room: LineRoom = lineRoom(),
  ) {
    this.water_C = state.water_C;
    this.ice_kg = state.ice_kg;
    this.spare_kg = state.spare_kg ?? 0;
    this.mass_kg = poolMass_kg(body, this.spare_kg);
    this.value = room.value;
    this.slope = room.slope;
    const probe = state.water_C + PROBE_K <= HOTTEST_POOL_C ? PROBE_K : -PROBE_K;
    this.evaporated_kg = fluxes(body, conditions, surface, state.water_C, this.spare_kg, this.value);
    const other = fluxes(body, conditions, surface, state.water_C + probe, this.spare_kg, this.slope);
    this.evaporatedSlope = (other - this.evaporated_kg) / probe;
    for (let p = 0; p < SURFACE_PARTS; p++) {
      this.slope[p] = (this.slope[p] - this.value[p]) / probe;
      this.sum_J += this.value[p];
      this.sumSlope_JK += this.slope[p];
    }
  }

  /** Heat that something else must bring in the step for the water to end at a temperature [J]. */
  wanted_J(end_C: number): number {
    const rise = this.mass_kg * (poolEnthalpy(end_C) - poolEnthalpy(this.water_C));
    return rise - this.sum_J - this.sumSlope_JK * (end_C - this.water_C);
  }

  /** Temperature at the end with further heat [J] and its slope [J/K]; outside 0…60 °C where there is no answer. */
  end_C(extra_J: number, extraSlope_JK: number): number {
    const sum = this.sum_J + extra_J;
    const slope = this.sumSlope_JK + extraSlope_JK;
    const capacity = this.mass_kg * 4182;
    let t = this.water_C + sum / (capacity - slope);
    const start = poolEnthalpy(this.water_C);
    for (let round = 0; round < 3 && t >= 0 && t <= HOTTEST_POOL_C; round++) {
      const lack = this.mass_kg * (poolEnthalpy(t) - start) - sum - slope * (t - this.water_C);
      t -= lack / (capacity - slope);
    }
    return t;
  }
}

/** Heat by cause over the step at a water temperature [J]; returns what evaporates [kg]. */
function fluxes(
  body: PoolBody,
  c: PoolConditions,
  surface: SurfaceStep,
  water_C: number,
  spare_kg: number,
  out: Float64Array,
): number {
  const flux = surfaceHeat(surface, water_C);
  const dt = c.step_s;
  const h = poolEnthalpy(water_C);
  const evaporated = (-flux.evaporation_W / latentHeat(water_C)) * dt;
  const rain_kg = c.rain_kgm2 * body.area_m2;
  out[PART.sun] = flux.sun_W * dt;
  out[PART.evaporation] = flux.evaporation_W * dt;
  out[PART.convection] = flux.convection_W * dt;
  out[PART.longWave] = flux.longWave_W * dt;
  out[PART.ground] = body.groundConductance_Wm2K * body.wettedArea_m2 * (c.ground_C - water_C) * dt;
  out[PART.makeUp] = makeUp(evaporated, c, rain_kg, spare_kg) * (poolEnthalpy(c.mains_C) - h);
  out[PART.rain] = rain_kg * (poolEnthalpy(c.rain_C) - h);
  out[PART.swimmers] = c.swimmers * c.swimmerHeat_W * dt;
  return evaporated;
}

/**
 * Ends a step: collector and heater in, temperature and ice out, every cause booked.
 *
 * @param line      of the step
 * @param collector what the collector gives, or null
 * @param heater    another heater, or null
 * @param out       receives the heat by cause
 * @returns state at the end
 * @throws {DomainError} for a balance beyond 0…60 °C
 */
export function endStep(
  line: PoolLine,
  collector: CollectorLine | null,
  heater: StepHeater | null,
  out: StepHeat,
): PoolState {
  const { conditions, water_C } = line;
  const given = collector?.heat_J ?? 0;
  const slope = collector?.slope_JK ?? 0;
  let end = line.end_C(given, slope);
  let heater_J = 0;
  if (heater && heater.enabled > 0 && end < heater.setpoint_C) {
    const most = heater.capacity_W * heater.enabled * conditions.step_s;
    const wanted = line.wanted_J(heater.setpoint_C) - given - slope * (heater.setpoint_C - water_C);
    heater_J = Math.max(0, Math.min(most, wanted));
    end = wanted <= most ? heater.setpoint_C : line.end_C(given + heater_J, slope);
  }
  if (line.ice_kg > 0 || !(end > 0 && Math.abs(end - water_C) <= STRAIGHT_K)) {
    return fullStep(line, collector, heater, out);
  }
  const change = end - water_C;
  const parts = out.parts_J;
  let sum = 0;
  for (let p = 0; p < SURFACE_PARTS; p++) {
    parts[p] = line.value[p] + line.slope[p] * change;
    sum += parts[p];
  }
  parts[PART.collector] = given + slope * change;
  parts[PART.heater] = heater_J;
  parts[PART.frozenThrough] = 0;
  sum += parts[PART.collector] + heater_J;
  out.evaporated_kg = line.evaporated_kg + line.evaporatedSlope * change;
  const rain_kg = conditions.rain_kgm2 * line.body.area_m2;
  out.makeUp_kg = makeUp(out.evaporated_kg, conditions, rain_kg, line.spare_kg);
  out.fuel_J = heater_J > 0 && heater ? heater_J / heater.efficiency : 0;
  const most_kg = mostSpare_kg(line.body);
  const spare_kg = spareAfter(most_kg, out.evaporated_kg, conditions, rain_kg, line.spare_kg);
  out.overflow_kg = overflow(most_kg, out.evaporated_kg, conditions, rain_kg, line.spare_kg);
  const h = poolEnthalpy(end);
  out.level_J = gained(out.makeUp_kg, out.evaporated_kg, conditions, rain_kg, out.overflow_kg) * h;
  const held_J = poolMass_kg(line.body, spare_kg) * h - line.mass_kg * poolEnthalpy(water_C);
  out.residual_J = held_J - out.level_J - sum;
  return { water_C: end, ice_kg: 0, spare_kg };
}

/** The full equations, where the water freezes or jumps. */
function fullStep(
  line: PoolLine,
  collector: CollectorLine | null,
  heater: StepHeater | null,
  out: StepHeat,
): PoolState {
  const { body, conditions, water_C, ice_kg, spare_kg } = line;
  const dt = conditions.step_s;
  const heat = collector
    ? (t: number): number => (collector.heat_J + collector.slope_JK * (t - water_C)) / dt
    : undefined;
  const step = stepPool(body, { water_C, ice_kg, spare_kg }, conditions, heat, heater);
  const { ledger } = step;
  const parts = out.parts_J;
  parts[PART.sun] = ledger.sun_J;
  parts[PART.evaporation] = ledger.evaporation_J;
  parts[PART.convection] = ledger.convection_J;
  parts[PART.longWave] = ledger.longWave_J;
  parts[PART.ground] = ledger.ground_J;
  parts[PART.makeUp] = ledger.makeUp_J;
  parts[PART.rain] = ledger.rain_J;
  parts[PART.swimmers] = ledger.swimmers_J;
  parts[PART.collector] = ledger.collector_J;
  parts[PART.heater] = ledger.heater_J;
  parts[PART.frozenThrough] = ledger.frozenThrough_J;
  out.evaporated_kg = ledger.evaporated_kg;
  out.makeUp_kg = ledger.makeUp_kg;
  out.overflow_kg = ledger.overflow_kg;
  out.level_J = ledger.level_J;
  out.fuel_J = ledger.fuel_J;
  out.residual_J = step.residual_J;
  return step.state;
}
