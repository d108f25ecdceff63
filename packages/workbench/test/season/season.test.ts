import type { WeatherSeries } from '@sunlap/engine/weather/series';
import { synthesiseYear } from '@sunlap/engine/weather/synthesis';
import type { Project } from '@sunlap/project/schema/project';
import type { Season } from '@sunlap/project/schema/season';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { panelGeometry } from '../../src/assembly/geometry';
import { poolSize } from '../../src/assembly/pool-size';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { moreTubes } from '../../src/season/more-tubes';
import { season, seasonBasic, seasonSteps } from '../../src/season/season';
import { seasonWeather } from '../../src/season/site-weather';
import { createSeasonCache } from '../../src/season/study';
import { TEST_TABLES } from '../fixtures';
import { anyProject } from '../random-project';

const plain = startProject({ ...usualAnswers('metric', 40), tubes: 12, passes: 2 });
const cache = createSeasonCache();
const months = new Array<boolean>(12).fill(true);

/** The first days of a year's weather. */
function firstDays(series: WeatherSeries, days: number, from = 0): WeatherSeries {
  const [a, n] = [from * 24, days * 24];
  const cut = (v: Float64Array): Float64Array => v.slice(a, a + n);
  return {
    ...series,
    start_ms: series.start_ms + a * 3_600_000,
    length: n,
    air_C: cut(series.air_C),
    dewPoint_C: cut(series.dewPoint_C),
    pressure_Pa: cut(series.pressure_Pa),
    wind_ms: cut(series.wind_ms),
    global_Wm2: cut(series.global_Wm2),
    directNormal_Wm2: cut(series.directNormal_Wm2),
    diffuse_Wm2: cut(series.diffuse_Wm2),
    cloud: cut(series.cloud),
  };
}

const spring = firstDays(seasonWeather(plain).series, 12, 120);

