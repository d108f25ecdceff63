import { demoPricesOf } from '@sunlap/data/prices';
import type { Project } from '@sunlap/project/schema/project';
import type { Interval } from '../results';
import { heatPumpCop } from '../season/assumed';
import type { SeasonAnswer, SeasonMoney } from '../season/values';
import { COP_SPREAD, EFFICIENCY, inputsOf, sayingOfMoment, sayingOfYear } from './money-words';
import type { ShopTotal } from './shop';

/** Years that plastic pipe in the sun is counted with when nobody says otherwise; common practice. */
export const YEARS = 10;

/** An interval of costs whose dear end may lie beyond what a panel's life can bring: then it is null. */
export interface CostInterval {
  readonly low: number;
  readonly high: number | null;
}

/** What the year brings and is worth; every interval holds for its inputs only. */
export interface MoneyOfYear {
  /** Into the pool, each year [kWh]. */
  readonly heat_kWh: number;
  readonly heatBand_kWh: Interval | null;
  /** Pump energy over what runs without the collector [kWh]. */
  readonly extraPump_kWh: number;
  readonly extraPump: number;
  /** What is not bought any more, and what is left of it after the pump; null where nothing bought is replaced. */
  readonly saved: Interval | null;
  readonly net: Interval | null;
  /** Parts and pump over all the heat of its life, by the kilowatt-hour; null where it brings none, or may not. */
  readonly price_perkWh: CostInterval | null;
  /**
   * Until it has paid its parts. High is null where the least saving does not pay them within its years, and may never;
   * low, at best, is a number even beyond its years. Null where nothing is saved or the pump costs more in any case.
   */
  readonly payback_years: CostInterval | null;
  /** Over its years, parts taken off; no interest. */
  readonly netValue: Interval | null;
  readonly swimDaysAdded: number;
  /** Compared with a cover by itself; null before that was run. */
  readonly betterBuy: SeasonMoney['betterBuy'] | null;
  readonly cover: SeasonMoney['cover'];
  /** A cover is in use already, and the panel is weighed on top of it. */
  readonly covered: boolean;
}

export interface MoneyPlan {
  readonly currency: string;
  readonly asOf: string | null;
  readonly parts: ShopTotal;
  /** What the panel costs: paid where paid, else by its prices; the season's own figure counts before it. */
  readonly spent: number;
  readonly years: number;
  /** Worth of 1 kWh in the pool by what it replaces, low and high; null when nothing is replaced. */
  readonly heat_perkWh: readonly [number, number] | null;
  readonly replaces: string;
  readonly electricity_perkWh: number;
  /** Of a whole year; null where no season was run, and then only the moment's figures stand. */
  readonly year: MoneyOfYear | null;
  /** Heat of the moment that was studied [kW], extra pump power [kW]; null without a study. */
  readonly heatNow_kW: number | null;
  readonly pump_kW: number | null;
  /** What one kilowatt of heat now costs in parts. */
  readonly price_perkW: number | null;
  /** Hours of such heat until it has paid, at the mean worth less the pump's power; null where it never does. */
  readonly paysAfter_h: number | null;
  /** Least heat for each year of its life so that it pays [kWh]. */
  readonly leastHeat_kWhPerYear: number | null;
  /** Inputs that stand beside every claim. */
  readonly inputs: readonly string[];
  readonly saying: string;
}

export interface MoneyFacts {
  /** Heat into the pool at the moment studied [W]. */
  readonly heatNow_W: number | null;
  /** Pump power over that without the collector, at that moment [W]. */
  readonly extraPump_W: number | null;
  readonly season: SeasonAnswer | null;
  /** Mean air by month, for a heat pump's COP [°C]. */
  readonly air_C: readonly number[];
}

/**
 * What it costs and what its heat is worth, with the inputs beside each claim.
 *
 * Worth of a kilowatt-hour in the pool: price of what it replaces over its efficiency, by month for a heat pump (COP at
 * the month's air, weighted by the month's heat). Net of a year: that worth, or what another heater of the pool burns
 * less, minus extra pump energy. Net value: net × years − parts, without interest.
 */
