/** Ranks of a notice by what it costs the person, worst first. */
export type Severity = 'safety' | 'damage' | 'heat' | 'unsure' | 'info';

/** One change of the project file: a value at a JSON pointer, or one more entry of a list at `…/-`. */
export interface Edit {
  readonly path: string;
  readonly value: unknown;
}

/** A definite change that was tried and found to mend what is found, without a worse finding. */
export interface NoticeMend {
  /** What it does, in the person's words: `tubes fall 12 mm/m`. */
  readonly label: string;
  readonly edits: readonly Edit[];
}

/** Something found that the person should know: what, how much, and what mends it. */
export interface Notice {
  /** Stable name of the finding, e.g. `air-holds-in-tubes`. */
  code: string;
  severity: Severity;
  /** Place in the project file, e.g. `/collector/sections/0/banks/1`; empty when it is the whole. */
  path: string;
  message: string;
  remedy?: string;
  /** What it costs, in the person's words: `Costs about 1.1 % of the heat, 95 W`. */
  cost?: string;
  /** Heat that it costs at the moment looked at [W]. */
  cost_W?: number;
  /** What it costs over all of the heat, or of the flow where no heat was asked for [–]. */
  costShare?: number;
  /** The step that mends it, where one was found and tried. */
  mend?: NoticeMend;
}

const RANK: Record<Severity, number> = { safety: 0, damage: 1, heat: 2, unsure: 3, info: 4 };

/** A loss under this share of the heat is worth knowing, not worth mending first [–]; judgement. */
const TRIFLE = 0.005;

/** Lost heat of next to no size. One whose size is not known is none. */
export const isTrifle = (n: Notice): boolean =>
  n.severity === 'heat' && n.cost_W !== undefined && (n.costShare ?? 0) < TRIFLE;

/**
 * Worst first: safety, damage, lost heat by its size, what is unsure; then lost heat of next to no size, which keeps
 * its kind and its mending step, and what is only good to know. The order of equals is kept.
 */
export function rankNotices(notices: readonly Notice[]): Notice[] {
  const rank = (n: Notice): number => (isTrifle(n) ? RANK.unsure + 0.5 : RANK[n.severity]);
  return [...notices].sort((a, b) => rank(a) - rank(b) || (b.costShare ?? 0) - (a.costShare ?? 0));
}
