import { demoPricesOf } from '@sunlap/data/prices';
import type { Project } from '@sunlap/project/schema/project';
import { HEATER_EFFICIENCY, HEATER_WORD, heatPumpCop } from './assumed';
import { meanAirByMonth } from './drivers';
import type { Study } from './study';
import { meanOver, type SeasonChange, type SeasonMoney, type SeasonValues, swimMonthsOf } from './values';

/** Years that plastic pipe in the sun, and a cover, are counted with; common practice. */
const YEARS = 10;
const COVER_YEARS = 4;
/** A bubble cover by the square metre [USD]; invented and rounded. */
const COVER_PRICE_M2 = 5;
/** Less than this many more days, or hardly any money, is nothing [d]; judgement. */
const FEW_DAYS = 5;

export interface MoneyOptions {
  /** What the panel costs, from the parts list; the file's own figure counts before it. */
  readonly collectorPrice?: number | null;
}

/**
 * What a year's heat is worth and whether the panel, a cover or nothing is the better buy.
 *
 * Worth of a kilowatt-hour in the pool: price of what it replaces over its efficiency, by month for a heat pump
 * (COP at the month's air). Where the project has another heater, what it burns less counts; else all heat that
 * the collector brings. Extra pump energy is taken off.
 *
 * A cover's warmth is valued as the panel's: where no other heater burns less, it is worth what the panel's heat is
 * worth that warms the water as much through the months of swimming.
 */
export function seasonMoney(
  project: Project,
  study: Study,
  values: SeasonValues,
  changes: readonly SeasonChange[],
  options: MoneyOptions = {},
): SeasonMoney {
  const { prices, season } = project;
  const currency = prices?.currency ?? 'USD';
  const electricity = prices?.electricity_perkWh ?? demoPricesOf('electricity')[0]?.price ?? 0.16;
  const replaced = prices?.replacedHeat;
  const kind = replaced?.kind ?? 'none';
  const air = meanAirByMonth(study.weather.series);
  const worth = (m: number): number | null => {
    if (!replaced || replaced.kind === 'none') return null;
    const eta = replaced.kind === 'heatPump' ? heatPumpCop(air[m]) : HEATER_EFFICIENCY[replaced.kind];
    return replaced.price_perkWh / eta;
  };
  const heater = season?.heater !== undefined;
  const fuelPrice = replaced && replaced.kind !== 'none' ? replaced.price_perkWh : null;
  let saved: number | null = null;
  if (heater && fuelPrice !== null) {
    saved = (values.year.fuel_kWh.without - values.year.fuel_kWh.with) * fuelPrice;
  } else if (!heater && worth(0) !== null) {
    saved = values.months.reduce((sum, m, k) => sum + m.heat_kWh * (worth(k) ?? 0), 0);
  }
  const pump = values.year.extraPump_kWh * electricity;
  const net = saved === null ? null : saved - pump;
  const years = season?.spending?.years ?? YEARS;
  const spent = season?.spending?.collector ?? options.collectorPrice ?? null;
  const change = changes.find((c) => c.kind === 'cover') ?? null;
  const coverSpent = season?.spending?.cover ?? COVER_PRICE_M2 * study.pool.surface_m2;
  const coverSaved = !change
    ? null
    : heater
      ? fuelPrice === null
        ? null
        : change.fuelSaved_kWh.without * fuelPrice
      : worthOfWarmth(saved, warmerByPanel(project, study), change.warmer_K.without);
  const cover = change
    ? {
        spent: coverSpent,
        savedPerYear: coverSaved,
        netValue:
          coverSaved === null ? null : coverSaved * years - coverSpent * Math.ceil(years / COVER_YEARS),
        swimDaysAdded: change.swimDaysAdded.without,
      }
    : null;
  const days = values.year.swimDays.with - values.year.swimDays.without;
  const netValue = net === null || spent === null ? null : net * years - spent;
  const covered = season?.cover !== undefined;
  const { better, rests } = betterBuy(days, spent, years, netValue, cover, covered);
  const payback = net !== null && spent !== null && net > 0 ? spent / net : null;
  return {
    currency,
    replaces: kind,
    heat_perkWh: meanWorth(values, worth),
    electricity_perkWh: electricity,
    savedPerYear: saved,
    extraPumpPerYear: pump,
    netPerYear: net,
    spent,
    years,
    payback_years: payback,
    netValue,
    cover,
    covered,
    betterBuy: better,
    saying: `${sayingOf(better, rests, days, cover, net, kind, covered)}${yearWords(net, payback, currency)}`,
    inputs: [
      spent === null ? 'price of the panel not given' : `panel ${spent.toFixed(0)} ${currency}`,
      ...(cover
        ? [
            `cover ${cover.spent.toFixed(0)} ${currency}${season?.spending?.cover === undefined ? ' (invented price)' : ''}, ${COVER_YEARS} years`,
          ]
        : []),
      `electricity ${electricity.toFixed(3)} ${currency}/kWh${prices?.electricity_perkWh === undefined ? ' (invented price)' : ''}`,
      ...(replaced && replaced.kind !== 'none'
        ? [
            `replaces ${HEATER_WORD[replaced.kind]} at ${replaced.price_perkWh.toFixed(3)} ${currency}/kWh, ${replaced.kind === 'heatPump' ? 'COP by the month’s air' : `efficiency ${HEATER_EFFICIENCY[replaced.kind]}`}`,
          ]
        : []),
      heater ? 'saved: what the other heater burns less' : 'saved: all heat the panel brings',
      ...(!heater && coverSaved !== null
        ? ['a cover’s warmth: worth the panel’s heat that warms as much in the months of swimming']
        : []),
      `${years} years of life`,
    ],
  };
}

