import type { Project } from '@sunlap/project/schema/project';

/** Parts of a project that neither a part nor a drawing nor a card is made from. */
const APART: ReadonlySet<string> = new Set<keyof Project>(['$schema', 'notes', 'testDays', 'unsure']);

/** What prices say of parts, without what is bought and paid. */
function priced(prices: Project['prices']): string {
  if (prices === undefined) return '';
  const { asOf: _asOf, parts, ...rest } = prices;
  const rows = parts.flatMap(({ bought: _bought, paid: _paid, ...row }) =>
    row.price === undefined && row.notSold === undefined ? [] : [row],
  );
  return JSON.stringify([rest, rows]);
}

function settings(build: Project['build']): string {
  const { done: _done, ...rest } = build ?? {};
  return JSON.stringify(rest);
}

/** True where parts, plans, drawings and cards of both are one answer: only ticks, payments or the log differ. */
export function sameBuild(a: Project, b: Project): boolean {
  const keys = new Set([...Object.keys(a), ...Object.keys(b)]) as Set<keyof Project>;
  for (const key of keys)
    if (!APART.has(key) && key !== 'prices' && key !== 'build' && a[key] !== b[key]) return false;
  return (
    (a.prices === b.prices || priced(a.prices) === priced(b.prices)) &&
    (a.build === b.build || settings(a.build) === settings(b.build))
  );
}
