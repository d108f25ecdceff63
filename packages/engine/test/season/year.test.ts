import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { saturationPressure } from '../../src/fluids/moist-air';
import { waterEnthalpy } from '../../src/fluids/water';
import { type PoolConditions, poolBody, QUIET_CONDITIONS } from '../../src/pool/conditions';
import type { CoverKind } from '../../src/pool/cover';
import { EVAPORATION_MODELS, type EvaporationName } from '../../src/pool/evaporation';
import { poolMass_kg, stepPool } from '../../src/pool/step';
import type { CollectorPipes } from '../../src/season/collector';
import { PART, PARTS } from '../../src/season/pool-line';
import { drain, runYear } from '../../src/season/year';
import type { PoolSums, YearResult, YearSetup, YearSteps } from '../../src/season/year-types';
import { BY_HAND, inventedSteps, plainCollector } from './invented-year';

const body = poolBody(32, 45, 60);
const BUBBLE: CoverKind = {
  id: 'bubble',
  name: 'bubble cover',
  solarTransmittance: 0.75,
  solarAbsorptance: 0.15,
  conductance_Wm2K: 25,
  emittance: 0.9,
  evaporationLeft: 0.05,
  source: 'invented for the test',
};
/** Feed and return that hold 200 l, as warm as the air within an hour. */
const pipesInAir = (steps: YearSteps): CollectorPipes => ({
  holds_JK: 8e5,
  standing: (i, out) => Object.assign(out, { standing_C: steps.conditions[i].air_C, tau_s: 3600 }),
});
const sum = (values: ArrayLike<number>): number => Array.from(values).reduce((a, b) => a + b, 0);
const part = (r: YearResult, which: 'with' | 'without', name: keyof typeof PART): number =>
  sum(Array.from({ length: 12 }, (_, m) => r[which].parts_J[m * PARTS + PART[name]]));
const means = (r: YearResult, which: 'with' | 'without'): number[] =>
  Array.from(r[which].warm_Ks, (w, m) => w / r.month_s[m]);

