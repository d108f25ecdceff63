import type { Project } from '@sunlap/project/schema/project';
import type { Prices, Stock } from '@sunlap/project/schema/stock';

type PriceRow = Prices['parts'][number];
export type Measured = NonNullable<Stock['measured']>[number];
export type Board = Stock['boards'][number];

const EMPTY: Stock = { pipes: [], parts: [], boards: [] };

export const near = (a: number | undefined, b: number | undefined): boolean =>
  a === undefined || b === undefined ? a === b : Math.abs(a - b) < 1e-3;

const withStock = (project: Project, change: (stock: Stock) => Partial<Stock>): Project => {
  const stock = project.stock ?? EMPTY;
  return { ...project, stock: { ...stock, ...change(stock) } };
};

/** One dimension of a fitting as measured; null goes back to the standard's. */
export function setMeasured(
  project: Project,
  part: string,
  key: Exclude<keyof Measured, 'part'>,
  value_m: number | null,
): Project {
  return withStock(project, (stock) => {
    const rows = stock.measured ?? [];
    const own: Measured = { ...(rows.find((row) => row.part === part) ?? { part }) };
    if (value_m === null) delete own[key];
    else own[key] = value_m;
    const others = rows.filter((row) => row.part !== part);
    return { measured: Object.keys(own).length > 1 ? [...others, own] : others };
  });
}

/** Pipe on hand of one length; none takes the row away. */
export function setOnHand(project: Project, pipe: string, length_m: number, count: number): Project {
  return withStock(project, ({ pipes }) => {
    const others = pipes.filter((row) => row.pipe !== pipe || !near(row.length_m, length_m));
    return { pipes: count > 0 ? [...others, { pipe, length_m, count }] : others };
  });
}

/** Fittings on hand of one kind; none takes the row away. */
export function setPartsOnHand(project: Project, part: string, count: number | null): Project {
  return withStock(project, ({ parts }) => {
    const others = parts.filter((row) => row.part !== part);
    return { parts: count !== null && count >= 1 ? [...others, { part, count: Math.round(count) }] : others };
  });
}

export const partsOnHand = (project: Pick<Project, 'stock'>, part: string): number | null =>
  (project.stock?.parts ?? []).find((row) => row.part === part)?.count ?? null;

/** Boards that members are cut from, as another row. */
export function addBoard(project: Project, board: Omit<Board, 'id'>): Project {
  return withStock(project, ({ boards }) => {
    let n = boards.length + 1;
    while (boards.some((b) => b.id === `board-${n}`)) n++;
    return { boards: [...boards, { id: `board-${n}`, ...board }] };
  });
}

export function removeBoard(project: Project, id: string): Project {
  return withStock(project, ({ boards }) => ({ boards: boards.filter((b) => b.id !== id) }));
}

export function withRows(project: Project, asOf: string, change: (rows: PriceRow[]) => PriceRow[]): Project {
  const prices: Prices = project.prices ?? { currency: 'USD', asOf, parts: [] };
  const says = (row: PriceRow): boolean =>
    row.price !== undefined ||
    row.bought !== undefined ||
    row.paid !== undefined ||
    row.notSold !== undefined;
  return { ...project, prices: { ...prices, asOf, parts: change(prices.parts).filter(says) } };
}

/** JSON knows no `undefined`: a member that is taken away is left out. */
export const dropEmpty = (row: PriceRow): PriceRow =>
  Object.fromEntries(Object.entries(row).filter(([, v]) => v !== undefined)) as PriceRow;

function changeLength(
  project: Project,
  pipe: string,
  length_m: number,
  day: string,
  change: Partial<PriceRow>,
): Project {
  const mine = (row: PriceRow): boolean => row.part === pipe && near(row.stockLength_m, length_m);
  return withRows(project, day, (rows) => {
    const at = rows.findIndex(mine);
    if (at >= 0) return rows.map((row, i) => (i === at ? dropEmpty({ ...row, ...change }) : row));
    return [...rows, dropEmpty({ part: pipe, stockLength_m: length_m, ...change })];
  });
}

/** Price of one stock length of a pipe; null goes back to the demo's, and a length that has none leaves the plan. */
export const setStockLength = (
  project: Project,
  pipe: string,
  length_m: number,
  price: number | null,
  day: string,
): Project => changeLength(project, pipe, length_m, day, { price: price ?? undefined, notSold: undefined });

/** Whether a stock length is to be had where the person buys. */
export const setSold = (
  project: Project,
  pipe: string,
  length_m: number,
  sold: boolean,
  day: string,
): Project => changeLength(project, pipe, length_m, day, { notSold: sold ? undefined : true });

/** Lengths of a pipe that are not to be had, shortest first. */
export const notSold = (project: Pick<Project, 'prices'>, pipe: string): number[] =>
  (project.prices?.parts ?? [])
    .flatMap((row) =>
      row.part === pipe && row.notSold === true && row.stockLength_m !== undefined ? [row.stockLength_m] : [],
    )
    .sort((a, b) => a - b);
