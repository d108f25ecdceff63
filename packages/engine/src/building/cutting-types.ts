/** Pieces of one length that are needed. */
export interface CutPiece {
  readonly length_m: number;
  readonly count: number;
}

/** Lengths that can be had: bought, or on hand. */
export interface CutStock {
  readonly length_m: number;
  /** For one; 0 for what is on hand. */
  readonly price: number;
  /** How many there are; without end when left out. */
  readonly available?: number;
}

/** One way to cut one stock length. */
export interface Pattern {
  readonly stock: number;
  /** Pieces of each length, by place in the order. */
  readonly counts: readonly number[];
}

/** The order in whole numbers: lengths on a grid with the kerf added, prices in their common unit. */
export interface CutGrid {
  /** Piece length + kerf. */
  readonly lengths: readonly number[];
  readonly demand: readonly number[];
  /** Stock length + kerf: the last piece needs no cut where it ends with the stock. */
  readonly capacities: readonly number[];
  readonly costs: readonly number[];
  /** Infinity for what can be bought. */
  readonly limits: readonly number[];
  /** Price of one unit of `costs`. */
  readonly priceUnit: number;
}

/** Integer programme over patterns: least cost with every demand met and no limit passed. */
export interface CutProgram {
  readonly columns: readonly Pattern[];
  readonly costs: readonly number[];
  readonly demand: readonly number[];
  /** Limit of each stock; Infinity without one. */
  readonly limits: readonly number[];
  /** Only solutions up to this cost are of interest. */
  readonly most: number;
}

/** What an integer solver says. `infeasible`: nothing up to `most` exists. */
export interface CutProgramOutcome {
  readonly status: 'optimal' | 'infeasible' | 'stopped';
  /** Whole number of each column, where a solution was found. */
  readonly counts?: readonly number[];
}

export type CutProgramSolver = (program: CutProgram) => CutProgramOutcome;

/** One way of cutting and how many bars are cut that way. */
export interface CutBars {
  /** Place in the list of stocks. */
  readonly stock: number;
  readonly bars: number;
  readonly cuts: readonly { readonly piece: number; readonly count: number }[];
  /** Left of each bar after its last cut [m]. */
  readonly left_m: number;
  /** Saw cuts in each bar. */
  readonly sawCuts: number;
}

export interface CutPlan {
  readonly bars: readonly CutBars[];
  readonly price: number;
  /** No plan is cheaper than this. */
  readonly bound: number;
  /** Price over the bound; 0 when proven. */
  readonly gap: number;
  readonly proven: boolean;
  /** What gave the plan. */
  readonly method: 'firstFit' | 'rounding' | 'integer';
  /** Price of first-fit decreasing alone, for comparison. */
  readonly firstFitPrice: number;
  readonly sawCuts: number;
  /** Pieces longer than every stock, by place in the order. */
  readonly tooLong: readonly number[];
  /** Pieces that some stock holds, but of which there is not enough, and how many are not cut. */
  readonly short: readonly { readonly piece: number; readonly count: number }[];
}
