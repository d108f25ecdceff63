import { readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import quince from '../../../../examples/quince-yard.json';
import { build } from '../../src/build/build';
import { type MoneyFacts, type MoneyPlan, moneyPlan } from '../../src/build/money';
import type { ShopTotal } from '../../src/build/shop';
import { weatherFacts } from '../../src/build/weather-facts';
import { heatPumpCop } from '../../src/season/assumed';
import type { SeasonAnswer } from '../../src/season/values';

function quinceProject(): Project {
  const read = readProject(JSON.stringify(quince));
  if (!read.ok) throw new Error('the example does not read');
  return read.project;
}

const total = (cost: number): ShopTotal => ({ price: cost, unpriced: 0, demo: 0, paid: 0, cost, open: cost });

/** A year whose every figure is round: heat in July only, or in every month. */
function yearOf(
  monthly_kWh: readonly number[],
  over: { pump?: number; fuel?: [number, number] } = {},
): SeasonAnswer {
  const heat_kWh = monthly_kWh.reduce((a, b) => a + b, 0);
  const [without, burned] = over.fuel ?? [0, 0];
  return {
    result: {
      place: 'a made place',
      months: monthly_kWh.map((heat, m) => ({ month: m + 1, heat_kWh: heat })),
      year: {
        heat_kWh,
        extraPump_kWh: over.pump ?? 0,
        fuel_kWh: { without, with: burned },
        swimDays: { with: 90, without: 40 },
      },
      money: null,
    },
    solver: { converged: true, iterations: 1, residual: 0 },
    band: {},
    notices: [],
    complete: false,
  } as unknown as SeasonAnswer;
}

const flat = new Array<number>(12).fill(20);
const facts = (over: Partial<MoneyFacts> = {}): MoneyFacts => ({
  heatNow_W: null,
  extraPump_W: null,
  season: null,
  air_C: flat,
  ...over,
});

type Kind = NonNullable<NonNullable<Project['prices']>['replacedHeat']>['kind'];
const priced = (kind: Kind, price_perkWh: number): Pick<Project, 'prices' | 'season'> => ({
  prices: {
    currency: 'USD',
    asOf: '2026-04-12',
    electricity_perkWh: 0.2,
    replacedHeat: { kind, price_perkWh },
    parts: [],
  },
});

describe('money of a build', () => {
  // 10 000 kWh of resistance heat at 0.10: worth 1000 a year; 500 kWh of pump at 0.20 take 100 off
  const plain = moneyPlan(
    priced('resistance', 0.1),
    total(1800),
    facts({ season: yearOf(new Array<number>(12).fill(10_000 / 12), { pump: 500 }) }),
  );

  it('is the year’s, by hand', () => {
    const year = plain.year!;
    expect(year.saved!.low).toBeCloseTo(1000, 9);
    expect(year.net).toEqual({ low: expect.closeTo(900, 9), high: expect.closeTo(900, 9) });
    expect(year.payback_years!.low).toBeCloseTo(2, 12);
    expect(year.netValue!.high).toBeCloseTo(10 * 900 - 1800, 9);
    // (180 of parts a year and 100 of pump) over 10 000 kWh
    expect(year.price_perkWh!.low).toBeCloseTo(0.028, 12);
    expect(plain.leastHeat_kWhPerYear).toBeCloseTo(1800, 9);
    expect(year.swimDaysAdded).toBe(50);
  });

  it('carries the interval of what is replaced: building.md 8, gas 0.78 to 0.84', () => {
    const gas = moneyPlan(
      priced('gas', 0.0819),
      total(500),
      facts({ season: yearOf(new Array(12).fill(100)) }),
    );
    expect(gas.heat_perkWh).toEqual([expect.closeTo(0.0975, 12), expect.closeTo(0.105, 12)]);
    expect(gas.year!.payback_years!.low).toBeCloseTo(500 / (1200 * 0.105), 9);
    expect(gas.year!.payback_years!.high).toBeCloseTo(500 / (1200 * 0.0975), 9);
  });

  it('takes a heat pump’s COP at the air of the months in which the heat comes', () => {
    const july = new Array<number>(12).fill(0);
    july[6] = 1000;
    const air = [0, 0, 5, 10, 15, 20, 30, 25, 20, 10, 5, 0];
    const of = (months: readonly number[]): readonly [number, number] =>
      moneyPlan(priced('heatPump', 0.3), total(1), facts({ season: yearOf(months), air_C: air }))
        .heat_perkWh!;
    const [low, high] = of(july);
    // harmonic middle of the interval is the price over the COP at July's 30 °C
    expect(2 / (1 / low + 1 / high)).toBeCloseTo(0.3 / heatPumpCop(30), 12);
    const january = [1000, ...new Array<number>(11).fill(0)];
    expect(of(january)[0]).toBeGreaterThan(low);
    // a month without heat weighs nothing
    expect(of([500, ...july.slice(1)])[0]).toBeLessThan(of(january)[0]);
  });

  it('counts with another heater only what that burns less', () => {
    const heated = { ...priced('gas', 0.1), season: { heater: {} } } as Pick<Project, 'prices' | 'season'>;
    const of = moneyPlan(heated, total(100), facts({ season: yearOf(flat, { fuel: [3000, 1000] }) }));
    expect(of.year!.saved!.low).toBeCloseTo(200, 9);
  });

  it('has no figure for what does not come within its life, in JSON either, and says so', () => {
    // 1000 kWh within 40 % of it at 0.1: 60 to 140 a year less 50 of pump
    const season = yearOf(new Array<number>(12).fill(1000 / 12), { pump: 250 });
    season.band = { heat_kWh: { low: 600, high: 1400 } };
    const of = (cost: number): MoneyPlan =>
      moneyPlan(priced('resistance', 0.1), total(cost), facts({ season }));
    const sure = of(90);
    expect(sure.year!.payback_years).toEqual({ low: expect.closeTo(1, 9), high: expect.closeTo(9, 9) });
    const perhaps = of(180);
    expect(perhaps.year!.payback_years).toEqual({ low: expect.closeTo(2, 9), high: null });
    expect(perhaps.saying).toContain('after 2.0 years at best, at worst not within its 10 years');
    const late = of(1800);
    expect(late.year!.payback_years).toEqual({ low: expect.closeTo(20, 9), high: null });
    expect(late.saying).toContain('does not pay its parts within its 10 years: 20.0 at best');
    expect(JSON.parse(JSON.stringify(late.year))).toEqual(late.year);
    expect(late.inputs.join()).toContain('600 to 1400 (what is not known of evaporation');
  });

  it('has no price of a kilowatt-hour where no heat comes', () => {
    const season = yearOf(flat);
    season.band = { heat_kWh: { low: -5, high: 10 } };
    const some = moneyPlan(priced('gas', 0.1), total(100), facts({ season }));
    expect(some.year!.price_perkWh).toEqual({ low: expect.closeTo(1, 9), high: null });
    expect(some.saying).toContain('1.00 USD or more for each');
    const none = moneyPlan(priced('gas', 0.1), total(100), facts({ season: yearOf(new Array(12).fill(0)) }));
    expect(none.year!.price_perkWh).toBeNull();
    expect(none.saying).toMatch(/^A year brings 0 kWh into the pool, and/);
  });

  it('says when it never pays, and when a cover or nothing is the better buy', () => {
    const never = moneyPlan(priced('gas', 0.001), total(900), facts({ season: yearOf(flat, { pump: 400 }) }));
    expect(never.year!.payback_years).toBeNull();
    expect(never.saying).toMatch(/never pays/);
    for (const [better, word] of [
      ['cover', /cover by itself is the better buy/],
      ['nothing', /Neither panel nor cover/],
      ['collector', /panel is the better buy/],
    ] as const) {
      const season = yearOf(flat);
      season.result.money = {
        betterBuy: better,
        cover: null,
        covered: false,
      } as SeasonAnswer['result']['money'];
      expect(moneyPlan(priced('gas', 0.05), total(900), facts({ season })).saying).toMatch(word);
      season.result.money!.covered = true;
      const covered = moneyPlan(priced('gas', 0.05), total(900), facts({ season })).saying;
      if (better !== 'cover') expect(covered).toMatch(/cover that is in use/);
    }
  });

  it('is of the moment only, and says so, where no year was run', () => {
    const now = moneyPlan(
      priced('resistance', 0.1),
      total(600),
      facts({ heatNow_W: 5000, extraPump_W: 500 }),
    );
    expect(now.year).toBeNull();
    // 5 kW at 0.10, less 0.5 kW at 0.20
    expect(now.paysAfter_h).toBeCloseTo(600 / (0.5 - 0.1), 9);
    expect(now.saying).toMatch(/this moment only/);
    expect(now.saying).toMatch(/No year was run/);
  });

  it('names every input beside the claim', () => {
    const inputs = plain.inputs.join('; ');
    for (const word of [
      '1800.00 USD',
      '0.200 USD/kWh',
      'at 0.100 USD/kWh',
      '10000 kWh',
      '500 kWh',
      '10 years',
      'no interest',
      'a made place',
    ])
      expect(inputs).toContain(word);
  });
});

describe('weather for building', () => {
  const project = quinceProject();

  it('finds the first and last frost of a winter that goes over the new year', () => {
    const own = weatherFacts(project);
    expect(own.firstFrost).not.toBeNull();
    // north of the equator: autumn's frost before the spring's when counted from midsummer
    expect(Number(own.firstFrost!.slice(0, 2))).toBeGreaterThanOrEqual(8);
    expect(Number(own.lastFrost!.slice(0, 2))).toBeLessThanOrEqual(6);
    expect(own.coldest_C).toBeLessThan(0);
    expect(Math.max(...own.air_C)).toBe(Math.max(own.air_C[6], own.air_C[7]));
  });

  it('knows a climate without frost', () => {
    const months = Array.from({ length: 12 }, () => ({ high_C: 32, low_C: 24, sunshine_h: 6 }));
    const warm = weatherFacts({
      site: project.site,
      season: { ...project.season!, climate: { kind: 'table', months } },
    } as Pick<Project, 'site' | 'season'>);
    expect(warm.firstFrost).toBeNull();
    expect(warm.lastFrost).toBeNull();
    expect(warm.coldest_C).toBeGreaterThan(10);
  });

  it('lets pipes grow from the climate’s coldest hour, unless another is given', () => {
    const cold = weatherFacts(project).coldest_C;
    const grown = (p: Project, options = {}) => build(p, options).result.pressure;
    expect(grown(project).coldest_C).toBe(cold);
    expect(grown(project, { coldest_C: -20 }).coldest_C).toBe(-20);
    const own = grown({ ...project, build: { ...project.build, coldest_C: 5 } });
    expect(own.coldest_C).toBe(5);
    // α·L·ΔT: the same pipe grows by the share of the range
    const [a, b] = [grown(project), own].map((p) => p.expansion[0].change_m / (p.dry_C - p.coldest_C));
    expect(a).toBeCloseTo(b, 12);
  });
});
