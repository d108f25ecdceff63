import type { Project } from '@sunlap/project/schema/project';
import type { Interval } from '../results';
import { HEATER_WORD } from '../season/assumed';
import type { SeasonMoney } from '../season/values';
import type { CostInterval, MoneyFacts, MoneyOfYear, MoneyPlan } from './money';
import type { ShopTotal } from './shop';

/** Heat over what is paid for it, low and high: gas 0.78–0.84, condensing 0.89–0.95, resistance 1; common practice. */
export const EFFICIENCY: Readonly<Record<string, readonly [number, number]>> = {
  gas: [0.78, 0.84],
  condensingGas: [0.89, 0.95],
  resistance: [1, 1],
};
/** A heat pump's COP by the month's air is known no better than this [–]; judgement. */
export const COP_SPREAD = 0.15;

/** What a year's interval takes in, and what not. */
export const BAND_HOLDS =
  'what is not known of evaporation, shelter, the sky’s long wave, the film in the tubes and the tees; not another year’s weather, nor prices';

/** What stands beside every claim. */
export function inputsOf(
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
          `heat of a year ${Math.round(year.heat_kWh)} kWh${year.heatBand_kWh ? `, ${Math.round(year.heatBand_kWh.low)} to ${Math.round(year.heatBand_kWh.high)} (${BAND_HOLDS})` : ', one run without its band'}, weather of ${facts.season!.result.place}`,
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

/** The verdict of a year in the person's words. */
export function sayingOfYear(year: MoneyOfYear, currency: string, years: number, kind: string): string {
  const whole = (v: number): string => Math.round(v).toLocaleString('en', { useGrouping: 'min2' });
  const heat = `A year brings ${whole(year.heat_kWh)} kWh into the pool${priceOf(year, currency, years)}, and ${year.swimDaysAdded} more swimming days.`;
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
  const pays = paybackWords(year.payback_years!, years);
  const worth =
    year.netValue.high < 0
      ? ` Over ${years} years it loses ${range({ low: -year.netValue.high, high: -year.netValue.low }, whole)} ${currency}.`
      : ` Over ${years} years it leaves ${range(year.netValue, whole)} ${currency}.`;
  return `${heat} It saves ${range(year.net, whole)} ${currency} a year after the pump, and ${pays}.${worth}${buy}`;
}

const range = ({ low, high }: Interval, text: (v: number) => string): string =>
  text(low) === text(high) ? text(low) : `${text(low)} to ${text(high)}`;

function priceOf(year: MoneyOfYear, currency: string, years: number): string {
  const cents = (v: number): string => v.toFixed(2);
  const price = year.price_perkWh;
  if (price === null) return '';
  const { low, high } = price;
  return high === null
    ? `, ${cents(low)} ${currency} or more for each over ${years} years`
    : `, ${range({ low, high }, cents)} ${currency} for each over ${years} years`;
}

/**
 * When it has paid, in words.
 *
 * @example paybackWords({ low: 4, high: null }, 10) // 'pays its parts after 4.0 years at best, at worst not within its 10 years'
 */
export function paybackWords({ low, high }: CostInterval, years: number): string {
  const one = (v: number): string => v.toFixed(1);
  if (high !== null) return `pays its parts after ${range({ low, high }, one)} years`;
  return low > years
    ? `does not pay its parts within its ${years} years: ${one(low)} at best`
    : `pays its parts after ${one(low)} years at best, at worst not within its ${years} years`;
}

/** The verdict of one moment's heat. */
export function sayingOfMoment(
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
