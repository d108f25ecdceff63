import type { Project } from '@sunlap/project/schema/project';
import type { Prices } from '@sunlap/project/schema/stock';

export interface PricesChange {
  kind?: NonNullable<Prices['replacedHeat']>['kind'];
  price_perkWh?: number;
  /** Null goes back to the demo value. */
  electricity_perkWh?: number | null;
}

/** What heat and power cost the person. The fuel's price stays when its kind changes; `none` forgets both. */
export function setPrices(project: Project, change: PricesChange, day: string): Project {
  const { replacedHeat, electricity_perkWh, ...prices } = project.prices ?? {
    currency: 'USD',
    asOf: day,
    parts: [],
  };
  const kind = change.kind ?? replacedHeat?.kind ?? 'none';
  const price_perkWh = change.price_perkWh ?? replacedHeat?.price_perkWh ?? 0;
  const power = change.electricity_perkWh === undefined ? electricity_perkWh : change.electricity_perkWh;
  return {
    ...project,
    prices: {
      ...prices,
      asOf: day,
      ...(power === undefined || power === null ? {} : { electricity_perkWh: power }),
      ...(kind === 'none' ? {} : { replacedHeat: { kind, price_perkWh } }),
    },
  };
}
