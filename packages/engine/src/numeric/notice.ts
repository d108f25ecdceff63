/** Ranks of a notice by what it costs the person, worst first. */
export type Severity = 'safety' | 'damage' | 'heat' | 'unsure' | 'info';

/** Something found that the person should know: what, how much, and what mends it. */
export interface Notice {
  /** Stable name of the finding, e.g. `air-holds-in-tubes`. */
  code: string;
  severity: Severity;
  /** Place in the project file, e.g. `/collector/sections/0/banks/1`; empty when it is the whole. */
  path: string;
  message: string;
  remedy?: string;
}

const RANK: Record<Severity, number> = { safety: 0, damage: 1, heat: 2, unsure: 3, info: 4 };

/** Worst first; the order of equals is kept. */
export function rankNotices(notices: readonly Notice[]): Notice[] {
  return [...notices].sort((a, b) => RANK[a.severity] - RANK[b.severity]);
}
