import type { Project } from '@sunlap/project/schema/project';
import type { Prices, Stock } from '@sunlap/project/schema/stock';
import type { ShopLine, ShopPack } from '@sunlap/workbench/build/shop';

type PriceRow = Prices['parts'][number];
export type Measured = NonNullable<Stock['measured']>[number];

const near = (a: number | undefined, b: number | undefined): boolean =>
  a === undefined || b === undefined ? a === b : Math.abs(a - b) < 1e-3;

const EMPTY_STOCK: Stock = { pipes: [], parts: [], boards: [] };

function withRows(project: Project, asOf: string, change: (rows: PriceRow[]) => PriceRow[]): Project {
  const prices: Prices = project.prices ?? { currency: 'USD', asOf, parts: [] };
  const says = (row: PriceRow): boolean =>
    row.price !== undefined || row.bought !== undefined || row.paid !== undefined;
  return { ...project, prices: { ...prices, asOf, parts: change(prices.parts).filter(says) } };
}

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

/** JSON knows no `undefined`: a member that is taken away is left out. */
const dropEmpty = (row: PriceRow): PriceRow =>
  Object.fromEntries(Object.entries(row).filter(([, v]) => v !== undefined)) as PriceRow;

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

/** One dimension of a fitting as measured; null goes back to the standard's. */
export function setMeasured(
  project: Project,
  part: string,
  key: Exclude<keyof Measured, 'part'>,
  value_m: number | null,
): Project {
  const stock = project.stock ?? EMPTY_STOCK;
  const rows = stock.measured ?? [];
  const own: Measured = { ...(rows.find((row) => row.part === part) ?? { part }) };
  if (value_m === null) delete own[key];
  else own[key] = value_m;
  const others = rows.filter((row) => row.part !== part);
  const measured = Object.keys(own).length > 1 ? [...others, own] : others;
  return { ...project, stock: { ...stock, measured } };
}

/** Pipe on hand of one length; none takes the row away. */
export function setOnHand(project: Project, pipe: string, length_m: number, count: number): Project {
  const stock = project.stock ?? EMPTY_STOCK;
  const others = stock.pipes.filter((row) => row.pipe !== pipe || !near(row.length_m, length_m));
  return {
    ...project,
    stock: { ...stock, pipes: count > 0 ? [...others, { pipe, length_m, count }] : others },
  };
}

/** Price of one stock length of a pipe; null leaves it out. */
export function setStockLength(
  project: Project,
  pipe: string,
  length_m: number,
  price: number | null,
  day: string,
): Project {
  const mine = (row: PriceRow): boolean => row.part === pipe && near(row.stockLength_m, length_m);
  return withRows(project, day, (rows) => {
    const at = rows.findIndex(mine);
    if (at >= 0)
      return rows.map((row, i) => (i === at ? dropEmpty({ ...row, price: price ?? undefined }) : row));
    return price === null ? rows : [...rows, { part: pipe, stockLength_m: length_m, price }];
  });
}
