import { demoPricesOf } from '@sunlap/data/prices';
import type { Project } from '@sunlap/project/schema/project';
import { joinableOf } from './joints';

/** A length in which a pipe can be bought. */
export interface StockLength {
  readonly length_m: number;
  /** Null where nobody gave one. */
  readonly price: number | null;
  readonly from: 'own' | 'demo' | 'assumed';
  readonly per: 'stick' | 'coil';
}

/** Usual lengths where no price row names one; common practice. */
function usual(id: string): StockLength[] {
  const pipe = joinableOf(id)?.pipe;
  const row = (length_m: number, per: StockLength['per']): StockLength => ({
    length_m,
    price: null,
    from: 'assumed',
    per,
  });
  if (pipe?.family === 'pe-irrigation' || pipe?.family.startsWith('pe100')) return [row(50, 'coil')];
  if (pipe?.material === 'HDPE' || pipe?.material === 'PEX') return [row(30.48, 'coil')];
  return pipe?.material === 'PVC-U'
    ? [row(3, 'stick'), row(5, 'stick')]
    : [row(3.048, 'stick'), row(6.096, 'stick')];
}

const SAME_LENGTH_M = 1e-3;

/** Demo rows of a pipe, or what is usual. */
function withoutOwn(pipe: string, per: StockLength['per']): StockLength[] {
  const demo = demoPricesOf(pipe).flatMap(({ stock_m, price, per: sold }): StockLength[] =>
    stock_m === undefined
      ? []
      : [{ length_m: stock_m, price, from: 'demo', per: sold === 'coil' ? 'coil' : per }],
  );
  return demo.length > 0 ? demo : usual(pipe);
}

/**
 * Lengths in which a pipe is sold: the person's rows, and the demo rows of the lengths that these neither price nor say are
 * not to be had; without either what is usual. An own row without a length prices the only one there is.
 */
export function stockLengths(project: Pick<Project, 'prices'>, pipe: string): StockLength[] {
  const per = joinableOf(pipe)?.way === 'cement' ? 'stick' : 'coil';
  const others = withoutOwn(pipe, per);
  const rows = (project.prices?.parts ?? []).filter((row) => row.part === pipe);
  const lengthOf = (row: { stockLength_m?: number }): number | undefined =>
    row.stockLength_m ?? (others.length === 1 ? others[0].length_m : undefined);
  const same = (row: { stockLength_m?: number }, length_m: number): boolean => {
    const own = lengthOf(row);
    return own !== undefined && Math.abs(own - length_m) < SAME_LENGTH_M;
  };
  const own = rows.flatMap((row): StockLength[] => {
    const length_m = lengthOf(row);
    return length_m === undefined || row.price === undefined || row.notSold
      ? []
      : [{ length_m, price: row.price / (row.packOf ?? 1), from: 'own', per }];
  });
  const kept = others.filter(
    (s) =>
      !own.some((o) => Math.abs(o.length_m - s.length_m) < SAME_LENGTH_M) &&
      !rows.some((row) => row.notSold && same(row, s.length_m)) &&
      // a length without any price would make the plan count metres instead of money
      (own.length === 0 || s.price !== null),
  );
  const all = [...own, ...kept].sort((a, b) => a.length_m - b.length_m);
  // somebody who says that nothing is to be had still has to cut something
  return all.length > 0 ? all : others;
}

/** Longest that can be bought [m]. */
export function longestStock_m(project: Pick<Project, 'prices'>, pipe: string): number {
  return Math.max(...stockLengths(project, pipe).map((s) => s.length_m));
}