describe('balance of the year', () => {
  // Invariant. Our aim is 1e-6 of the year's throughput; what is booked is what was solved.
  it('closes for every combination of options', () => {
    const names = Object.keys(EVAPORATION_MODELS) as EvaporationName[];
    fc.assert(
      fc.property(
        fc.record({
          evaporation: fc.constantFrom(...names),
          covered: fc.constantFrom(0, 0.5, 1),
          swimmers: fc.constantFrom(0, 4),
          heater: fc.boolean(),
          controller: fc.constantFrom('none', 'heat', 'cool'),
          limit: fc.constantFrom(Infinity, 24, 30),
          area: fc.constantFrom(0, 0.01, 15, 60),
          cold: fc.constantFrom(0, 12, 30),
          rain: fc.constantFrom(0, 2, 40),
          splash: fc.constantFrom(0, 30),
          substeps: fc.constantFrom(1, 2),
          pipes: fc.boolean(),
          condensation: fc.boolean(),
          range: fc.constantFrom(0, 0.001, 0.05),
          deep: fc.constantFrom(0.3, 1.5),
          start: fc.option(fc.double({ min: 0, max: 40, noNaN: true }), { nil: undefined }),
        }),
        (o) => {
          const steps = inventedSteps(
            20,
            (i) => ({
              air_C: 14 - o.cold + 5 * Math.sin(((i % 24) - 9) / 3.82),
              cover: o.covered > 0 ? BUBBLE : null,
              coverShare: i % 24 > 19 || i % 24 < 8 ? o.covered : 0,
              swimmers: i % 24 === 15 ? o.swimmers : 0,
              activity: i % 24 === 15 && o.swimmers > 0 ? 1.6 : 1,
              rain_kgm2: i % 50 === 7 ? o.rain : 0,
              splash_kg: o.splash,
            }),
            o.heater ? { heaterShare: new Float64Array(20 * 24).fill(0.5) } : {},
          );
          const setup: YearSetup = {
            body: poolBody(32, 32 * o.deep, 60, {
              evaporation: EVAPORATION_MODELS[o.evaporation],
              condensationCounts: o.condensation,
              levelRange_m: o.range,
            }),
            heater: o.heater ? { capacity_W: 20_000, setpoint_C: 25, efficiency: 0.8 } : null,
            plan: {
              controller:
                o.controller === 'none'
                  ? null
                  : { on_K: 3, off_K: 0.5, nightCooling: o.controller === 'cool' },
              limit_C: o.limit,
              hysteresis_K: 0.5,
            },
            collector: {
              ...plainCollector(steps, o.area),
              pipes: o.pipes ? pipesInAir(steps) : null,
            },
            substeps: o.substeps,
            potential: true,
            ...(o.start === undefined ? {} : { start_C: o.start }),
          };
          const r = drain(runYear(steps, setup));
          for (const pool of [r.with, r.without])
            expect(Math.abs(pool.residual_J) / pool.throughput_J).toBeLessThan(1e-9);
          expect(Math.abs(r.collector.panelResidual_J)).toBeLessThan(1e-9 * r.with.throughput_J + 1e-3);
          // the collector's own book and the pool's agree
          expect(sum(r.collector.heat_J)).toBeCloseTo(part(r, 'with', 'collector'), 0);
          expect(part(r, 'without', 'collector')).toBe(0);
          // over the run: parts, and what the level holds, are the change of heat held by the mass there is
          const held = (pool: PoolSums): number => {
            const heat = (water_C: number, spare_kg: number): number =>
              poolMass_kg(setup.body, spare_kg) * waterEnthalpy(water_C);
            const change = heat(pool.end_C, pool.end_kg) - heat(pool.start_C, pool.start_kg);
            return change - sum(pool.parts_J) - pool.level_J;
          };
          for (const pool of [r.with, r.without])
            if (sum(pool.iced) === 0) expect(Math.abs(held(pool))).toBeLessThan(1e-6 * pool.throughput_J);
          // and the water: what came and went is the change of the level
          const wet = 32 * sum(steps.conditions.map((c) => c.rain_kgm2));
          const splashed = sum(steps.conditions.map((c) => c.splash_kg));
          for (const pool of [r.with, r.without]) {
            const moved = sum(pool.makeUp_kg) + wet - splashed - sum(pool.overflow_kg);
            // moisture that condenses raises no level
            if (!o.condensation)
              expect(pool.end_kg - pool.start_kg - moved + sum(pool.evaporated_kg)).toBeCloseTo(0, 6);
          }
        },
      ),
      { numRuns: 40, seed: 11 },
    );
  });
});

