import { joinableOf } from '@sunlap/data/joinable';
import { planCuts } from '@sunlap/engine/building/cutting-stock';
import type { CutPlan, CutStock } from '@sunlap/engine/building/cutting-types';
import type { Project } from '@sunlap/project/schema/project';
import type { Bag, PieceUse } from './bag';
import type { CompleteOptions } from './options';
import { stockLengths } from './stock-lengths';

/** Equal cuts of one pipe, wherever in the design they go. */
export interface CutLine {
  readonly length_m: number;
  readonly count: number;
  readonly uses: readonly PieceUse[];
  readonly labels: readonly string[];
  readonly onSite: boolean;
}

export interface CutSheetStock extends CutStock {
  readonly from: 'own' | 'demo' | 'assumed' | 'onHand';
  readonly per: 'stick' | 'coil';
  /** Null where nobody gave one: the plan then buys the least length. */
  readonly shopPrice: number | null;
}

/** What to buy of one pipe and how to cut it. */
export interface CutSheet {
  readonly pipe: string;
  readonly label: string;
  readonly pieces: readonly CutLine[];
  readonly stocks: readonly CutSheetStock[];
  readonly plan: CutPlan;
  /** In the plan's own money; false when it counts metres because a price is missing. */
  readonly priced: boolean;
  readonly pipe_m: number;
  readonly kerf_m: number;
}

/** Offcuts from this length on are worth keeping [m]; judgement. */
export const WORTH_KEEPING_M = 0.3;

/** Cutting plans of every pipe, the person's own pipe first. */
export function cutSheets(
  bag: Bag,
  project: Pick<Project, 'prices' | 'stock'>,
  options: CompleteOptions,
): CutSheet[] {
  const byPipe = new Map<
    string,
    Map<
      string,
      { length_m: number; count: number; uses: Set<PieceUse>; labels: Set<string>; onSite: boolean }
    >
  >();
  for (const piece of bag.pieces) {
    const lines = byPipe.get(piece.pipe) ?? new Map();
    byPipe.set(piece.pipe, lines);
    // a tenth of a millimetre apart is the same cut
    const key = `${Math.round(piece.length_m * 1e4)}`;
    const line = lines.get(key) ?? {
      length_m: Math.round(piece.length_m * 1e4) / 1e4,
      count: 0,
      uses: new Set<PieceUse>(),
      labels: new Set<string>(),
      onSite: true,
    };
    line.count += piece.count;
    line.uses.add(piece.use);
    line.labels.add(piece.label);
    line.onSite &&= piece.onSite;
    lines.set(key, line);
  }
  const { kerf_m } = options;
  return [...byPipe].map(([pipe, lines]): CutSheet => {
    const pieces = [...lines.values()]
      .sort((a, b) => b.length_m - a.length_m)
      .map((l): CutLine => ({ ...l, uses: [...l.uses], labels: [...l.labels] }));
    const bought = stockLengths(project, pipe);
    const priced = bought.every((s) => s.price !== null);
    const stocks: CutSheetStock[] = [
      ...bought.map((s) => ({
        length_m: s.length_m,
        price: priced ? s.price! : s.length_m,
        from: s.from,
        per: s.per,
        shopPrice: s.price,
      })),
      ...(project.stock?.pipes ?? [])
        .filter((s) => s.pipe === pipe)
        .map((s) => ({
          length_m: s.length_m,
          price: 0,
          available: s.count,
          from: 'onHand' as const,
          per: bought[0].per,
          shopPrice: 0,
        })),
    ];
    return {
      pipe,
      label: joinableOf(pipe)?.pipe.label ?? pipe,
      pieces,
      stocks,
      plan: planCuts(pieces, stocks, { kerf_m, solver: options.solver }),
      priced,
      pipe_m: pieces.reduce((sum, p) => sum + p.length_m * p.count, 0),
      kerf_m,
    };
  });
}
