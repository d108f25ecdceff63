import type { Collector, Plumbing } from '@sunlap/project/schema/collector';

export function withLeaf(p: Plumbing, section: string): Plumbing {
  if (p.parallel !== undefined) return { ...p, parallel: [...p.parallel, { section }] };
  if (p.series !== undefined) return { ...p, series: [...p.series, { section }] };
  const { before, after, ...leaf } = p;
  return { parallel: [leaf, { section }], before, after };
}

export function without(p: Plumbing, section: string): Plumbing | null {
  if (p.section !== undefined) return p.section === section ? null : p;
  const key = p.parallel === undefined ? 'series' : 'parallel';
  const kept = (p[key] ?? []).map((part) => without(part, section)).filter((part) => part !== null);
  if (kept.length === 0) return null;
  return { ...p, [key]: kept };
}

/** Leaves of a plumbing in the order in which they are listed. */
export function leaves(p: Plumbing): Plumbing[] {
  if (p.section !== undefined) return [p];
  return (p.series ?? p.parallel ?? []).flatMap(leaves);
}

export type Joining = 'single' | 'series' | 'parallel' | 'mixed';

export function joining(p: Plumbing): Joining {
  if (leaves(p).length === 1) return 'single';
  const kinds = new Set<string>();
  const walk = (q: Plumbing) => {
    if (q.section !== undefined) return;
    const parts = q.series ?? q.parallel ?? [];
    if (parts.length > 1) kinds.add(q.series === undefined ? 'parallel' : 'series');
    for (const part of parts) walk(part);
  };
  walk(p);
  return kinds.size > 1 ? 'mixed' : kinds.has('series') ? 'series' : 'parallel';
}

/** All sections one after another, or side by side. Pipes and valves before and after each section stay with it. */
export function setJoining(c: Collector, how: 'series' | 'parallel'): Collector {
  if (joining(c.plumbing) === how || c.sections.length < 2) return c;
  const { before, after } = c.plumbing;
  return { ...c, plumbing: { [how]: leaves(c.plumbing), before, after } };
}

/** What feeds a section and what it feeds, by the plumbing: ids of sections, or `pool`. */
export function neighboursOf(p: Plumbing): Map<string, { from: string[]; to: string[] }> {
  const out = new Map<string, { from: string[]; to: string[] }>();
  const ends = (q: Plumbing, which: 'in' | 'out'): string[] => {
    if (q.section !== undefined) return [q.section];
    if (q.parallel !== undefined) return q.parallel.flatMap((part) => ends(part, which));
    const list = q.series ?? [];
    return list.length === 0 ? [] : ends(which === 'in' ? list[0] : list[list.length - 1], which);
  };
  const walk = (q: Plumbing, from: string[], to: string[]) => {
    if (q.section !== undefined) out.set(q.section, { from, to });
    else if (q.parallel !== undefined) for (const part of q.parallel) walk(part, from, to);
    else
      (q.series ?? []).forEach((part, i, list) => {
        walk(
          part,
          i === 0 ? from : ends(list[i - 1], 'out'),
          i === list.length - 1 ? to : ends(list[i + 1], 'in'),
        );
      });
  };
  walk(p, ['pool'], ['pool']);
  return out;
}
