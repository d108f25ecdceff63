import { type Notice, rankNotices } from '@sunlap/engine/numeric/notice';

/** Worst first, each once: two studies may find the same. */
export function rank(notices: readonly Notice[]): Notice[] {
  const seen = new Set<string>();
  return rankNotices(
    notices.filter((n) => {
      const key = `${n.code} ${n.path} ${n.message}`;
      if (seen.has(key)) return false;
      seen.add(key);
      return true;
    }),
  );
}
