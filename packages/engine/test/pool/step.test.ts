import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saturationPressure, vapourPressureFromHumidity } from '../../src/fluids/moist-air';
import { waterEnthalpy } from '../../src/fluids/water';
import { STEFAN_BOLTZMANN } from '../../src/numeric/constants';
import { DomainError } from '../../src/numeric/errors';
import { type PoolBody, type PoolConditions, poolBody, QUIET_CONDITIONS } from '../../src/pool/conditions';
import { type CoverKind, coverTemperature } from '../../src/pool/cover';
import { EVAPORATION_MODELS, type EvaporationName } from '../../src/pool/evaporation';
import type { PoolHeater } from '../../src/pool/heater';
import { type PoolState, poolMass_kg, stepPool } from '../../src/pool/step';
import { surfaceHeat, surfaceStep } from '../../src/pool/surface';

const body = poolBody(32, 45, 60);
const at = (water_C: number, ice_kg = 0): PoolState => ({ water_C, ice_kg });
const bubble: CoverKind = {
  id: 'bubble',
  name: 'bubble cover',
  solarTransmittance: 0.7,
  solarAbsorptance: 0.2,
  conductance_Wm2K: 20,
  emittance: 0.9,
  evaporationLeft: 0.05,
  source: 'invented for the test',
};
const foil: CoverKind = {
  ...bubble,
  id: 'foil',
  solarTransmittance: 0,
  solarAbsorptance: 0,
  emittance: 0,
  evaporationLeft: 0,
};

function run(
  pool: PoolBody,
  from: PoolState,
  hours: number,
  conditions: (hour: number) => PoolConditions,
  collector?: (t: number) => number,
): PoolState {
  let state = from;
  for (let h = 0; h < hours; h++) state = stepPool(pool, state, conditions(h), collector).state;
  return state;
}

describe('surface of the pool', () => {
  // Arithmetic: water 28 °C, sky at 4.4 °C, emittance .95: 123.3 W/m². The sky's figure has two digits: ±0.5.
  it('long wave of the common case', () => {
    const sky = STEFAN_BOLTZMANN * (4.4 + 273.15) ** 4;
    const flux = surfaceHeat(
      surfaceStep(poolBody(1, 1, 0), { ...QUIET_CONDITIONS, skyLongWave_Wm2: sky }),
      28,
    );
    expect(Math.abs(-flux.longWave_W - 123.3)).toBeLessThan(0.5);
  });

  it('hidden sky radiates at air temperature', () => {
    const s = surfaceStep(poolBody(1, 1, 0), {
      ...QUIET_CONDITIONS,
      air_C: 20,
      skyShare: 0,
      skyLongWave_Wm2: 300,
    });
    expect(surfaceHeat(s, 20).longWave_W).toBeCloseTo(0, 9);
  });

  it('convection and evaporation stand in Bowen’s ratio at every wind and activity', () => {
    for (const wind_ms of [0, 1, 5])
      for (const activity of [1, 2]) {
        const c = { ...QUIET_CONDITIONS, wind_ms, activity };
        const flux = surfaceHeat(surfaceStep(poolBody(1, 1, 0), c), 28);
        const bowen = (61 * (28 - 22)) / (saturationPressure(28) - c.airVapour_Pa);
        expect(flux.convection_W / flux.evaporation_W).toBeCloseTo(bowen, 9);
      }
  });

  it('no correlation promises less than still air does', () => {
    const flux = (name: EvaporationName) =>
      -surfaceHeat(
        surfaceStep(poolBody(1, 1, 0, { evaporation: EVAPORATION_MODELS[name] }), QUIET_CONDITIONS),
        28,
      ).evaporation_W;
    expect(flux('mcMillan')).toBeGreaterThan(
      EVAPORATION_MODELS.mcMillan.conductance(0) * (saturationPressure(28) - 1322.8),
    );
    expect(flux('mcMillan')).toBeCloseTo(flux('richter'), 9); // both lie under the floor
    expect(flux('carrier')).toBeGreaterThan(flux('mcMillan'));
  });

  it('a cover’s own balance closes', () => {
    const t = coverTemperature(28, 20, 150, 12, 18, 0.9, 330);
    const lost = 12 * (t - 18) + 0.9 * (STEFAN_BOLTZMANN * (t + 273.15) ** 4 - 330);
    expect(20 * (28 - t) + 150).toBeCloseTo(lost, 6);
    expect(() => coverTemperature(28, 20, Number.NaN, 12, 18, 0.9, 330)).toThrow(/balance of the cover/);
    expect(coverTemperature(28, Number.POSITIVE_INFINITY, 150, 12, 18, 0.9, 330)).toBe(28);
  });

  // Order of magnitude (US DOE): about 70 % evaporation, 20 % radiation, 10 % other, over a season's mix of
  // days and nights. Common summer mean: 27 °C water, 22 °C air, 60 %, 1.5 m/s at the pool, half-cloudy sky.
  it('loses mostly by evaporation, then radiation, then the rest', () => {
    const c = {
      ...QUIET_CONDITIONS,
      airVapour_Pa: vapourPressureFromHumidity(22, 0.6),
      wind_ms: 3,
      skyLongWave_Wm2: 365,
    };
    const { ledger } = stepPool(body, at(27), c);
    const losses = [
      ledger.evaporation_J,
      ledger.longWave_J,
      ledger.convection_J + ledger.ground_J + ledger.makeUp_J,
    ];
    const all = losses[0] + losses[1] + losses[2];
    const shares = losses.map((q) => q / all);
    expect(shares[0]).toBeGreaterThan(0.5);
    expect(shares[0]).toBeLessThan(0.8);
    expect(shares[1]).toBeGreaterThan(0.12);
    expect(shares[1]).toBeLessThan(0.35);
    expect(shares[2]).toBeLessThan(0.25);
  });
});

