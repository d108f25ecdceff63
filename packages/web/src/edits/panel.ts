import type { Bank, Collector, Section, TubeBank } from '@sunlap/project/schema/collector';
import { isNested, sectionSize, shift_m, spacing_m, span } from './extent';
import { withLeaf, without } from './plumbing';

/** Sections that an edit is meant for: one by its id, or all. */
export type Scope = string | null;

const inScope = (scope: Scope) => (s: Section) => scope === null || s.id === scope;

/** Moves the banks that lie beyond a changed one so that the gap between them stays. */
function restack(before: Section, after: Section): Section {
  if (isNested(before)) return after;
  const order = before.banks
    .map((_, i) => i)
    .sort((a, b) => before.banks[a].across_m - before.banks[b].across_m);
  const banks = [...after.banks];
  for (let k = 1; k < order.length; k++) {
    const [p, q] = [order[k - 1], order[k]];
    const gap = span(before.banks[q]).first - span(before.banks[p]).last;
    const now = span(banks[q]).first - span(banks[p]).last;
    banks[q] = { ...banks[q], across_m: round(banks[q].across_m + gap - now) };
  }
  return { ...after, banks };
}

const round = (v: number) => Math.round(v * 1e5) / 1e5;

/** Extent of a section on the plane, along the contour and up the slope. */
function extent(s: Section): { u: number; v: number } {
  const { along_m, across_m } = sectionSize(s);
  return s.direction === 'slope' ? { u: across_m, v: along_m } : { u: along_m, v: across_m };
}

/** Moves sections that lie to the right of or above a changed one by as much as it grew. */
function spread(before: Collector, sections: Section[]): Section[] {
  const moved = [...sections];
  before.sections.forEach((old, i) => {
    const [a, b] = [extent(old), extent(sections[i])];
    const [du, dv] = [b.u - a.u, b.v - a.v];
    if (Math.abs(du) < 1e-9 && Math.abs(dv) < 1e-9) return;
    before.sections.forEach((other, k) => {
      if (k === i) return;
      const right =
        other.u_m >= old.u_m + a.u * 0.9 &&
        other.v_m < old.v_m + a.v &&
        other.v_m + extent(other).v > old.v_m;
      const above =
        other.v_m >= old.v_m + a.v * 0.9 &&
        other.u_m < old.u_m + a.u &&
        other.u_m + extent(other).u > old.u_m;
      moved[k] = {
        ...moved[k],
        u_m: round(moved[k].u_m + (right ? du : 0)),
        v_m: round(moved[k].v_m + (above ? dv : 0)),
      };
    });
  });
  return moved;
}

function mapSections(collector: Collector, scope: Scope, change: (s: Section) => Section): Collector {
  const sections = collector.sections.map((s) => (inScope(scope)(s) ? restack(s, change(s)) : s));
  return { ...collector, sections: spread(collector, sections) };
}

function mapBanks(collector: Collector, scope: Scope, change: (b: Bank) => Bank): Collector {
  return mapSections(collector, scope, (s) => ({ ...s, banks: s.banks.map(change) }));
}

export const setLength = (c: Collector, scope: Scope, length_m: number): Collector =>
  mapBanks(c, scope, (b) => ({ ...b, length_m: round(length_m) }));

export const setCount = (c: Collector, scope: Scope, count: number): Collector =>
  mapBanks(c, scope, (b) => {
    const keep = (list: number[] | undefined) => list?.filter((n) => n <= count);
    const next = { ...b, count };
    if (b.blocked !== undefined) next.blocked = keep(b.blocked);
    if (b.airBound !== undefined) next.airBound = keep(b.airBound);
    return next;
  });

export const setPitch = (c: Collector, scope: Scope, pitch_m: number): Collector =>
  mapBanks(c, scope, (b) => (b.kind === 'rated' ? { ...b, width_m: pitch_m } : { ...b, pitch_m }));

export const setPipe = (c: Collector, scope: Scope, pipe: string): Collector =>
  mapBanks(c, scope, (b) => (b.kind === 'rated' ? b : { ...b, pipe }));

export const setHeader = (c: Collector, scope: Scope, pipe: string): Collector =>
  mapBanks(c, scope, (b) => {
    if (b.kind === 'rated') return { ...b, headerPipe: pipe };
    if (b.supply === undefined || b.gather === undefined) return b;
    return { ...b, supply: { ...b.supply, pipe }, gather: { ...b.gather, pipe } };
  });

export const setFall = (c: Collector, scope: Scope, fall_mPerM: number): Collector =>
  mapBanks(c, scope, (b) => (b.kind === 'tubes' ? { ...b, fall_mPerM } : b));

