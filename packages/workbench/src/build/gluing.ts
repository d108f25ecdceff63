import { demoPricesOf } from '@sunlap/data/prices';
import { type CementCure, findCementCure, findCementJoints } from '@sunlap/data/solventCement';
import { cementFor } from '@sunlap/engine/building/cement';
import { cheapestPacks } from '@sunlap/engine/building/packs';
import type { Project } from '@sunlap/project/schema/project';
import type { Bag } from './bag';
import type { CompleteOptions } from './options';
import type { ShopLine, ShopPack } from './shop';

/** Joints of one size, and how long they set and cure on the day of gluing. */
export interface GlueSize {
  readonly nominal: string;
  readonly joints: number;
  readonly jointsPerQuart: number | null;
  readonly set_s: number | null;
  readonly cure_s: number | null;
}

export interface Gluing {
  readonly sizes: readonly GlueSize[];
  readonly glued: number;
  readonly dry: number;
  readonly cement_qt: number;
  readonly primer_qt: number;
  /** Longest of the sizes [s]; null when the air is outside the tables. */
  readonly longestSet_s: number | null;
  readonly longestCure_s: number | null;
  /** A small can to work from is advised where much is needed: an open can thickens. */
  readonly workingCan: boolean;
}

/** Size of the table that stands for one without a row: the next larger. */
const LADDER = ['1/2', '3/4', '1', '1-1/4', '1-1/2', '2', '3', '4'];

function jointsPerQuart(nominal: string): number | null {
  const own = findCementJoints(nominal);
  if (own) return own.jointsPerQuart;
  if (nominal === '2-1/2' || nominal === '75') return findCementJoints('3')?.jointsPerQuart ?? null;
  if (nominal === '3/8' || nominal === '16') return findCementJoints(LADDER[0])?.jointsPerQuart ?? null;
  return null;
}

/** Glued joints by size, with cement, primer, set and cure. */
export function gluingOf(bag: Bag, options: CompleteOptions): Gluing {
  const bySize = new Map<string, number>();
  let dry = 0;
  for (const f of bag.fittings) {
    dry += f.dryJoints * f.count;
    for (const j of f.joints) bySize.set(j.nominal, (bySize.get(j.nominal) ?? 0) + j.count * f.count);
  }
  const sizes = [...bySize].map(([nominal, joints]): GlueSize => {
    const cure: CementCure | undefined = findCementCure(nominal, options.glueAir_C);
    return {
      nominal,
      joints,
      jointsPerQuart: jointsPerQuart(nominal),
      set_s: cure?.set_s ?? null,
      cure_s: cure?.cureLow_s ?? null,
    };
  });
  const need = cementFor(
    sizes.map((s) => ({ joints: s.joints, perQuart: s.jointsPerQuart ?? 40 })),
    options.cementWaste,
  );
  const longest = (values: (number | null)[]): number | null =>
    values.length === 0 || values.includes(null) ? null : Math.max(...values.map((v) => v ?? 0));
  return {
    sizes,
    glued: sizes.reduce((sum, s) => sum + s.joints, 0),
    dry,
    cement_qt: need.cement_qt,
    primer_qt: options.primer ? need.primer_qt : 0,
    longestSet_s: longest(sizes.map((s) => s.set_s)),
    longestCure_s: longest(sizes.map((s) => s.cure_s)),
    workingCan: need.cement_qt > 1,
  };
}

/** Sizes of can in half pints; four half pints are a US quart. */
const CANS = [
  { part: 'half-pint', holds: 1, word: 'half a pint' },
  { part: 'pint', holds: 2, word: 'pint' },
  { part: 'quart', holds: 4, word: 'quart' },
  { part: 'gallon', holds: 16, word: 'gallon' },
] as const;

/** Cans of cement and primer, cheapest for what is needed. */
export function glueLines(gluing: Gluing, project: Pick<Project, 'prices' | 'stock'>): ShopLine[] {
  return [
    canLine('cement', 'Solvent cement', gluing.cement_qt, project),
    canLine('primer', 'Primer', gluing.primer_qt, project),
  ].flatMap((line) => (line ? [line] : []));
}

function canLine(
  what: 'cement' | 'primer',
  word: string,
  quarts: number,
  project: Pick<Project, 'prices' | 'stock'>,
): ShopLine | null {
  if (!(quarts > 0)) return null;
  const needed = Math.ceil(quarts * 4 - 1e-9);
  const held = (project.stock?.parts ?? []).reduce((sum, row) => {
    const can = CANS.find((c) => row.part === `${what}-${c.part}`);
    return sum + (can ? can.holds * row.count : 0);
  }, 0);
  const rows = project.prices?.parts ?? [];
  const offers = CANS.flatMap((can) => {
    const part = `${what}-${can.part}`;
    const own = rows.find((row) => row.part === part);
    const price = own?.price ?? demoPricesOf(part)[0]?.price;
    return price === undefined
      ? []
      : [
          {
            holds: can.holds,
            price,
            word: can.word,
            from: own?.price === undefined ? ('demo' as const) : ('own' as const),
            part,
          },
        ];
  });
  const toBuy = Math.max(0, needed - held);
  const choice = cheapestPacks(toBuy, offers);
  const packs: ShopPack[] = choice
    ? offers.flatMap((o, j) => (choice.packs[j] > 0 ? [{ ...o, count: choice.packs[j] }] : []))
    : [];
  const own = rows.filter((row) => row.part === what || row.part.startsWith(`${what}-`));
  const words = choice
    ? offers
        .flatMap((o, j) => (choice.packs[j] > 0 ? [`${choice.packs[j]} × ${o.word}`] : []))
        .reverse()
        .join(' + ')
    : '';
  return {
    id: what,
    part: what,
    label: words === '' ? word : `${word}, ${words}`,
    group: 'cement',
    unit: 'half pints',
    needed,
    spares: 0,
    onHand: held,
    toBuy,
    packs,
    price: choice ? choice.price : null,
    priceFrom: offers.length === 0 ? 'none' : offers.some((o) => o.from === 'own') ? 'own' : 'demo',
    left: choice ? choice.left : 0,
    bought: own.find((row) => row.bought !== undefined)?.bought ?? null,
    paid: own.find((row) => row.paid !== undefined)?.paid ?? null,
  };
}