describe('a step', () => {
  const any = fc.record({
    step_s: fc.constantFrom(600, 1800, 3600, 7200),
    air_C: fc.double({ min: -30, max: 45, noNaN: true }),
    humidity: fc.double({ min: 0.05, max: 1, noNaN: true }),
    wind_ms: fc.double({ min: 0, max: 15, noNaN: true }),
    direct_Wm2: fc.double({ min: 0, max: 950, noNaN: true }),
    diffuse_Wm2: fc.double({ min: 0, max: 400, noNaN: true }),
    cosZenith: fc.double({ min: 0, max: 1, noNaN: true }),
    skyLongWave_Wm2: fc.double({ min: 120, max: 450, noNaN: true }),
    skyShare: fc.double({ min: 0, max: 1, noNaN: true }),
    rain_kgm2: fc.constantFrom(0, 0, 5),
    splash_kg: fc.constantFrom(0, 20),
    backwash_kg: fc.constantFrom(0, 500),
    swimmers: fc.constantFrom(0, 4),
    activity: fc.constantFrom(1, 1.8),
    cover: fc.constantFrom<CoverKind | null>(null, bubble, foil),
    coverShare: fc.constantFrom(0, 0.5, 1),
    pressure_Pa: fc.constantFrom(101_325, 78_000),
  });
  const options = fc.record({
    evaporation: fc.constantFrom(...Object.values(EVAPORATION_MODELS)),
    evaporationFactor: fc.constantFrom(0.7, 1, 1.3),
    condensationCounts: fc.boolean(),
    levelRange_m: fc.constantFrom(0, 0.002, 0.05),
    sun: fc.constantFrom(
      { kind: 'absorptance', absorptance: 0.85 } as const,
      { kind: 'depthAndFloor', depth_m: 1.4, floorReflectance: 0.5 } as const,
    ),
  });
  const water = fc.double({ min: 0, max: 38, noNaN: true });
  const ice = fc.constantFrom(0, 0, 200, 30_000);
  const heaters = fc.constantFrom<PoolHeater | null>(null, {
    capacity_W: 30_000,
    setpoint_C: 27,
    efficiency: 0.8,
    enabled: 1,
  });

  it('closes its balance to 1e-6 of the throughput for every combination of options', () => {
    fc.assert(
      fc.property(any, options, water, ice, heaters, fc.boolean(), (c, o, water_C, ice_kg, heater, sunny) => {
        const pool = poolBody(32, 45, 60, o);
        const { humidity, ...rest } = c;
        const conditions = {
          ...QUIET_CONDITIONS,
          ...rest,
          airVapour_Pa: vapourPressureFromHumidity(c.air_C, humidity),
        };
        const collector = sunny ? (t: number) => 12_000 - 300 * t : undefined;
        const start = { ...at(ice_kg > 0 ? 0 : water_C, ice_kg), spare_kg: pool.levelRange_m! * 9000 };
        const result = stepPool(pool, start, conditions, collector, heater);
        expect(result.converged).toBe(true);
        // 1e-3 J for steps in which nothing moves.
        expect(Math.abs(result.residual_J)).toBeLessThan(1e-6 * result.throughput_J + 1e-3);
        expect(result.state.water_C).toBeGreaterThanOrEqual(0);
        expect(result.state.ice_kg).toBeGreaterThanOrEqual(0);
        expect(result.ledger.sun_J).toBeGreaterThanOrEqual(0);
        expect(result.ledger.sun_J).toBeLessThanOrEqual((c.direct_Wm2 + c.diffuse_Wm2) * 32 * c.step_s);
        // water closes too: what runs over is only what goes over the highest level
        const { makeUp_kg, evaporated_kg } = result.ledger;
        const drawn = Math.max(0, evaporated_kg) + conditions.splash_kg + conditions.backwash_kg;
        const most = 32_000 * pool.levelRange_m!;
        const end = result.state.spare_kg!;
        const over = start.spare_kg + 32 * conditions.rain_kgm2 + makeUp_kg - drawn - end;
        expect(makeUp_kg).toBeGreaterThanOrEqual(0);
        expect(end).toBeGreaterThanOrEqual(0);
        expect(end).toBeLessThanOrEqual(most);
        expect(over).toBeGreaterThan(-1e-9);
        if (over > 1e-9) expect(end).toBe(most);
        if (makeUp_kg > 0) expect(end).toBe(0);
      }),
      { seed: 11, numRuns: 400 },
    );
  });

  it('warmer water ends warmer; more sun never ends colder; more wind never warmer in dry cool air', () => {
    fc.assert(
      fc.property(
        water,
        fc.double({ min: 0, max: 900, noNaN: true }),
        fc.double({ min: 0, max: 8, noNaN: true }),
        (t, sun, wind) => {
          const end = (water_C: number, direct_Wm2: number, wind_ms: number) =>
            stepPool(body, at(water_C), {
              ...QUIET_CONDITIONS,
              air_C: 0,
              airVapour_Pa: 300,
              direct_Wm2,
              wind_ms,
            }).state.water_C;
          expect(end(t + 0.5, sun, wind)).toBeGreaterThan(end(t, sun, wind) - 1e-12);
          expect(end(t, sun + 50, wind)).toBeGreaterThanOrEqual(end(t, sun, wind));
          expect(end(t, sun, wind + 1)).toBeLessThanOrEqual(end(t, sun, wind) + 1e-9);
        },
      ),
      { seed: 12, numRuns: 60 },
    );
  });

  it('agrees with steps half and a tenth as long over a day with sun and cover', () => {
    const day = (step_s: number) => {
      let state = at(26);
      let sum = 0;
      const n = (10 * 86_400) / step_s;
      for (let i = 0; i < n; i++) {
        const hour = (((i + 0.5) * step_s) / 3600) % 24;
        const sun = Math.max(0, Math.sin(((hour - 6) / 12) * Math.PI));
        state = stepPool(body, state, {
          ...QUIET_CONDITIONS,
          step_s,
          wind_ms: 2,
          air_C: 22 - 6 * Math.cos(((hour - 3) / 12) * Math.PI),
          direct_Wm2: 700 * sun,
          diffuse_Wm2: 120 * sun,
          cosZenith: sun,
          cover: bubble,
          coverShare: hour > 20 || hour < 8 ? 1 : 0,
        }).state;
        sum += state.water_C / n;
      }
      return sum;
    };
    const [hourly, half, tenth] = [day(3600), day(1800), day(360)];
    expect(Math.abs(hourly - half)).toBeLessThan(0.05); // mean of the days, the method's own limit
    expect(Math.abs(hourly - tenth)).toBeLessThan(0.06);
    expect(hourly).not.toBe(half);
  });
});

