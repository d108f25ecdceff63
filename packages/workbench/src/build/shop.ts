import { demoPricesOf } from '@sunlap/data/prices';
import { cheapestPacks } from '@sunlap/engine/building/packs';
import type { Project } from '@sunlap/project/schema/project';
import type { Bag, PartKind } from './bag';
import type { CutSheet } from './cutting';
import type { CompleteOptions } from './options';

/** Where in the shop a thing lies; the list is in this order. */
export const SHOP_ORDER = ['pipe', 'fittings', 'valves', 'cement', 'supports', 'other'] as const;
export type ShopGroup = (typeof SHOP_ORDER)[number];

/** A pack as sold, and how many of it to buy. */
export interface ShopPack {
  readonly holds: number;
  readonly price: number;
  readonly count: number;
  readonly from: 'own' | 'demo';
  /** Where it goes by another name than its line: a can. */
  readonly part?: string;
}

/** One line of the shop list. */
export interface ShopLine {
  /** Stable, for ticking off. */
  readonly id: string;
  readonly part: string;
  readonly label: string;
  readonly group: ShopGroup;
  readonly unit: string;
  /** Of a stick or coil [m]. */
  readonly length_m?: number;
  readonly needed: number;
  readonly spares: number;
  readonly onHand: number;
  /** Singly, spares included, after what is on hand. */
  readonly toBuy: number;
  readonly packs: readonly ShopPack[];
  /** Of the packs; null where nobody gave a price. */
  readonly price: number | null;
  readonly priceFrom: 'own' | 'demo' | 'none';
  readonly left: number;
  /** The person's own: how many are bought, what was paid. */
  readonly bought: number | null;
  readonly paid: number | null;
}

const GROUP: Record<PartKind, ShopGroup> = {
  tee: 'fittings',
  elbow90: 'fittings',
  elbow45: 'fittings',
  sweep90: 'fittings',
  coupling: 'fittings',
  reducer: 'fittings',
  bush: 'fittings',
  cap: 'fittings',
  union: 'fittings',
  adapter: 'fittings',
  clamp: 'fittings',
  valve: 'valves',
  checkValve: 'valves',
  diverter: 'valves',
  vent: 'valves',
  breaker: 'valves',
  cock: 'valves',
  absorber: 'other',
  device: 'other',
  wallFitting: 'other',
  support: 'supports',
  fastener: 'supports',
  member: 'supports',
  tape: 'valves',
  cement: 'cement',
  primer: 'cement',
};

/** Kinds of which a few go wrong: a spare costs less than a second trip. */
const SPARED: ReadonlySet<PartKind> = new Set<PartKind>([
  'tee',
  'elbow90',
  'elbow45',
  'coupling',
  'reducer',
  'cap',
  'adapter',
  'clamp',
  'support',
  'fastener',
]);

interface Offer {
  holds: number;
  price: number;
  from: 'own' | 'demo';
}

/** How a part is sold: the person's own rows, and the demo rows of packs that these neither price nor say are not to be had. */
function offersOf(part: string, project: Pick<Project, 'prices'>): Offer[] {
  const rows = (project.prices?.parts ?? []).filter((row) => row.part === part);
  const own = rows.flatMap((row): Offer[] =>
    row.price !== undefined && !row.notSold
      ? [{ holds: row.packOf ?? 1, price: row.price, from: 'own' }]
      : [],
  );
  const gone = new Set([
    ...own.map((o) => o.holds),
    ...rows.flatMap((r) => (r.notSold ? [r.packOf ?? 1] : [])),
  ]);
  const others = demoPricesOf(part).flatMap(({ packOf = 1, price }): Offer[] =>
    gone.has(packOf) ? [] : [{ holds: packOf, price, from: 'demo' }],
  );
  return [...own, ...others];
}

/** What the list needs to know of one part. */
interface Need {
  part: string;
  label: string;
  kind: PartKind;
  count: number;
}

/** Parts of the bag, alike ones together. */
export function partCounts(bag: Bag): Need[] {
  const byPart = new Map<string, Need>();
  for (const f of bag.fittings) {
    const need = byPart.get(f.part);
    if (need) need.count += f.count;
    else byPart.set(f.part, { part: f.part, label: f.label, kind: f.kind, count: f.count });
  }
  return [...byPart.values()];
}

/**
 * Shop list in shop order: pipe as the cutting plans buy it, then parts in their cheapest packs with spares, after what is
 * on hand.
 */
export function shopList(
  bag: Bag,
  sheets: readonly CutSheet[],
  project: Pick<Project, 'prices' | 'stock'>,
  options: CompleteOptions,
): ShopLine[] {
  const lines: ShopLine[] = [...pipeLines(sheets, project)];
  for (const need of partCounts(bag)) {
    // a bell end comes with its stick
    if (need.part.startsWith('bellEnd-')) continue;
    lines.push(partLine(need, project, options));
  }
  return lines.sort(
    (a, b) =>
      SHOP_ORDER.indexOf(a.group) - SHOP_ORDER.indexOf(b.group) || a.label.localeCompare(b.label, 'en'),
  );
}

