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

/**
 * Lengths in which a pipe is sold: the person's rows, else demo rows, else what is usual. Own rows without a length take
 * the usual lengths only when there is one.
 */
export function stockLengths(project: Pick<Project, 'prices'>, pipe: string): StockLength[] {
  const per = joinableOf(pipe)?.way === 'cement' ? 'stick' : 'coil';
  const own = (project.prices?.parts ?? []).filter((row) => row.part === pipe && row.price !== undefined);
  const assumed = usual(pipe);
  const owned = own.flatMap((row): StockLength[] => {
    const length_m = row.stockLength_m ?? (assumed.length === 1 ? assumed[0].length_m : undefined);
    return length_m === undefined
      ? []
      : [{ length_m, price: row.price! / (row.packOf ?? 1), from: 'own', per }];
  });
  if (owned.length > 0) return owned;
  const demo = demoPricesOf(pipe).flatMap((row): StockLength[] =>
    row.stock_m === undefined
      ? []
      : [
          {
            length_m: row.stock_m,
            price: row.price,
            from: 'demo',
            per: row.per === 'coil' ? 'coil' : 'stick',
          },
        ],
  );
  return demo.length > 0 ? demo : assumed;
}

/** Longest that can be bought [m]. */
export function longestStock_m(project: Pick<Project, 'prices'>, pipe: string): number {
  return Math.max(...stockLengths(project, pipe).map((s) => s.length_m));
}