describe('limits', () => {
  it('under a perfect cover without sun the water tends to air temperature', () => {
    const pool = poolBody(32, 45, 0);
    const still = { ...QUIET_CONDITIONS, cover: foil, coverShare: 1, wind_ms: 3, air_C: 17 };
    expect(run(pool, at(30), 24 * 120, () => still).water_C).toBeCloseTo(17, 2);
    expect(run(pool, at(4), 24 * 120, () => still).water_C).toBeCloseTo(17, 2);
  });

  it('in saturated air under a sky as warm as the air nothing moves', () => {
    const c = {
      ...QUIET_CONDITIONS,
      air_C: 20,
      airVapour_Pa: saturationPressure(20),
      skyLongWave_Wm2: STEFAN_BOLTZMANN * 293.15 ** 4,
      ground_C: 20,
      wind_ms: 5,
    };
    expect(run(body, at(20), 100, () => c).water_C).toBeCloseTo(20, 9);
  });

  it('a collector of no area is no collector, and a small one is little', () => {
    const end = (area: number) =>
      run(
        body,
        at(20),
        24,
        () => QUIET_CONDITIONS,
        (t) => area * (500 - 15 * t),
      ).water_C;
    const none = run(body, at(20), 24, () => QUIET_CONDITIONS).water_C;
    expect(end(0)).toBe(none);
    expect(Math.abs(end(1e-6) - none)).toBeLessThan(1e-6);
    expect(end(20)).toBeGreaterThan(none + 0.5);
  });

  it('a lumped pool cools as the exponential does', () => {
    // Closed form: m·c·dT/dt = −U·A·(T − Tg) with only the ground: T = Tg + ΔT·exp(−t/τ). Backward Euler with
    // 1 h steps and τ of 104 h lags by Δt/2τ = 0.5 % of ΔT; tolerance 0.06 K of 20 K.
    const pool = poolBody(1e-9, 10, 100, { groundConductance_Wm2K: 1.1 });
    const hours = 100;
    const tau = (poolMass_kg(pool) * (waterEnthalpy(30) - waterEnthalpy(10))) / 20 / (1.1 * 100);
    const c = { ...QUIET_CONDITIONS, ground_C: 10 };
    const expected = 10 + 20 * Math.exp((-hours * 3600) / tau);
    expect(Math.abs(run(pool, at(30), hours, () => c).water_C - expected)).toBeLessThan(0.06);
  });

  it('size drops out: ten pools side by side are one pool ten times as large', () => {
    const c = { ...QUIET_CONDITIONS, direct_Wm2: 500, wind_ms: 2, rain_kgm2: 1 };
    const one = run(body, at(24), 48, () => c).water_C;
    const ten = run(poolBody(320, 450, 600), at(24), 48, () => c).water_C;
    expect(ten).toBeCloseTo(one, 9);
  });
});