function meanWorth(values: SeasonValues, worth: (m: number) => number | null): number | null {
  const heat = values.months.map((m) => Math.max(0, m.heat_kWh));
  const total = heat.reduce((a, b) => a + b, 0);
  if (worth(0) === null) return null;
  return total > 0 ? heat.reduce((s, h, m) => s + h * (worth(m) ?? 0), 0) / total : worth(6);
}

/** Less than this is no warmth to value another by [K]. */
const LEAST_WARMER_K = 0.05;

/** What the panel warms the water by in the months of swimming [K]. */
function warmerByPanel(project: Project, { year }: Study): number {
  const months = swimMonthsOf(project);
  return meanOver(year.with, year.month_s, months) - meanOver(year.without, year.month_s, months);
}

/**
 * Worth of a warmth by what the panel's is worth; null where the panel warms too little to tell.
 *
 * @example worthOfWarmth(400, 4, 2) // 200
 */
export function worthOfWarmth(
  panelSaved: number | null,
  panelWarmer_K: number,
  warmer_K: number,
): number | null {
  if (panelSaved === null || !(panelWarmer_K >= LEAST_WARMER_K)) return null;
  return (panelSaved * Math.max(0, warmer_K)) / panelWarmer_K;
}

/** What the better buy is judged by. */
type Rests = 'money' | 'dayPrice' | 'days' | null;

/** The better buy, and what that rests on. */
export function betterBuy(
  days: number,
  spent: number | null,
  years: number,
  netValue: number | null,
  cover: SeasonMoney['cover'],
  covered: boolean,
): { better: SeasonMoney['betterBuy']; rests: Rests } {
  const pays = netValue !== null && netValue > 0;
  // the cover is there: what remains to be weighed is the panel on top of it
  if (covered) return { better: pays || days >= FEW_DAYS ? 'collector' : 'nothing', rests: null };
  const coverPays = cover !== null && cover.netValue !== null && cover.netValue > 0;
  if (days < FEW_DAYS && (cover?.swimDaysAdded ?? 0) < FEW_DAYS && !pays && !coverPays)
    return { better: 'nothing', rests: null };
  if (!cover) return { better: 'collector', rests: null };
  if (netValue !== null && cover.netValue !== null)
    return { better: netValue >= cover.netValue ? 'collector' : 'cover', rests: 'money' };
  if (spent === null) return { better: cover.swimDaysAdded >= days ? 'cover' : 'unknown', rests: 'days' };
  // price of a swimming day over the years
  const price = (cost: number, each: number): number => (each > 0 ? cost / (years * each) : Infinity);
  const coverCost = cover.spent * Math.ceil(years / COVER_YEARS);
  const better = price(coverCost, cover.swimDaysAdded) < price(spent, days) ? 'cover' : 'collector';
  return { better, rests: 'dayPrice' };
}

function yearWords(net: number | null, payback: number | null, currency: string): string {
  if (net === null || net <= 0) return '';
  const pays = payback === null ? '' : `, and pays the panel after ${payback.toFixed(1)} years`;
  return ` A year leaves ${Math.round(net)} ${currency} after the pump${pays}.`;
}

function sayingOf(
  better: SeasonMoney['betterBuy'],
  rests: Rests,
  days: number,
  cover: SeasonMoney['cover'],
  net: number | null,
  kind: string,
  covered: boolean,
): string {
  const panel = `The panel adds ${days} swimming days a year${covered ? ' to those with the cover' : ''}`;
  const other = cover
    ? `, ${covered ? 'which by itself adds' : 'a cover by itself'} ${cover.swimDaysAdded}`
    : '';
  const money =
    kind === 'none'
      ? ' It replaces no bought heat: what it gives is warmth, not money.'
      : net !== null && net <= 0
        ? ' The pump’s extra power costs more than the heat it brings is worth.'
        : '';
  const by = {
    money: ' by what each leaves over the years',
    dayPrice: ' by the price of a swimming day',
    days: ' by its swimming days',
  };
  const judged = rests ? by[rests] : '';
  const verdict = {
    collector: covered ? '' : ` The panel is the better buy${judged}.`,
    cover: ` The cover is the better buy${judged}: begin with it.`,
    nothing: covered
      ? ' Beside the cover it is not worth its money here.'
      : ' Neither is worth its money here.',
    unknown: ' Give the panel’s price to compare them.',
  }[better];
  return `${panel}${other}.${money}${verdict}`;
}
