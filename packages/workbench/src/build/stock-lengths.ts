import { joinableOf } from '@sunlap/data/joinable';
import { demoPricesOf } from '@sunlap/data/prices';
import type { Project } from '@sunlap/project/schema/project';

/** A length in which a pipe can be bought. */
export interface StockLength {
  readonly length_m: number;
  /** Null where nobody gave one. */
  readonly price: number | null;
  readonly from: 'own' | 'demo' | 'assumed';
  readonly per: 'stick' | 'coil';
}

/** Lengths of a pipe that no table has. */
const UNKNOWN: readonly StockLength[] = [{ length_m: 3.048, price: null, from: 'assumed', per: 'stick' }];

const SAME_LENGTH_M = 1e-3;

/** Demo rows of a pipe. */
function withoutOwn(pipe: string, per: StockLength['per']): StockLength[] {
  const demo = demoPricesOf(pipe).flatMap(({ stock_m, price, per: sold }): StockLength[] =>
    stock_m === undefined
      ? []
      : [{ length_m: stock_m, price, from: 'demo', per: sold === 'coil' ? 'coil' : per }],
  );
  return demo.length > 0 ? demo : [...UNKNOWN];
}

/**
 * Lengths in which a pipe is sold: the person's rows, and the demo rows of the lengths that these neither price nor say are
 * not to be had; an own row without a length prices the only one there is.
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