describe('water in and out', () => {
  it('evaporation is made up from the mains; condensation is not', () => {
    const dry = stepPool(body, at(28), {
      ...QUIET_CONDITIONS,
      wind_ms: 3,
      splash_kg: 7,
      backwash_kg: 11,
    }).ledger;
    expect(dry.evaporated_kg).toBeGreaterThan(0);
    expect(dry.makeUp_kg).toBeCloseTo(dry.evaporated_kg + 18, 9);
    expect(dry.makeUp_J).toBeLessThan(0);
    const damp = { ...QUIET_CONDITIONS, air_C: 30, airVapour_Pa: saturationPressure(29), wind_ms: 3 };
    const wet = stepPool(body, at(10), damp).ledger;
    expect(wet.evaporated_kg).toBeLessThan(0);
    expect(wet.evaporation_J).toBeGreaterThan(0);
    expect(wet.makeUp_kg).toBe(0);
    const without = stepPool(poolBody(32, 45, 60, { condensationCounts: false }), at(10), damp).ledger;
    expect(without.evaporation_J).toBe(0);
  });

  it('rain brings its own temperature', () => {
    const c = { ...QUIET_CONDITIONS, rain_kgm2: 20 };
    expect(stepPool(body, at(28), { ...c, rain_C: 10 }).ledger.rain_J).toBeCloseTo(
      640 * (waterEnthalpy(10) - waterEnthalpy(stepPool(body, at(28), { ...c, rain_C: 10 }).state.water_C)),
      0,
    );
    expect(stepPool(body, at(20), { ...c, rain_C: 25 }).ledger.rain_J).toBeGreaterThan(0);
  });

  it('swimmers warm and stir', () => {
    const quiet = stepPool(body, at(28), { ...QUIET_CONDITIONS, wind_ms: 2 }).ledger;
    const lively = stepPool(body, at(28), {
      ...QUIET_CONDITIONS,
      wind_ms: 2,
      swimmers: 5,
      activity: 1.5,
    }).ledger;
    expect(lively.swimmers_J).toBe(5 * 200 * 3600);
    expect(lively.evaporation_J / quiet.evaporation_J).toBeCloseTo(1.5, 1);
  });
});

