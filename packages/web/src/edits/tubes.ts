import type { Bank, Collector, HeaderEnd } from '@sunlap/project/schema/collector';
import type { Repair } from '@sunlap/project/schema/life';
import type { Project } from '@sunlap/project/schema/project';
import { openPlugs } from '@sunlap/workbench/state/standing';
import { mapSectionsOnly } from './panel';

const toggled = (ends: readonly HeaderEnd[], end: HeaderEnd): HeaderEnd[] => {
  const next = ends.includes(end) ? ends.filter((e) => e !== end) : [...ends, end];
  if (next.length === 0) return [end === 'first' ? 'last' : 'first'];
  return next.sort();
};

/**
 * Opens or closes a header's end. Closing the only open one opens the other, so that water always has a way.
 * Hand-overs join the open ends of the two headers: like with like where both are open.
 */
export function toggleEnd(
  c: Collector,
  sectionId: string,
  bankId: string,
  header: 'supply' | 'gather',
  end: HeaderEnd,
): Collector {
  return mapSectionsOnly(c, sectionId, (s) => {
    const n = s.banks.findIndex((b) => b.id === bankId);
    if (n < 0) return s;
    if (header === 'supply' && n === 0) return { ...s, inletEnds: toggled(s.inletEnds, end) };
    if (header === 'gather' && n === s.banks.length - 1)
      return { ...s, outletEnds: toggled(s.outletEnds, end) };
    const step = header === 'supply' ? n - 1 : n;
    const joins = s.handovers[step]?.joins ?? [{ from: 'last', to: 'first' }];
    let from = [...new Set(joins.map((j) => j.from))];
    let to = [...new Set(joins.map((j) => j.to))];
    if (header === 'gather') from = toggled(from, end);
    else to = toggled(to, end);
    const pairs: { from: HeaderEnd; to: HeaderEnd }[] = [];
    const ways = Math.max(from.length, to.length);
    const cross = from.length === 1 && to.length === 1;
    for (let i = 0; i < ways; i++)
      pairs.push(
        cross
          ? { from: from[0], to: to[0] }
          : {
              from: from[i] ?? from[0],
              to: (ways === 2 && from.length === 2 && to.length === 2 ? [...to].reverse() : to)[i] ?? to[0],
            },
      );
    return { ...s, handovers: s.handovers.map((h, i) => (i === step ? { joins: pairs } : h)) };
  });
}

export type TubeMark = 'open' | 'blocked' | 'airBound';

export function markOf(bank: Bank, tube: number): TubeMark {
  if (bank.blocked?.includes(tube) === true) return 'blocked';
  return bank.airBound?.includes(tube) === true ? 'airBound' : 'open';
}

/** Open → blocked → air-bound → open, or straight to `mark`. */
export function markTube(
  c: Collector,
  sectionId: string,
  bankId: string,
  tube: number,
  mark: TubeMark,
): Collector {
  return mapSectionsOnly(c, sectionId, (s) => ({
    ...s,
    banks: s.banks.map((b) => {
      if (b.id !== bankId) return b;
      const others = (list: number[] | undefined) => (list ?? []).filter((n) => n !== tube);
      const blocked =
        mark === 'blocked' ? [...others(b.blocked), tube].sort((x, y) => x - y) : others(b.blocked);
      const airBound =
        mark === 'airBound' ? [...others(b.airBound), tube].sort((x, y) => x - y) : others(b.airBound);
      const { blocked: _b, airBound: _a, ...rest } = b;
      return {
        ...rest,
        ...(blocked.length > 0 ? { blocked } : {}),
        ...(airBound.length > 0 ? { airBound } : {}),
      } as Bank;
    }),
  }));
}

/** The repair that left this tube plugged and that nothing has undone yet. */
export function plugOf(project: Project, section: string, bank: string, tube: number): Repair | null {
  const found = openPlugs(project).find(
    (plug) =>
      plug.section === section && plug.tube === tube && (plug.bank === undefined || plug.bank === bank),
  );
  return found ?? null;
}
