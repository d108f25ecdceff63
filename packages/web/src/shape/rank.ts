import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';

/** A loss under this share of the heat is worth knowing, not worth mending first; judgement. */
const TRIFLE = 0.005;

/** Lost heat of next to no size. One whose size is not known is none. */
export const isTrifle = (n: Notice): boolean =>
  n.severity === 'heat' && n.cost_W !== undefined && (n.costShare ?? 0) < TRIFLE;

/**
 * Worst first, each once: safety, damage, lost heat by its size, what is unsure; then lost heat of next to no
 * size, which keeps its kind and its mending step, and what is only good to know.
 */
export function rank(notices: readonly Notice[]): Notice[] {
  const seen = new Set<string>();
  const ranked = rankNotices(
    notices.filter((n) => {
      const key = `${n.code} ${n.path} ${n.message}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    }),
  );
  const last = (n: Notice): number => (n.severity === 'info' ? 2 : isTrifle(n) ? 1 : 0);
  return ranked.sort((a, b) => last(a) - last(b));
}