describe('another heater', () => {
  const heater: PoolHeater = { capacity_W: 40_000, setpoint_C: 27, efficiency: 0.8, enabled: 1 };

  it('holds the set point when it can, and says what it burned', () => {
    const { state, ledger } = stepPool(
      body,
      at(26.9),
      { ...QUIET_CONDITIONS, wind_ms: 2 },
      undefined,
      heater,
    );
    expect(state.water_C).toBe(27);
    expect(ledger.heater_J).toBeLessThan(40_000 * 3600);
    expect(ledger.fuel_J).toBeCloseTo(ledger.heater_J / 0.8, 6);
  });

  it('gives all it has when that is too little, and nothing to warm water', () => {
    const cold = stepPool(body, at(15), QUIET_CONDITIONS, undefined, heater);
    expect(cold.ledger.heater_J).toBeCloseTo(40_000 * 3600, 6);
    expect(cold.state.water_C).toBeGreaterThan(stepPool(body, at(15), QUIET_CONDITIONS).state.water_C);
    expect(stepPool(body, at(30), QUIET_CONDITIONS, undefined, heater).ledger.heater_J).toBe(0);
    expect(
      stepPool(body, at(15), QUIET_CONDITIONS, undefined, { ...heater, enabled: 0 }).ledger.heater_J,
    ).toBe(0);
  });
});

describe('frost', () => {
  const frost = {
    ...QUIET_CONDITIONS,
    air_C: -15,
    airVapour_Pa: 150,
    skyLongWave_Wm2: 180,
    wind_ms: 3,
    ground_C: 5,
  };

  it('water stops at 0 °C and freezes; ice slows its own growth; thaw gives it back', () => {
    let state = at(1);
    const growth: number[] = [];
    for (let day = 0; day < 20; day++) {
      const before = state.ice_kg;
      state = run(body, state, 24, () => frost);
      growth.push(state.ice_kg - before);
    }
    expect(state.water_C).toBe(0);
    expect(growth[19]).toBeLessThan(growth[5]);
    // Closed form: Stefan's law, √(2·k·ΔT·t/(ρ·L)), with the surface between −15 °C (air) and −25 °C (clear sky
    // below the air); the water's own heat takes some off the first days.
    const stefan = (below: number) => Math.sqrt((2 * 2.2 * below * 20 * 86_400) / (917 * 333_430));
    const thickness = state.ice_kg / body.area_m2 / 917;
    expect(thickness).toBeLessThan(stefan(25));
    expect(thickness).toBeGreaterThan(0.7 * stefan(15));
    const mild = { ...QUIET_CONDITIONS, air_C: 15, diffuse_Wm2: 150 };
    const thawed = run(body, state, 24 * 60, () => mild);
    expect(thawed.ice_kg).toBe(0);
    expect(thawed.water_C).toBeGreaterThan(3);
  });

  it('a puddle frozen through keeps its balance', () => {
    const puddle = poolBody(10, 0.5, 0);
    let state = at(0.5);
    let held = 0;
    for (let h = 0; h < 400; h++) {
      const step = stepPool(puddle, state, frost);
      expect(Math.abs(step.residual_J)).toBeLessThan(1e-6 * step.throughput_J + 1e-3);
      held += step.ledger.frozenThrough_J;
      state = step.state;
    }
    expect(state.ice_kg).toBeCloseTo(0.98 * poolMass_kg(puddle), 6);
    expect(held).toBeGreaterThan(0);
  });
});

describe('doors', () => {
  it('refuses conditions that are none, NaN first of all', () => {
    const bad: Partial<PoolConditions>[] = [
      { step_s: 0 },
      { air_C: Number.NaN },
      { airVapour_Pa: -1 },
      { wind_ms: Number.NaN },
      { direct_Wm2: -1 },
      { skyShare: 1.1 },
      { coverShare: 2 },
      { mains_C: -2 },
      { activity: Number.NaN },
      { cover: { ...bubble, solarAbsorptance: 0.5 }, coverShare: 1 },
      { cover: { ...bubble, conductance_Wm2K: 0 }, coverShare: 1 },
    ];
    for (const one of bad)
      expect(() => stepPool(body, at(20), { ...QUIET_CONDITIONS, ...one })).toThrow(DomainError);
    expect(() => stepPool(body, at(-1), QUIET_CONDITIONS)).toThrow(DomainError);
    expect(() => stepPool(body, at(20, Number.NaN), QUIET_CONDITIONS)).toThrow(DomainError);
    expect(() => poolBody(0, 1, 1)).toThrow(DomainError);
    expect(() => poolBody(1, Number.NaN, 1)).toThrow(DomainError);
  });

  it('refuses a collector that would boil the pool', () => {
    expect(() => stepPool(body, at(30), QUIET_CONDITIONS, () => 1e9)).toThrow(DomainError);
  });
});
