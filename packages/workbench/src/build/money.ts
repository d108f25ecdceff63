import { demoPricesOf } from '@sunlap/data/prices';
import type { Project } from '@sunlap/project/schema/project';
import type { Interval } from '../results';
import { HEATER_WORD, heatPumpCop } from '../season/assumed';
import type { SeasonAnswer, SeasonMoney } from '../season/values';
import type { ShopTotal } from './shop';

/** Heat over what is paid for it, low and high: gas 0.78–0.84, condensing 0.89–0.95, resistance 1; common practice. */
const EFFICIENCY: Readonly<Record<string, readonly [number, number]>> = {
  gas: [0.78, 0.84],
  condensingGas: [0.89, 0.95],
  resistance: [1, 1],
};
/** A heat pump's COP by the month's air is known no better than this [–]; judgement. */
const COP_SPREAD = 0.15;

/** Years that plastic pipe in the sun is counted with when nobody says otherwise; common practice. */
export const YEARS = 10;

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
  /** Parts and pump over all the heat of its life, by the kilowatt-hour. */
  readonly price_perkWh: Interval;
  /** Until it has paid its parts; high is Infinity where the least saving never does. */
  readonly payback_years: Interval | null;
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
  const saved: Interval | null =
    worth === null
      ? null
      : project.season?.heater
        ? { low: burned * fuel, high: burned * fuel }
        : { low: least * worth[0], high: most * worth[1] };
  const net = saved && { low: saved.low - extraPump, high: saved.high - extraPump };
  const perkWh = (heat: number): number =>
    heat > 0 ? (spent / years + extraPump) / heat : Number.POSITIVE_INFINITY;
  const payback = (gain: number): number => (gain > 0 ? spent / gain : Number.POSITIVE_INFINITY);
  return {
    heat_kWh: year.heat_kWh,
    heatBand_kWh: band,
    extraPump_kWh: year.extraPump_kWh,
    extraPump,
    saved,
    net,
    price_perkWh: { low: perkWh(most), high: perkWh(least) },
    payback_years: net && net.high > 0 ? { low: payback(net.high), high: payback(net.low) } : null,
    netValue: net && { low: net.low * years - spent, high: net.high * years - spent },
    swimDaysAdded: year.swimDays.with - year.swimDays.without,
    betterBuy: money?.betterBuy ?? null,
    cover: money?.cover ?? null,
    covered: money?.covered ?? false,
  };
}

function inputsOf(
  project: Pick<Project, 'prices' | 'season'>,
  parts: ShopTotal,
  facts: MoneyFacts,
  of: Pick<MoneyPlan, 'currency' | 'spent' | 'years' | 'year'> & {
    electricity: number;
    worth: readonly [number, number] | null;
  },
): string[] {
  const { prices, season } = project;
  const { currency, year } = of;
  const replaced = prices?.replacedHeat;
  const own = season?.spending?.collector !== undefined;
  return [
    own
      ? `the panel ${of.spent.toFixed(2)} ${currency}, as typed; the parts list comes to ${parts.cost.toFixed(2)} ${currency}`
      : `parts ${parts.cost.toFixed(2)} ${currency}${parts.demo > 0 ? `, ${parts.demo} lines at demo prices${atPar(currency)}` : ''}${parts.unpriced > 0 ? `, ${parts.unpriced} lines without a price` : ''}`,
    `electricity ${of.electricity.toFixed(3)} ${currency}/kWh${prices?.electricity_perkWh === undefined ? ', a demo price' : ''}`,
    ...(replaced && replaced.kind !== 'none'
      ? [
          `replaces ${HEATER_WORD[replaced.kind]} at ${replaced.price_perkWh.toFixed(3)} ${currency}/kWh, ${
            replaced.kind === 'heatPump'
              ? `COP by the month’s air, within ${Math.round(100 * COP_SPREAD)} %`
              : `efficiency ${EFFICIENCY[replaced.kind].join(' to ')}`
          }`,
        ]
      : ['no bought heat is replaced']),
    ...(year
      ? [
          `heat of a year ${Math.round(year.heat_kWh)} kWh${year.heatBand_kWh ? `, ${Math.round(year.heatBand_kWh.low)} to ${Math.round(year.heatBand_kWh.high)}` : ', one run without its band'}, weather of ${facts.season!.result.place}`,
          `extra pump energy of a year ${Math.round(year.extraPump_kWh)} kWh`,
          ...(season?.heater ? ['saved: what the pool’s other heater burns less'] : []),
          ...(year.cover
            ? [
                `a cover ${year.cover.spent.toFixed(0)} ${currency}${season?.spending?.cover === undefined ? ', a demo price' : ''}`,
              ]
            : []),
        ]
      : []),
    ...(facts.heatNow_W !== null
      ? [
          `heat now ${(facts.heatNow_W / 1000).toFixed(2)} kW${facts.extraPump_W !== null ? `, extra pump power ${Math.round(facts.extraPump_W)} W` : ''}`,
        ]
      : []),
    `${of.years} years of life${season?.spending?.years === undefined ? ' (common practice)' : ''}, no interest`,
  ];
}