describe('against its neighbours', () => {
  // Invariant: the full implicit equations, step by step. The straight lines differ by their curvature only.
  it('follows the full equations of the pool', () => {
    const steps = inventedSteps(20);
    const r = drain(
      runYear(steps, { body, heater: null, plan: BY_HAND, collector: null, start_C: 20, keepSteps: true }),
    );
    let state = { water_C: 20, ice_kg: 0 };
    let worst = 0;
    for (let i = 0; i < steps.length; i++) {
      state = stepPool(body, state, steps.conditions[i]).state;
      worst = Math.max(worst, Math.abs(state.water_C - r.stepWith_C![i]));
    }
    expect(worst).toBeLessThan(2e-3);
  });

  // The aim: halving the step changes monthly means by less than 0.05 K.
  it('changes by less than 0.05 K when the step is halved', () => {
    const steps = inventedSteps(365);
    const run = (substeps: number, controller: boolean): YearResult =>
      drain(
        runYear(steps, {
          body,
          heater: { capacity_W: 8000, setpoint_C: 18, efficiency: 1 },
          plan: controller
            ? { controller: { on_K: 3, off_K: 0.5, nightCooling: false }, limit_C: 27, hysteresis_K: 0.5 }
            : BY_HAND,
          collector: plainCollector({ ...steps, heaterShare: null }, 20),
          substeps,
        }),
      );
    for (const controller of [false, true]) {
      const [coarse, fine] = [run(1, controller), run(2, controller)];
      for (const which of ['with', 'without'] as const) {
        const a = means(coarse, which);
        const b = means(fine, which);
        for (let m = 0; m < 12; m++) expect(Math.abs(a[m] - b[m])).toBeLessThan(0.05);
      }
    }
  });

  it('without a collector is the pool alone, and with a vanishing one tends to it', () => {
    const steps = inventedSteps(90);
    const run = (area: number | null): YearResult =>
      drain(
        runYear(steps, {
          body,
          heater: null,
          plan: BY_HAND,
          collector: area === null ? null : plainCollector(steps, area),
        }),
      );
    const none = run(null);
    expect(Array.from(none.with.parts_J)).toEqual(Array.from(none.without.parts_J));
    const zero = run(0);
    expect(Array.from(zero.with.warm_Ks)).toEqual(Array.from(none.with.warm_Ks));
    const gap = (area: number): number =>
      (sum(run(area).with.warm_Ks) - sum(none.with.warm_Ks)) / sum(none.month_s);
    const small = gap(0.1);
    expect(small).toBeGreaterThan(0);
    // linear where it is small: a tenth of the area, a tenth of the warmth, within 1 %
    expect(gap(0.01) / small).toBeCloseTo(0.1, 3);
  });

  it('under a perfect cover and without sun tends to the air', () => {
    const perfect: CoverKind = {
      ...BUBBLE,
      conductance_Wm2K: Infinity,
      solarTransmittance: 0,
      solarAbsorptance: 0,
      emittance: 0,
      evaporationLeft: 0,
    };
    const steps = inventedSteps(120, () => ({
      air_C: 17,
      airVapour_Pa: saturationPressure(10),
      direct_Wm2: 0,
      diffuse_Wm2: 0,
      cover: perfect,
      coverShare: 1,
      ground_C: 17,
    }));
    const shallow = poolBody(32, 6, 40);
    const r = drain(
      runYear(steps, { body: shallow, heater: null, plan: BY_HAND, collector: null, start_C: 30 }),
    );
    expect(r.with.end_C).toBeCloseTo(17, 2);
  });

  // Textbook: flow without end and no loss brings all light that is absorbed; the pool keeps it when nothing leaves.
  it('without loss and at endless flow keeps what the sun brings', () => {
    const sealed = poolBody(32, 45, 0, { evaporationFactor: 0, emittance: 0, groundConductance_Wm2K: 0 });
    const closed: CoverKind = {
      ...BUBBLE,
      solarTransmittance: 0,
      solarAbsorptance: 0,
      conductance_Wm2K: 1e-9,
      emittance: 0,
      evaporationLeft: 0,
    };
    const steps = inventedSteps(10, () => ({ cover: closed, coverShare: 1 }));
    const r = drain(
      runYear(steps, {
        body: sealed,
        heater: null,
        plan: BY_HAND,
        collector: {
          ...plainCollector(steps, 12, 1, 0, 0),
          standing: (_, out) => Object.assign(out, { standing_C: 0, tau_s: 1 }),
        },
        start_C: 15,
      }),
    );
    let light = 0;
    for (let i = 0; i < steps.length; i++)
      light +=
        12 * steps.runShare[i] * (steps.conditions[i].direct_Wm2 + steps.conditions[i].diffuse_Wm2) * 3600;
    expect(part(r, 'with', 'collector') / light).toBeCloseTo(1, 9);
    // ΔT = Q/(m·c): 45 m³ at 25 °C, c at 15–20 °C, within 0.2 %
    expect((r.with.end_C - 15) / (light / (45 * 997 * 4185))).toBeCloseTo(1, 2);
  });
});