function partLine(
  need: Need,
  project: Pick<Project, 'prices' | 'stock'>,
  options: CompleteOptions,
): ShopLine {
  const { part, label, kind, count } = need;
  const spares = SPARED.has(kind) ? Math.ceil(count * options.spares) : 0;
  const onHand = (project.stock?.parts ?? [])
    .filter((row) => row.part === part)
    .reduce((sum, row) => sum + row.count, 0);
  const toBuy = Math.max(0, count + spares - onHand);
  const offers = offersOf(part, project);
  const choice = cheapestPacks(toBuy, offers);
  const own = (project.prices?.parts ?? []).filter((row) => row.part === part);
  const packs = choice
    ? offers.flatMap((o, j) => (choice.packs[j] > 0 ? [{ ...o, count: choice.packs[j] }] : []))
    : [];
  const bought = own.find((row) => row.bought !== undefined)?.bought ?? null;
  return {
    id: part,
    part,
    label,
    group: GROUP[kind],
    unit: 'pcs',
    needed: count,
    spares,
    onHand,
    toBuy,
    packs,
    price: choice ? choice.price : toBuy === 0 ? 0 : null,
    priceFrom:
      offers.length === 0
        ? 'none'
        : (packs.length > 0 ? packs : offers).some((o) => o.from === 'demo')
          ? 'demo'
          : 'own',
    left: choice ? choice.left + Math.max(0, onHand - count - spares) : 0,
    bought,
    paid: own.find((row) => row.paid !== undefined)?.paid ?? null,
  };
}

function pipeLines(sheets: readonly CutSheet[], project: Pick<Project, 'prices'>): ShopLine[] {
  return sheets.flatMap((sheet) =>
    sheet.stocks.flatMap((stock, j): ShopLine[] => {
      const count = sheet.plan.bars.filter((b) => b.stock === j).reduce((sum, b) => sum + b.bars, 0);
      if (count === 0 || stock.from === 'onHand') return [];
      const own = (project.prices?.parts ?? []).filter(
        (row) =>
          row.part === sheet.pipe &&
          (row.stockLength_m === undefined || Math.abs(row.stockLength_m - stock.length_m) < 1e-3),
      );
      return [
        {
          id: `${sheet.pipe}@${stock.length_m}`,
          part: sheet.pipe,
          label: sheet.label,
          group: 'pipe',
          unit: stock.per,
          length_m: stock.length_m,
          needed: count,
          spares: 0,
          onHand: 0,
          toBuy: count,
          packs:
            stock.shopPrice === null || stock.from === 'assumed'
              ? []
              : [{ holds: 1, price: stock.shopPrice, count, from: stock.from === 'own' ? 'own' : 'demo' }],
          price: stock.shopPrice === null ? null : stock.shopPrice * count,
          priceFrom: stock.from === 'own' ? 'own' : stock.from === 'demo' ? 'demo' : 'none',
          left: 0,
          bought: own.find((row) => row.bought !== undefined)?.bought ?? null,
          paid: own.find((row) => row.paid !== undefined)?.paid ?? null,
        },
      ];
    }),
  );
}

/** Packs of a line that is not sold singly, and what is left of them: `2 × 10, left 3`; cans say theirs in the label. */
export function packsText(line: ShopLine): string {
  if (line.group === 'cement' || !line.packs.some((p) => p.holds > 1)) return '';
  const packs = [...line.packs].sort((a, b) => b.holds - a.holds).map((p) => `${p.count} × ${p.holds}`);
  return `${packs.join(' + ')}${line.left > 0 ? `, left ${line.left}` : ''}`;
}

export interface ShopTotal {
  /** Lines with a price. */
  readonly price: number;
  /** Lines without one. */
  readonly unpriced: number;
  /** Lines at demo prices. */
  readonly demo: number;
  readonly paid: number;
  /** What it comes to: as paid where it is paid, else by its price. */
  readonly cost: number;
  /** What is still to be paid: priced lines that are not bought. */
  readonly open: number;
}

export function shopTotal(lines: readonly ShopLine[]): ShopTotal {
  let price = 0;
  let unpriced = 0;
  let demo = 0;
  let paid = 0;
  let cost = 0;
  let open = 0;
  for (const line of lines) {
    if (line.price === null) unpriced++;
    price += line.price ?? 0;
    if (line.priceFrom === 'demo' && line.toBuy > 0) demo++;
    paid += line.paid ?? 0;
    cost += line.paid ?? line.price ?? 0;
    if (!((line.bought ?? 0) >= line.toBuy)) open += line.price ?? 0;
  }
  return { price, unpriced, demo, paid, cost, open };
}
