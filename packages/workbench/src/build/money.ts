import { demoPricesOf } from '@sunlap/data/prices';
import type { Project } from '@sunlap/project/schema/project';
import type { ShopTotal } from './shop';

/** Heat over what is paid for it, low and high: gas 0.78–0.84, condensing 0.89–0.95, resistance 1; heat pump by air. */
const EFFICIENCY: Record<string, readonly [number, number]> = {
  gas: [0.78, 0.84],
  condensingGas: [0.89, 0.95],
  resistance: [1, 1],
  heatPump: [4, 6],
};

/** Years that plastic pipe in the sun is counted with when nobody says otherwise; common practice. */
export const YEARS = 10;

export interface MoneyPlan {
  readonly currency: string;
  readonly asOf: string | null;
  readonly parts: ShopTotal;
  /** Worth of 1 kWh in the pool by what it replaces, low and high; null when nothing is replaced. */
  readonly heat_perkWh: readonly [number, number] | null;
  readonly replaces: string;
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

/**
 * What it costs and what its heat is worth, with the inputs beside each claim.
 *
 * @param heatNow_W heat into the pool at the moment studied
 * @param pump_W    pump power that runs for the collector alone
 */
export function moneyPlan(
  project: Pick<Project, 'prices' | 'season'>,
  parts: ShopTotal,
  heatNow_W: number | null,
  pump_W: number | null,
): MoneyPlan {
  const prices = project.prices;
  const currency = prices?.currency ?? 'USD';
  const electricity = prices?.electricity_perkWh ?? demoPricesOf('electricity')[0]?.price ?? 0.16;
  const kind = prices?.replacedHeat?.kind ?? 'none';
  const fuel = prices?.replacedHeat?.price_perkWh ?? 0;
  const eta = EFFICIENCY[kind];
  const worth: readonly [number, number] | null = eta ? [fuel / eta[1], fuel / eta[0]] : null;
  const heatNow_kW = heatNow_W === null ? null : heatNow_W / 1000;
  const pump_kW = pump_W === null ? null : pump_W / 1000;
  const gainPerHour =
    worth && heatNow_kW !== null
      ? ((worth[0] + worth[1]) / 2) * heatNow_kW - (pump_kW ?? 0) * electricity
      : null;
  const pays = gainPerHour !== null && gainPerHour > 0 ? parts.price / gainPerHour : null;
  const mean = worth ? (worth[0] + worth[1]) / 2 : 0;
  const inputs = [
    `parts ${parts.price.toFixed(2)} ${currency}${parts.demo > 0 ? `, ${parts.demo} lines at demo prices` : ''}${parts.unpriced > 0 ? `, ${parts.unpriced} lines without a price` : ''}`,
    `electricity ${electricity.toFixed(3)} ${currency}/kWh`,
    ...(worth
      ? [`replaces ${kind} at ${fuel.toFixed(3)} ${currency}/kWh, efficiency or COP ${eta[0]} to ${eta[1]}`]
      : []),
    ...(heatNow_kW !== null ? [`heat now ${heatNow_kW.toFixed(2)} kW`] : []),
    `${YEARS} years of life`,
  ];
  return {
    currency,
    asOf: prices?.asOf ?? null,
    parts,
    heat_perkWh: worth,
    replaces: kind,
    heatNow_kW,
    pump_kW,
    price_perkW: heatNow_kW !== null && heatNow_kW > 0 ? parts.price / heatNow_kW : null,
    paysAfter_h: pays,
    leastHeat_kWhPerYear: mean > 0 ? parts.price / YEARS / mean : null,
    inputs,
    saying: sayingOf(worth, gainPerHour, pays, project),
  };
}

function sayingOf(
  worth: readonly [number, number] | null,
  gain: number | null,
  pays: number | null,
  project: Pick<Project, 'season'>,
): string {
  const cover = project.season?.cover ? '' : ' A cover usually costs less for each degree: compare it first.';
  if (!worth)
    return `It replaces no bought heat: what it gives is warmth and a longer season, not money.${cover}`;
  if (gain === null) return `Heat is worth its price only over a year: see the season.${cover}`;
  if (pays === null)
    return `At this moment the pump’s extra power costs more than the heat is worth: do not run it so.${cover}`;
  return `At heat like this it has paid its parts after ${Math.round(pays)} hours of such sun.${cover}`;
}
