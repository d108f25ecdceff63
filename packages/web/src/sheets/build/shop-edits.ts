import type { Project } from '@sunlap/project/schema/project';
import type { Prices } from '@sunlap/project/schema/stock';
import type { BuildValues } from '@sunlap/workbench/build/build';
import { type ShopLine, type ShopPack, shopTotal } from '@sunlap/workbench/build/shop';
import { dropEmpty, near, withRows } from './stock';

type PriceRow = Prices['parts'][number];

const { isFinite: finite } = Number;

/** The person's own price of one pack; null goes back to the demo's. */
export function setPrice(
  project: Project,
  line: ShopLine,
  pack: Pick<ShopPack, 'holds' | 'part'>,
  price: number | null,
  day: string,
): Project {
  const part = pack.part ?? line.part;
  // a can is a part of its own; other packs are told apart by what they hold
  const packOf = pack.part === undefined && pack.holds > 1 ? pack.holds : undefined;
  const mine = (row: PriceRow): boolean =>
    row.part === part && (row.packOf ?? 1) === (packOf ?? 1) && near(row.stockLength_m, line.length_m);
  return withRows(project, day, (rows) => {
    const at = rows.findIndex(mine);
    if (at >= 0)
      return rows
        .map((row, i) =>
          i === at ? { ...row, price: price !== null && finite(price) ? price : undefined } : row,
        )
        .map(dropEmpty);
    if (price === null) return rows;
    return [
      ...rows,
      {
        part,
        price,
        ...(packOf === undefined ? {} : { packOf }),
        ...(line.length_m === undefined ? {} : { stockLength_m: line.length_m }),
      },
    ];
  });
}

/** What the project says is bought of a line and paid for it: at once, before the parts are worked out anew. */
export function boughtOf(
  project: Pick<Project, 'prices'>,
  line: ShopLine,
): { bought: number | null; paid: number | null } {
  const mine = (project.prices?.parts ?? []).filter(
    (row) =>
      (row.part === line.part && near(row.stockLength_m, line.length_m)) ||
      (line.group === 'cement' && row.part.startsWith(`${line.part}-`)),
  );
  return {
    bought: mine.find((row) => row.bought !== undefined)?.bought ?? null,
    paid: mine.find((row) => row.paid !== undefined)?.paid ?? null,
  };
}

/** The answer with ticks and payments as the project has them now. */
export function withBought(values: BuildValues, project: Pick<Project, 'prices'>): BuildValues {
  const shop = values.shop.map((line) => ({ ...line, ...boughtOf(project, line) }));
  return { ...values, shop, shopTotal: shopTotal(shop) };
}

/** How many are bought and what was paid for them in all; null takes the figure back. */
export function setBought(
  project: Project,
  line: ShopLine,
  change: { bought?: number | null; paid?: number | null },
  day: string,
): Project {
  const mine = (row: PriceRow): boolean => row.part === line.part && near(row.stockLength_m, line.length_m);
  return withRows(project, day, (rows) => {
    const kept = rows.map((row) => {
      if (!mine(row)) return row;
      const next = { ...row };
      if (change.bought !== undefined) next.bought = undefined;
      if (change.paid !== undefined) next.paid = undefined;
      return dropEmpty(next);
    });
    const figures = {
      ...(change.bought == null ? {} : { bought: change.bought }),
      ...(change.paid == null ? {} : { paid: change.paid }),
    };
    if (Object.keys(figures).length === 0) return kept;
    const at = kept.findIndex(mine);
    if (at >= 0) return kept.map((row, i) => (i === at ? { ...row, ...figures } : row));
    return [
      ...kept,
      {
        part: line.part,
        ...(line.length_m === undefined ? {} : { stockLength_m: line.length_m }),
        ...figures,
      },
    ];
  });
}
