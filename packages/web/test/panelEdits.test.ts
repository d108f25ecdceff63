import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { isNested, sectionSize } from '../src/edits/extent';
import {
  setCount,
  setDirection,
  setHeader,
  setLength,
  setNested,
  setPasses,
  setPitch,
  setSections,
} from '../src/edits/panel';
import { joining, leaves, neighboursOf, setJoining } from '../src/edits/plumbing';
import { markOf, markTube, toggleEnd } from '../src/edits/tubes';
import type { Doc } from '../src/store/doc';
import { isLegal, quinceDoc, ternDoc } from './examples';

const collectorOf = (doc: Doc) => doc.project.collector;
const legal = (doc: Doc, collector: Doc['project']['collector']) =>
  isLegal({ ...doc, project: { ...doc.project, collector } });

describe('edits of the panel', () => {
  it('keeps the gaps between passes and between sections when tubes are added', () => {
    const before = collectorOf(quinceDoc());
    const after = setCount(before, null, before.sections[0].banks[0].count + 3);
    const [a, b] = [before.sections[0], after.sections[0]];
    const { pitch_m } = a.banks[0] as { pitch_m: number };
    expect(b.banks[1].across_m - a.banks[1].across_m).toBeCloseTo(3 * pitch_m, 6);
    expect(after.sections.map((s) => s.u_m)).toEqual(before.sections.map((s) => s.u_m));
  });

  it('moves sections beside a longer one', () => {
    const before = collectorOf(quinceDoc());
    const after = setLength(before, 'A', (before.sections[0].banks[0] as { length_m: number }).length_m + 1);
    expect(after.sections[1].u_m - before.sections[1].u_m).toBeCloseTo(1, 6);
    expect(after.sections[2].u_m - before.sections[2].u_m).toBeCloseTo(1, 6);
    const gap = (c: typeof before) =>
      c.sections[1].u_m - (c.sections[0].u_m + sectionSize(c.sections[0]).along_m);
    expect(gap(after)).toBeCloseTo(gap(before), 6);
  });

  it('changes one section alone when asked', () => {
    const after = setCount(collectorOf(quinceDoc()), 'B', 5);
    expect(after.sections.map((s) => s.banks[0].count)).toEqual([
      collectorOf(quinceDoc()).sections[0].banks[0].count,
      5,
      collectorOf(quinceDoc()).sections[2].banks[0].count,
    ]);
  });

  it('adds passes with names of their own and hand-overs, and takes them away', () => {
    const more = setPasses(collectorOf(quinceDoc()), null, 4);
    for (const s of more.sections) {
      expect(s.banks).toHaveLength(4);
      expect(s.handovers).toHaveLength(3);
    }
    const ids = more.sections.flatMap((s) => s.banks.map((b) => b.id));
    expect(new Set(ids).size).toBe(ids.length);
    expect(setPasses(more, null, 1).sections[0].handovers).toHaveLength(0);
  });

  it('plumbs a new section in and an old one out', () => {
    const before = collectorOf(quinceDoc());
    const more = setSections(before, 5);
    expect(leaves(more.plumbing).map((l) => l.section)).toEqual(more.sections.map((s) => s.id));
    const fewer = setSections(before, 1);
    expect(leaves(fewer.plumbing).map((l) => l.section)).toEqual(['A']);
    expect(fewer.taps.every((tap) => tap.at.section === 'A')).toBe(true);
  });

  it('joins sections one after another and side by side', () => {
    const c = collectorOf(quinceDoc());
    const series = setJoining(c, 'series');
    expect(joining(series.plumbing)).toBe('series');
    expect(neighboursOf(series.plumbing).get('B')).toEqual({ from: ['A'], to: ['C'] });
    const parallel = setJoining(series, 'parallel');
    expect(neighboursOf(parallel.plumbing).get('B')).toEqual({ from: ['pool'], to: ['pool'] });
  });

  it('never leaves a header without an open end', () => {
    const c = collectorOf(quinceDoc());
    const first = toggleEnd(c, 'A', c.sections[0].banks[0].id, 'supply', 'first');
    expect(first.sections[0].inletEnds).toEqual(['last']);
    const both = toggleEnd(first, 'A', c.sections[0].banks[0].id, 'supply', 'first');
    expect(both.sections[0].inletEnds).toEqual(['first', 'last']);
  });

  it('opens both ends of a hand-over as two pipes', () => {
    const c = collectorOf(quinceDoc());
    const [a1, a2] = c.sections[0].banks.map((b) => b.id);
    const half = toggleEnd(c, 'A', a1, 'gather', 'first');
    expect(half.sections[0].handovers[0].joins).toHaveLength(2);
    const both = toggleEnd(half, 'A', a2, 'supply', 'last');
    const { joins } = both.sections[0].handovers[0];
    expect(new Set(joins.map((j) => j.from)).size).toBe(2);
    expect(new Set(joins.map((j) => j.to)).size).toBe(2);
  });

  it('marks a tube as one thing at a time', () => {
    const c = collectorOf(quinceDoc());
    const { id } = c.sections[0].banks[0];
    const mark = (collector: typeof c) => markOf(collector.sections[0].banks[0], 3);
    const blocked = markTube(c, 'A', id, 3, 'blocked');
    expect(mark(blocked)).toBe('blocked');
    const air = markTube(blocked, 'A', id, 3, 'airBound');
    expect(mark(air)).toBe('airBound');
    expect(mark(markTube(air, 'A', id, 3, 'open'))).toBe('open');
  });

  it('forgets marks of tubes that are gone', () => {
    const c = collectorOf(quinceDoc());
    const { id, count } = c.sections[0].banks[0];
    const marked = markTube(c, 'A', id, count, 'blocked');
    expect(setCount(marked, 'A', count - 1).sections[0].banks[0].blocked).toEqual([]);
  });

  it('nests passes within each other and lays them out again', () => {
    const nested = setNested(collectorOf(quinceDoc()), null, true);
    expect(nested.sections.every(isNested)).toBe(true);
    expect(setNested(nested, null, false).sections.some(isNested)).toBe(false);
  });

  it('leaves a legal file behind, whatever is done in whatever order', () => {
    type Edit = (c: Doc['project']['collector']) => Doc['project']['collector'];
    const edit: fc.Arbitrary<Edit> = fc.oneof(
      fc.integer({ min: 1, max: 40 }).map(
        (n): Edit =>
          (c) =>
            setCount(c, null, n),
      ),
      fc.double({ min: 0.5, max: 20, noNaN: true }).map(
        (m): Edit =>
          (c) =>
            setLength(c, null, m),
      ),
      fc.double({ min: 0.03, max: 0.3, noNaN: true }).map(
        (m): Edit =>
          (c) =>
            setPitch(c, null, m),
      ),
      fc.integer({ min: 1, max: 8 }).map(
        (n): Edit =>
          (c) =>
            setPasses(c, null, n),
      ),
      fc.integer({ min: 1, max: 6 }).map(
        (n): Edit =>
          (c) =>
            setSections(c, n),
      ),
      fc.constantFrom('series' as const, 'parallel' as const).map(
        (how): Edit =>
          (c) =>
            setJoining(c, how),
      ),
      fc.constantFrom('contour' as const, 'slope' as const).map(
        (d): Edit =>
          (c) =>
            setDirection(c, null, d),
      ),
      fc.boolean().map(
        (b): Edit =>
          (c) =>
            setNested(c, null, b),
      ),
      fc.constant<Edit>((c) => setHeader(c, null, 'pvc-sch40-2')),
      fc
        .tuple(
          fc.nat(),
          fc.nat(),
          fc.constantFrom('supply' as const, 'gather' as const),
          fc.constantFrom('first' as const, 'last' as const),
        )
        .map(
          ([i, k, header, end]): Edit =>
            (c) => {
              const s = c.sections[i % c.sections.length];
              return toggleEnd(c, s.id, s.banks[k % s.banks.length].id, header, end);
            },
        ),
    );
    for (const doc of [quinceDoc(), ternDoc()])
      fc.assert(
        fc.property(fc.array(edit, { minLength: 1, maxLength: 8 }), (edits) => {
          const collector = edits.reduce((c, e) => e(c), doc.project.collector);
          expect(legal(doc, collector)).toBe(true);
          for (const s of collector.sections) expect(s.handovers).toHaveLength(s.banks.length - 1);
        }),
        { seed: 5, numRuns: 40 },
      );
  });
});