describe('season', () => {
  const whole = seasonBasic(plain, { cache });

  it('has twelve months that add up to the year, and closes', () => {
    const { result, solver } = whole;
    expect(result.months).toHaveLength(12);
    const sum = (of: (m: (typeof result.months)[number]) => number): number =>
      result.months.reduce((s, m) => s + of(m), 0);
    expect(sum((m) => m.heat_kWh)).toBeCloseTo(result.year.heat_kWh, 6);
    expect(sum((m) => m.runHours)).toBeCloseTo(result.year.runHours, 6);
    expect(sum((m) => m.heat.with.evaporation)).toBeCloseTo(result.year.heat.with.evaporation, 4);
    expect(sum((m) => m.swimDays.with)).toBe(result.year.swimDays.with);
    expect(result.balance.residual).toBeLessThan(1e-6);
    expect(solver.converged).toBe(true);
    const { sun, collector, heater, other } = result.year.shares;
    expect(sun + collector + heater + other).toBeCloseTo(1, 9);
    expect(result.days.date).toHaveLength(365);
    for (const m of result.months) {
      const [a, b] = [m.pool_C.with!, m.pool_C.without!];
      expect(a.low).toBeLessThanOrEqual(a.mean);
      expect(a.mean).toBeLessThanOrEqual(a.high);
      expect(a.mean).toBeGreaterThanOrEqual(b.mean - 1e-9);
    }
  });

  it('says what it assumed', () => {
    const codes = whole.notices.map((n) => n.code);
    for (const code of ['climate-assumed', 'season-run-assumed', 'season-filter-assumed'])
      expect(codes).toContain(code);
  });

  it('never throws at a legal project, and closes for any habits', () => {
    const schedule = fc.record({
      months: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
      from_h: fc.integer({ min: 0, max: 24 }),
      to_h: fc.integer({ min: 0, max: 24 }),
    });
    const habits: fc.Arbitrary<Season> = fc.record(
      {
        run: fc.oneof(
          fc.record({
            kind: fc.constant('hours' as const),
            months: fc.array(
              fc.record({
                from_h: fc.integer({ min: 0, max: 24 }),
                to_h: fc.integer({ min: 0, max: 24 }),
                on: fc.boolean(),
              }),
              { minLength: 12, maxLength: 12 },
            ),
          }),
          fc.record({
            kind: fc.constant('controller' as const),
            onDifference_K: fc.double({ min: 0.5, max: 8, noNaN: true }),
            offDifference_K: fc.double({ min: 0, max: 3, noNaN: true }),
            limit_C: fc.double({ min: 10, max: 40, noNaN: true }),
            from_h: fc.integer({ min: 0, max: 24 }),
            to_h: fc.integer({ min: 0, max: 24 }),
            nightCooling: fc.boolean(),
          }),
        ),
        cover: fc.record({
          cover: fc.constantFrom('bubble-clear', 'foam', 'liquid-film', 'no such row'),
          on: fc.array(schedule, { maxLength: 2 }),
        }),
        swimmers: fc.record({
          count: fc.integer({ min: 0, max: 9 }),
          on: fc.array(schedule, { maxLength: 2 }),
        }),
        heater: fc.record({
          kind: fc.constantFrom('gas' as const, 'heatPump' as const),
          capacity_W: fc.constantFrom(5000, 60_000),
          setpoint_C: fc.double({ min: 5, max: 40, noNaN: true }),
          on: fc.array(schedule, { maxLength: 2 }),
        }),
        drained: fc.array(fc.boolean(), { minLength: 12, maxLength: 12 }),
        splash_m3PerDay: fc.constantFrom(0, 0.1),
        backwashEvery_days: fc.constantFrom(3, 14),
        evaporation: fc.constantFrom(
          'carrier' as const,
          'as3634' as const,
          'mcmillan' as const,
          'richter' as const,
        ),
      },
      { requiredKeys: [] },
    );
    fc.assert(
      fc.property(anyProject, habits, (project, own) => {
        const answer = seasonBasic({ ...project, season: own }, { weather: spring, tables: TEST_TABLES });
        expect(answer.result.balance.residual).toBeLessThan(1e-6);
        expect(answer.result.balance.panelResidual).toBeLessThan(1e-6);
        expect(answer.solver.converged || answer.solver.worst !== undefined).toBe(true);
      }),
      { numRuns: 25, seed: 5 },
    );
  });

  it('lets nothing run in months in which the panel is drained, by night neither, and asks no frost of it', () => {
    const run = {
      kind: 'controller' as const,
      onDifference_K: 1,
      offDifference_K: 0.5,
      limit_C: 16,
      from_h: 0,
      to_h: 24,
      nightCooling: true,
    };
    const frosty = { ...spring, air_C: spring.air_C.map((t) => t - 14) };
    const year = (drained?: boolean[]) =>
      seasonBasic(
        { ...plain, season: { run, ...(drained ? { drained } : {}) } },
        { weather: frosty, tables: TEST_TABLES },
      );
    const open = year();
    const may = year(months.map((_, m) => m === 4));
    expect(open.result.months[4].runHours).toBeGreaterThan(0);
    expect(may.result.months[4].runHours).toBe(0);
    expect(may.result.months[4].heat_kWh).toBe(0);
    expect(may.result.months[3].heat_kWh).toBe(open.result.months[3].heat_kWh);
    const cold = (a: typeof open) => a.notices.some((n) => n.code === 'season-panel-freezes');
    expect(cold(open)).toBe(true);
    expect(cold(year(months.map(() => true)))).toBe(false);
  });

  it('keeps what is done when it is stopped, and reports its way', () => {
    const seen: number[] = [];
    let asked = 0;
    const answer = season(plain, {
      weather: spring,
      onProgress: ({ share }) => seen.push(share),
      stop: () => ++asked > 6,
    });
    expect(answer.complete).toBe(false);
    expect(answer.result.months[4].heat_kWh).toBeGreaterThan(0);
    expect(seen.every((s) => s >= 0 && s <= 1)).toBe(true);
  });

  it('the full study has bands round its figures, changes, money and a first answer', () => {
    const project: Project = {
      ...plain,
      pool: { ...plain.pool, wish_C: 18 },
      yard: {
        obstacles: [
          {
            kind: 'tree',
            id: 'plum',
            name: 'the plum tree',
            x_m: 0,
            y_m: -5,
            ground_m: 0,
            height_m: 7,
            crownRadius_m: 2.5,
            crownBase_m: 1,
            trunkRadius_m: 0.15,
            leafTransmittance: 0.1,
            bareTransmittance: 0.5,
            leafMonths: months,
          },
        ],
      },
    };
    const work = seasonSteps(project, { weather: spring });
    let last = work.next();
    let partial = 0;
    while (!last.done) {
      if (last.value.answer) partial++;
      last = work.next();
    }
    const { result, band, complete } = last.value;
    expect(complete).toBe(true);
    expect(partial).toBeGreaterThan(5);
    expect(band.heat_kWh.low).toBeLessThan(result.year.heat_kWh);
    expect(band.heat_kWh.high).toBeGreaterThan(result.year.heat_kWh);
    for (const doubt of ['evaporation', 'poolExposure', 'collectorExposure', 'tees'])
      expect(band[`heat_kWh.${doubt}`]).toBeDefined();
    const by = (kind: string) => result.changes.find((c) => c.kind === kind)!;
    expect(by('cover').warmer_K.without).toBeGreaterThan(0.3);
    expect(by('tubes').collectorHeatAdded_kWh).toBeGreaterThan(0);
    expect(by('bigger').collectorHeatAdded_kWh).toBeGreaterThan(by('tubes').collectorHeatAdded_kWh * 0.9);
    expect(by('felled').warmer_K.without).toBeGreaterThan(0);
    expect(result.obstacles[0].year_kWh.pool).toBeGreaterThan(0);
    expect(result.first?.collector).toHaveLength(12);
    expect(result.money?.betterBuy).toMatch(/collector|cover|nothing|unknown/);
    expect(result.money?.covered).toBe(false);
    expect(result.money?.saying).not.toContain('those with the cover');
    expect(result.suction?.heat_kWh).toBeGreaterThan(0);
    expect(result.worth?.[4].from_h).toBeGreaterThan(4);
  });

  it('a collector that nothing reaches leaves the pool alone, and says so', () => {
    const shut: Project = {
      ...plain,
      collector: {
        ...plain.collector,
        sections: plain.collector.sections.map((s) => ({
          ...s,
          banks: s.banks.map((b) =>
            b.kind === 'tubes' ? { ...b, blocked: Array.from({ length: b.count }, (_, i) => i + 1) } : b,
          ),
        })),
      },
    };
    const { result, notices } = seasonBasic(shut, { weather: spring });
    expect(result.year.heat_kWh).toBe(0);
    expect(result.year.pool_C.with).toEqual(result.year.pool_C.without);
    expect(notices.map((n) => n.code)).toContain('season-no-flow');
  });

  // Invariants: no sun through polar night, and most of it under the midnight sun; near the equator two dull seasons at
  // most half of the bright ones.
  it('runs in polar night and day, in the tropics and at the date line', () => {
    for (const [latitude_deg, longitude_deg, utcOffset_h, dark, bright] of [
      [70, 20, 1, 11, 5],
      [-78, 167, 12, 5, 11],
      [1, -179.9, -12, -1, -1],
    ]) {
      const months = Array.from({ length: 12 }, (_, m) => ({
        high_C: 8 + 10 * Math.cos(((m - (latitude_deg > 0 ? 6 : 0)) / 6) * Math.PI),
        low_C: -2 + 8 * Math.cos(((m - (latitude_deg > 0 ? 6 : 0)) / 6) * Math.PI),
        sunshine_h: 3,
      }));
      const place = { latitude_deg, longitude_deg, elevation_m: 5 };
      const { series } = synthesiseYear({ name: 'far', place, utcOffset_h, months });
      const answer = seasonBasic(plain, { weather: series, cache: createSeasonCache() });
      const { balance, days, months: spans } = answer.result;
      expect(balance.residual).toBeLessThan(1e-6);
      expect(days.date).toHaveLength(365);
      for (const t of [...days.with.mean, ...days.without.mean]) {
        expect(t).toBeGreaterThanOrEqual(0);
        expect(t).toBeLessThan(45);
      }
      const sun = spans.map((m) => m.heat.without.sun);
      const [least, most] = [Math.min(...sun), Math.max(...sun)];
      if (dark < 0) expect(least).toBeGreaterThan(0.5 * most);
      else {
        expect(sun[dark]).toBeLessThan(0.002 * most);
        expect(sun[bright]).toBeGreaterThan(0.75 * most);
        expect(spans[dark].heat_kWh).toBeLessThanOrEqual(0);
      }
    }
  });

  // Common practice (ISO/TR 12596): .85 of the light on a light floor, .90 on a dark one.
  it('a dark floor takes .90 of the sun, a light one .85', () => {
    const sun = (floor: 'light' | 'dark'): number =>
      seasonBasic(
        { ...plain, pool: { ...plain.pool, floor } },
        { weather: spring, cache: createSeasonCache() },
      ).result.year.heat.without.sun;
    expect(sun('dark') / sun('light')).toBeCloseTo(0.9 / 0.85, 6);
    let falls = 0;
    for (let i = 0; i < spring.length; i++) falls += spring.global_Wm2[i] / 1000;
    const share = sun('light') / falls / poolSize(plain.pool).surface_m2;
    // less than .85 only while the sun is low
    expect(share).toBeGreaterThan(0.82);
    expect(share).toBeLessThan(0.85 + 1e-9);
  });
});

describe('more tubes', () => {
  it('keeps the pitch: no tube comes nearer to another than before', () => {
    const { collector } = startProject({ ...usualAnswers('us'), tubes: 14, passes: 3 });
    const nearest = (c: typeof collector): number => {
      const v = panelGeometry(c, STANDARD_TABLES.sizes)
        .banks.flatMap((b) => b.units.map((u) => u.near.v_m))
        .sort((a, b) => a - b);
      return Math.min(...v.slice(1).map((x, i) => x - v[i]));
    };
    const grown = moreTubes(collector, 10);
    expect(grown.added).toBe(10);
    const count = (c: typeof collector): number =>
      c.sections.flatMap((s) => s.banks).reduce((n, b) => n + b.count, 0);
    expect(count(grown.collector)).toBe(count(collector) + 10);
    expect(nearest(grown.collector)).toBeCloseTo(nearest(collector), 9);
  });
});