export function moneyPlan(
  project: Pick<Project, 'prices' | 'season'>,
  parts: ShopTotal,
  facts: MoneyFacts,
): MoneyPlan {
  const { prices, season } = project;
  const currency = prices?.currency ?? 'USD';
  const electricity = prices?.electricity_perkWh ?? demoPricesOf('electricity')[0]?.price ?? 0.16;
  const kind = prices?.replacedHeat?.kind ?? 'none';
  const worth = kind === 'none' ? null : worthOf(project, facts);
  const years = season?.spending?.years ?? YEARS;
  const spent = season?.spending?.collector ?? parts.cost;
  const heatNow_kW = facts.heatNow_W === null ? null : facts.heatNow_W / 1000;
  const pump_kW = facts.extraPump_W === null ? null : facts.extraPump_W / 1000;
  const mean = worth ? (worth[0] + worth[1]) / 2 : 0;
  const gain = worth && heatNow_kW !== null ? mean * heatNow_kW - (pump_kW ?? 0) * electricity : null;
  const year =
    facts.season?.solver.converged === true
      ? yearOf(project, facts.season, worth, electricity, spent, years)
      : null;
  const pays = gain !== null && gain > 0 ? spent / gain : null;
  return {
    currency,
    asOf: prices?.asOf ?? null,
    parts,
    spent,
    years,
    heat_perkWh: worth,
    replaces: kind,
    electricity_perkWh: electricity,
    year,
    heatNow_kW,
    pump_kW,
    price_perkW: heatNow_kW !== null && heatNow_kW > 0 ? spent / heatNow_kW : null,
    paysAfter_h: pays,
    leastHeat_kWhPerYear: mean > 0 ? spent / years / mean : null,
    inputs: inputsOf(project, parts, facts, { currency, electricity, spent, years, worth, year }),
    saying: year
      ? sayingOfYear(year, currency, years, kind)
      : sayingOfMoment(worth !== null, gain, pays, project),
  };
}

/** Low and high worth of 1 kWh in the pool. */
function worthOf(project: Pick<Project, 'prices'>, facts: MoneyFacts): readonly [number, number] | null {
  const replaced = project.prices?.replacedHeat;
  if (!replaced || replaced.kind === 'none') return null;
  const price = replaced.price_perkWh;
  if (replaced.kind !== 'heatPump') {
    const [low, high] = EFFICIENCY[replaced.kind];
    return [price / high, price / low];
  }
  const heat = facts.season?.result.months.map((m) => Math.max(0, m.heat_kWh));
  const total = heat?.reduce((a, b) => a + b, 0) ?? 0;
  // before a year was run every month weighs the same
  const share = (m: number): number => (heat && total > 0 ? heat[m] / total : 1 / 12);
  const mean = facts.air_C.reduce((sum, air, m) => sum + (share(m) * price) / heatPumpCop(air), 0);
  return [mean / (1 + COP_SPREAD), mean / (1 - COP_SPREAD)];
}

function yearOf(
  project: Pick<Project, 'prices' | 'season'>,
  answer: SeasonAnswer,
  worth: readonly [number, number] | null,
  electricity: number,
  spent: number,
  years: number,
): MoneyOfYear {
  const { year, money } = answer.result;
  const band = answer.band.heat_kWh ?? null;
  const [least, most] = band ? [band.low, band.high] : [year.heat_kWh, year.heat_kWh];
  const extraPump = year.extraPump_kWh * electricity;
  const fuel = project.prices?.replacedHeat?.price_perkWh ?? 0;
  // with another heater in the pool only what that burns less is saved
  const burned = year.fuel_kWh.without - year.fuel_kWh.with;
  const unburned = answer.band.fuelSaved_kWh ?? { low: burned, high: burned };
  const saved: Interval | null =
    worth === null
      ? null
      : project.season?.heater
        ? { low: unburned.low * fuel, high: unburned.high * fuel }
        : { low: least * worth[0], high: most * worth[1] };
  const net = saved && { low: saved.low - extraPump, high: saved.high - extraPump };
  const perkWh = (heat: number): number | null => (heat > 0 ? (spent / years + extraPump) / heat : null);
  const cheapest = perkWh(most);
  return {
    heat_kWh: year.heat_kWh,
    heatBand_kWh: band,
    extraPump_kWh: year.extraPump_kWh,
    extraPump,
    saved,
    net,
    price_perkWh: cheapest === null ? null : { low: cheapest, high: perkWh(least) },
    payback_years:
      net && net.high > 0
        ? { low: spent / net.high, high: net.low * years >= spent ? spent / net.low : null }
        : null,
    netValue: net && { low: net.low * years - spent, high: net.high * years - spent },
    swimDaysAdded: year.swimDays.with - year.swimDays.without,
    betterBuy: money?.betterBuy ?? null,
    cover: money?.cover ?? null,
    covered: money?.covered ?? false,
  };
}