export const setDirection = (c: Collector, scope: Scope, direction: 'contour' | 'slope'): Collector => {
  const turned = c.sections.map((s) => (inScope(scope)(s) ? { ...s, direction, angle_deg: undefined } : s));
  return { ...c, sections: spread(c, turned) };
};

function freeId(taken: readonly string[], wanted: string): string {
  if (!taken.includes(wanted)) return wanted;
  for (let n = 2; ; n++) if (!taken.includes(`${wanted}-${n}`)) return `${wanted}-${n}`;
}

const allBanks = (c: Collector) => c.sections.flatMap((s) => s.banks.map((b) => b.id));

/** Adds passes as copies of the last one, or takes the last ones away. */
export function setPasses(c: Collector, scope: Scope, passes: number): Collector {
  const taken = allBanks(c);
  return mapSectionsOnly(c, scope, (s) => {
    if (passes < s.banks.length)
      return {
        ...s,
        banks: s.banks.slice(0, passes),
        handovers: s.handovers.slice(0, Math.max(0, passes - 1)),
      };
    const banks = [...s.banks];
    const handovers = [...s.handovers];
    const nested = isNested(s);
    while (banks.length < passes) {
      const last = banks[banks.length - 1];
      const previous = banks[banks.length - 2];
      const gap =
        previous === undefined || nested
          ? spacing_m(last) * 0.8
          : Math.max(0.02, span(last).first - span(previous).last);
      const id = freeId(taken, `${s.id}${banks.length + 1}`);
      taken.push(id);
      const { blocked: _b, airBound: _a, ...clean } = last;
      banks.push({
        ...clean,
        id,
        name: id,
        across_m: round(
          Math.max(...banks.map((b) => span(b).last)) + gap + spacing_m(last) / 2 - shift_m(last),
        ),
      } as Bank);
      handovers.push({ joins: [{ from: 'last', to: 'first' }] });
    }
    return { ...s, banks, handovers };
  });
}

export function mapSectionsOnly(c: Collector, scope: Scope, change: (s: Section) => Section): Collector {
  return {
    ...c,
    sections: spread(
      c,
      c.sections.map((s) => (inScope(scope)(s) ? change(s) : s)),
    ),
  };
}

/** Number of sections: copies of the last one beside or above it, or the last ones away. */
export function setSections(c: Collector, count: number): Collector {
  const sections = [...c.sections];
  let plumbing = c.plumbing;
  while (sections.length > count && sections.length > 1) {
    const gone = sections.pop();
    plumbing = without(plumbing, gone!.id) ?? plumbing;
  }
  const taken = c.sections.map((s) => s.id);
  const banksTaken = allBanks(c);
  while (sections.length < count) {
    const last = sections[sections.length - 1];
    const previous = sections[sections.length - 2];
    const size = extent(last);
    const beside =
      previous === undefined ? size.u > size.v === (last.direction === 'slope') : previous.v_m === last.v_m;
    const step = beside
      ? { u: previous === undefined ? size.u + 0.7 : last.u_m - previous.u_m, v: 0 }
      : { u: 0, v: previous === undefined ? size.v + 0.3 : last.v_m - previous.v_m };
    const id = freeId(taken, String.fromCharCode(65 + sections.length));
    taken.push(id);
    sections.push({
      ...last,
      id,
      name: `Section ${id}`,
      u_m: round(last.u_m + step.u),
      v_m: round(last.v_m + step.v),
      banks: last.banks.map((b, i) => {
        const bankId = freeId(banksTaken, `${id}${i + 1}`);
        banksTaken.push(bankId);
        return { ...b, id: bankId, name: bankId };
      }),
    });
    plumbing = withLeaf(plumbing, id);
  }
  const known = new Set(sections.map((s) => s.id));
  return { ...c, sections, plumbing, taps: c.taps.filter((t) => known.has(t.at.section)) };
}

/** Nests the passes of a section within one another, or lays them beside each other again. */
export function setNested(c: Collector, scope: Scope, nested: boolean): Collector {
  return mapSectionsOnly(c, scope, (s) => {
    if (s.banks.length < 2 || !s.banks.every((b): b is TubeBank => b.kind === 'tubes')) return s;
    const pitch = s.banks[0].pitch_m;
    let next = s.banks[0].across_m;
    return {
      ...s,
      banks: s.banks.map((b, i) => {
        const across_m = nested ? s.banks[0].across_m + (i * pitch) / s.banks.length : next;
        next = across_m + b.count * b.pitch_m + b.pitch_m * 0.8;
        return {
          ...b,
          across_m: round(across_m),
          depth_m: nested ? s.banks[0].depth_m + i * 0.05 : s.banks[0].depth_m,
        };
      }),
    };
  });
}