/** Demo prices are in US dollars; nobody asks a bank here. */
const atPar = (currency: string): string => (currency === 'USD' ? '' : ' (US dollars, taken one for one)');

const BUY: Record<SeasonMoney['betterBuy'], string> = {
  collector: ' Against a cover by itself the panel is the better buy.',
  cover: ' A cover by itself is the better buy: begin with it.',
  nothing: ' Neither panel nor cover is worth its money here.',
  unknown: '',
};

const COVERED: typeof BUY = {
  ...BUY,
  collector: ' All this on top of the cover that is in use.',
  nothing: ' Beside the cover that is in use the panel is not worth its money here.',
};

function sayingOfYear(year: MoneyOfYear, currency: string, years: number, kind: string): string {
  const whole = (v: number): string => Math.round(v).toLocaleString('en');
  const range = ({ low, high }: Interval, text: (v: number) => string): string =>
    text(low) === text(high) ? text(low) : `${text(low)} to ${text(high)}`;
  const heat = `A year brings ${whole(year.heat_kWh)} kWh into the pool, ${range(year.price_perkWh, (v) => v.toFixed(2))} ${currency} for each over ${years} years, and ${year.swimDaysAdded} more swimming days.`;
  const buy =
    year.betterBuy === null
      ? ' A cover was not compared: see the season.'
      : year.covered
        ? COVERED[year.betterBuy]
        : BUY[year.betterBuy];
  if (kind === 'none' || !year.net || !year.netValue)
    return `${heat} It replaces no bought heat: what it gives is warmth, not money.${buy}`;
  if (year.net.high <= 0)
    return `${heat} The pump’s extra power costs more than what is saved: it never pays.${buy}`;
  const { low, high } = year.payback_years!;
  const pays =
    high === Number.POSITIVE_INFINITY
      ? `pays its parts after ${low.toFixed(1)} years at best, perhaps never`
      : `pays its parts after ${range({ low, high }, (v) => v.toFixed(1))} years`;
  const worth =
    year.netValue.high < 0
      ? ` Over ${years} years it loses ${range({ low: -year.netValue.high, high: -year.netValue.low }, whole)} ${currency}.`
      : ` Over ${years} years it leaves ${range(year.netValue, whole)} ${currency}.`;
  return `${heat} It saves ${range(year.net, whole)} ${currency} a year after the pump, and ${pays}.${worth}${buy}`;
}

function sayingOfMoment(
  replaces: boolean,
  gain: number | null,
  pays: number | null,
  project: Pick<Project, 'season'>,
): string {
  const cover = project.season?.cover ? '' : ' A cover usually costs less for each degree: compare it first.';
  if (!replaces)
    return `It replaces no bought heat: what it gives is warmth and a longer season, not money. No year was run here: see the season.${cover}`;
  if (gain === null) return `Heat is worth its price only over a year: see the season.${cover}`;
  if (pays === null)
    return `At this moment the pump’s extra power costs more than the heat is worth: do not run it so.${cover}`;
  return `Of this moment only: heat like now would pay the parts after ${Math.round(pays)} hours of such sun. No year was run: see the season for what a year brings.${cover}`;
}