describe('running', () => {
  const steps = inventedSteps(365);
  const run = (over: Partial<YearSetup>): YearResult =>
    drain(
      runYear(steps, {
        body,
        heater: null,
        plan: BY_HAND,
        collector: plainCollector(steps, 25),
        keepSteps: true,
        ...over,
      }),
    );

  it('meets its limit and does not pass it by its own heat', () => {
    const limit_C = 24;
    const r = run({ plan: { controller: null, limit_C, hysteresis_K: 0.3 } });
    let met = 0;
    for (let i = 0; i < steps.length; i++) {
      if (!(r.stepRun![i] > 0)) continue;
      expect(r.stepWith_C![i]).toBeLessThan(limit_C + 1e-6);
      if (Math.abs(r.stepWith_C![i] - limit_C) < 1e-6) met++;
    }
    expect(met).toBeGreaterThan(5);
  });

  it('by a controller never loses more heat than its differences allow, and cools at night when told to', () => {
    const all = { ...steps, runShare: new Float64Array(steps.length).fill(1) };
    const plan = { controller: { on_K: 3, off_K: 0.4, nightCooling: false }, limit_C: 40, hysteresis_K: 0.3 };
    const setup = { body, heater: null, plan, collector: plainCollector(all, 25), keepSteps: true };
    const r = drain(runYear(all, setup));
    // slugs of a cold panel are the only heat below zero
    const running = sum(r.collector.heat_J) - sum(r.collector.slug_J);
    expect(running).toBeGreaterThan(0);
    expect(Math.min(...r.stepHeat_W!)).toBeGreaterThan(-1000);
    const cooled = drain(
      runYear(all, {
        ...setup,
        plan: { controller: { ...plan.controller, nightCooling: true }, limit_C: 19, hysteresis_K: 0.3 },
      }),
    );
    const warm = drain(runYear(all, { ...setup, plan: { ...plan, limit_C: 19 } }));
    expect(Math.max(...means(cooled, 'with'))).toBeLessThan(Math.max(...means(warm, 'with')) - 0.05);
  });

  // Invariant: difference to switch off decides how often the pump runs, and hardly how much heat comes.
  it('brings about as much heat at any difference to switch off', () => {
    const heat = (off_K: number): { heat_J: number; run_h: number } => {
      const controller = { on_K: 3, off_K, nightCooling: false };
      const r = run({ plan: { controller, limit_C: 40, hysteresis_K: 0.3 } });
      return { heat_J: sum(r.collector.heat_J), run_h: sum(r.collector.run_h) };
    };
    const [none, some, much] = [heat(0.1), heat(1), heat(2)];
    expect(some.heat_J).toBeGreaterThan(0.85 * none.heat_J);
    expect(much.heat_J).toBeGreaterThan(0.75 * none.heat_J);
    expect(much.run_h).toBeLessThan(0.6 * none.run_h);
  });

  // Invariant: what standing water forgets it forgets by time, not by steps. An hour on, an hour off, every hour.
  it('gives the same slugs in hours, half hours and ten minutes', () => {
    const slug = (step_h: number): number => {
      const still = inventedSteps(4, () => ({ air_C: 5, direct_Wm2: 0, diffuse_Wm2: 0 }), {}, step_h);
      const runShare = Float64Array.from(still.hour, (h) => (Math.floor(h) % 2 === 0 ? 1 : 0));
      const pipes: CollectorPipes = {
        holds_JK: 8e5,
        standing: (_, out) => Object.assign(out, { standing_C: 5, tau_s: 7200 }),
      };
      const collector = { ...plainCollector(still, 1e-6, 0.8, 12, 0), pipes };
      const setup = { body, heater: null, plan: BY_HAND, collector, start_C: 25 };
      return sum(drain(runYear({ ...still, runShare }, setup)).collector.slug_J);
    };
    const [hour, half, ten] = [1, 0.5, 1 / 6].map(slug);
    expect(hour).toBeLessThan(-1e8);
    // 3 % for the pool, which cools within the hour; forgotten after two steps it was far more at ten minutes
    expect(Math.abs(half / hour - 1)).toBeLessThan(0.03);
    expect(Math.abs(ten / hour - 1)).toBeLessThan(0.03);
  });

  it('gives water that stood in the sun first, and books it', () => {
    const late = { ...steps, runShare: Float64Array.from(steps.hour, (h) => (h > 12 && h < 17 ? 1 : 0)) };
    const r = drain(
      runYear(late, {
        body,
        heater: null,
        plan: BY_HAND,
        collector: plainCollector(late, 25),
        keepSteps: true,
      }),
    );
    expect(sum(r.collector.slug_J)).toBeGreaterThan(0);
    // standing at noon in summer: air + ηG/U
    const hottest = Math.max(
      ...Array.from({ length: steps.length }, (_, i) =>
        late.runShare[i] > 0
          ? 0
          : steps.conditions[i].air_C +
            (0.8 * (steps.conditions[i].direct_Wm2 + steps.conditions[i].diffuse_Wm2)) / 12,
      ),
    );
    expect(r.collector.hottestSlug_C).toBeLessThanOrEqual(hottest + 1e-9);
    expect(r.collector.hottestSlug_C).toBeGreaterThan(hottest - 6);
  });

  // Invariant: cold pipes are warmed again at every start, and that heat is missing in the pool.
  it('fills feed and return anew when it starts', () => {
    const cold = inventedSteps(60, () => ({ air_C: 5 }));
    const heat = (pipes: CollectorPipes | null): number => {
      const collector = { ...plainCollector(cold, 20, 0.8, 12, 0), pipes };
      const r = drain(runYear(cold, { body, heater: null, plan: BY_HAND, collector, start_C: 20 }));
      expect(Math.abs(r.collector.panelResidual_J)).toBeLessThan(1e-3);
      return sum(r.collector.slug_J);
    };
    expect(heat(null)).toBeCloseTo(0, 6);
    const lost = heat(pipesInAir(cold));
    // sixty starts with water at most 15 K colder than what runs
    expect(lost).toBeLessThan(-60 * 8e5 * 2);
    expect(lost).toBeGreaterThan(-60 * 8e5 * 16);
  });

  // Invariant: water kept. What the mains bring is what went less the rain of the same hour, as far as it goes.
  it('takes rain before the mains', () => {
    const run = (rain: number): YearResult => {
      const wet = inventedSteps(30, (i) => ({ rain_kgm2: i % 24 === 3 ? rain : 0, splash_kg: 10 }));
      return drain(runYear(wet, { body, heater: null, plan: BY_HAND, collector: null, start_C: 20 }));
    };
    const [dry, little, much] = [0, 0.1, 2].map(run);
    const mains = (r: YearResult): number => sum(r.with.makeUp_kg);
    // 0.1 mm on 32 m² are less than is splashed in the hour
    expect(mains(dry) - mains(little)).toBeCloseTo(30 * 0.1 * 32, 0);
    expect(mains(dry) - mains(much)).toBeGreaterThan(30 * 9);
    expect(mains(much)).toBeGreaterThan(0);
    expect(Math.abs(much.with.residual_J) / much.with.throughput_J).toBeLessThan(1e-9);
  });

  // Invariant: a level that may fall and rise. The mains bring what the rain has not, whenever it fell, as long as the
  // level stays between its lowest and the overflow.
  it('keeps rain between the lowest level and the overflow', () => {
    const days = 40;
    const run = (levelRange_m: number, rainAt: number, rain = 60): YearResult => {
      const wet = inventedSteps(days, (i) => ({ rain_kgm2: i === rainAt ? rain : 0, splash_kg: 1 }));
      const pool = poolBody(32, 45, 60, { levelRange_m });
      return drain(runYear(wet, { body: pool, heater: null, plan: BY_HAND, collector: null, start_C: 20 }));
    };
    const mains = (r: YearResult): number => sum(r.with.makeUp_kg);
    const gone = (r: YearResult): number => sum(r.with.evaporated_kg) + 24 * days;
    const early = run(1, 30);
    // 60 mm on 32 m², all of it kept and used up
    expect(gone(early) - mains(early)).toBeCloseTo(60 * 32, 0);
    expect(mains(run(1, 200, 20))).toBeCloseTo(mains(run(1, 30, 20)), -1);
    // a level that may rise by 20 mm keeps these, and what was drawn in the hour of the rain
    const low = run(0.02, 30);
    expect(gone(low) - mains(low)).toBeGreaterThan(20 * 32);
    expect(gone(low) - mains(low)).toBeLessThan(22 * 32);
    for (const r of [early, low, run(0.05, 700, 3)])
      expect(Math.abs(r.with.residual_J) / r.with.throughput_J).toBeLessThan(1e-9);
    expect(() => run(Number.NaN, 30)).toThrow();
  });

  // Arithmetic: 300 mm of rain on 1.4 m of water are a fifth more mass, so that the same heat warms it by as much
  // less; water that runs over takes its heat along and leaves the rest as warm as it was.
  it('warms the mass that the level holds, and lets what runs over go as warm as the pool', () => {
    const still = poolBody(32, 45, 0, { evaporationFactor: 0, emittance: 0, groundConductance_Wm2K: 0 });
    const closed: CoverKind = { ...BUBBLE, conductance_Wm2K: 1e-9, emittance: 0, evaporationLeft: 0 };
    const days = (over: Partial<PoolConditions>[], levelRange_m: number): YearResult => {
      const list = inventedSteps(over.length / 24, (i) => ({
        direct_Wm2: 0,
        diffuse_Wm2: 0,
        swimmers: 0,
        cover: { ...closed, solarTransmittance: 0, solarAbsorptance: 0 },
        coverShare: 1,
        ...over[i],
      }));
      const plan = { body: { ...still, levelRange_m }, heater: null, plan: BY_HAND, collector: null };
      return drain(runYear(list, { ...plan, start_C: 20, keepSteps: true }));
    };
    const rain = { rain_kgm2: 300, rain_C: 20 };
    const warmed = { swimmers: 1000, swimmerHeat_W: 200 };
    const hours = (first: Partial<PoolConditions>): Partial<PoolConditions>[] =>
      Array.from({ length: 24 }, (_, i) => (i === 2 ? first : i === 5 ? warmed : {}));
    const rise = (r: YearResult): number => r.with.end_C - 20;
    const [dry, kept, spilt] = [days(hours({}), 0.5), days(hours(rain), 0.5), days(hours(rain), 0)];
    expect(rise(dry)).toBeCloseTo((1000 * 200 * 3600) / (poolMass_kg(still) * 4182), 2);
    expect(rise(dry) / rise(kept)).toBeCloseTo(poolMass_kg(still, 9600) / poolMass_kg(still), 3);
    expect(rise(spilt)).toBeCloseTo(rise(dry), 9);
    expect(sum(spilt.with.overflow_kg)).toBeCloseTo(9600, 6);
    expect(sum(kept.with.overflow_kg)).toBe(0);
    // backwashed from the full level: gone as warm as the pool, which stays as it is
    const drawn = days(
      hours(rain).map((c, i) => (i === 8 ? { backwash_kg: 9000 } : c)),
      0.5,
    );
    expect(drawn.with.end_C).toBeCloseTo(kept.with.end_C, 9);
    expect(drawn.with.end_kg).toBeCloseTo(600, 6);
    // from the lowest: the mains bring as much, at their own temperature
    const filled = days(
      hours({}).map((c, i) => (i === 8 ? { backwash_kg: 9000, mains_C: 10 } : c)),
      0.5,
    );
    const mixed = (poolMass_kg(still) * dry.with.end_C + 9000 * 10) / (poolMass_kg(still) + 9000);
    expect(filled.with.end_C).toBeCloseTo(mixed, 2);
    expect(sum(filled.with.makeUp_kg)).toBeCloseTo(9000, 6);
  });

  it('counts the hours in which what comes back would freeze', () => {
    const frost = inventedSteps(1, () => ({ air_C: -30, direct_Wm2: 0, diffuse_Wm2: 0 }), {
      runShare: new Float64Array(24).fill(1),
    });
    const run = (start_C: number): number => {
      const setup = { body, heater: null, plan: BY_HAND, start_C, collector: plainCollector(frost, 25) };
      return sum(drain(runYear(frost, setup)).collector.frozen_h);
    };
    // 25 m² at 12 W/m²K over 8000 W/K: a return under zero from 1.2 °C of the pool
    expect(run(1)).toBeGreaterThan(0.5);
    expect(run(30)).toBe(0);
    expect(
      sum(
        drain(runYear(steps, { body, heater: null, plan: BY_HAND, collector: plainCollector(steps, 25) }))
          .collector.frozen_h,
      ),
    ).toBe(0);
  });

  it('finds nothing to be had from a drained panel', () => {
    const first = Float64Array.from(steps.runShare, (share, i) => (steps.month[i] === 0 ? -1 : share));
    const had = (runShare: Float64Array, month: number): number => {
      const setup = { body, heater: null, plan: BY_HAND, potential: true, start_C: 15 };
      const r = drain(runYear({ ...steps, runShare }, { ...setup, collector: plainCollector(steps, 15) }));
      return sum(r.collector.potential_W.slice(24 * month, 24 * month + 24).map(Math.abs));
    };
    expect(had(steps.runShare, 0)).toBeGreaterThan(0);
    expect(had(first, 0)).toBe(0);
    expect(had(first, 1)).toBeGreaterThan(0);
  });

  it('counts pump power only beyond the filter’s hours', () => {
    const r = run({});
    const outside = steps.runShare.reduce((h, s, i) => h + s * (1 - steps.filterShare[i]), 0);
    const inside = steps.runShare.reduce((h, s, i) => h + s * steps.filterShare[i], 0);
    expect(sum(r.collector.extraPump_J) / 3600).toBeCloseTo(900 * outside + 200 * inside, 3);
  });

  it('freezes and says so, instead of going below 0 °C', () => {
    const cold = inventedSteps(120, () => ({
      air_C: -12,
      direct_Wm2: 0,
      diffuse_Wm2: 20,
      skyLongWave_Wm2: 190,
    }));
    const r = drain(
      runYear(cold, { body: poolBody(32, 20, 40), heater: null, plan: BY_HAND, collector: null, start_C: 5 }),
    );
    expect(r.with.end_C).toBe(0);
    expect(sum(r.with.iced)).toBeGreaterThan(500);
    expect(Math.abs(r.with.residual_J) / r.with.throughput_J).toBeLessThan(1e-9);
  });

  it('reports how far it is and takes no step of no length', () => {
    const seen: number[] = [];
    const work = runYear(inventedSteps(60), { body, heater: null, plan: BY_HAND, collector: null });
    for (let next = work.next(); !next.done; next = work.next()) seen.push(next.value);
    expect(seen.length).toBeGreaterThan(4);
    expect([...seen].sort((a, b) => a - b)).toEqual(seen);
    const none = inventedSteps(60);
    const zero = { ...none, conditions: none.conditions.map((c) => ({ ...c, step_s: Number.NaN })) };
    expect(() => drain(runYear(zero, { body, heater: null, plan: BY_HAND, collector: null }))).toThrow();
    expect(QUIET_CONDITIONS.step_s).toBe(3600);
  });
});
