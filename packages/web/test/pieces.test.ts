import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import {
  addOutlet,
  addPiece,
  addPumpPoint,
  addSuction,
  addTap,
  movePiece,
  PIECE_KINDS,
  removeEntry,
  removePiece,
  removeTap,
  setBranches,
  setOwnMouth,
  withFitting,
} from '../src/edits/pieces';
import { BYPASS_KINDS, setBypass, setFilter } from '../src/edits/plant';
import { sectionWays, wayRows } from '../src/sheets/loop/way-rows';
import { isLegal, quinceDoc, ternDoc } from './examples';

const legal = (project: Project) => isLegal({ ...quinceDoc(), project });

describe('pieces of the loop', () => {
  for (const make of [quinceDoc, ternDoc])
    for (const kind of PIECE_KINDS)
      it(`${kind} is put into the feed, moved, and taken out again: ${make().project.name}`, () => {
        const { project } = make();
        const n = project.loop.feed.length;
        const more = addPiece(project, '/loop/feed', n, kind);
        expect(legal(more)).toBe(true);
        expect(more.loop.feed).toHaveLength(n + 1);
        const again = addPiece(more, '/loop/feed', 0, kind);
        const ids = again.loop.feed.map((e) => e.id);
        expect(new Set(ids).size).toBe(ids.length);
        const moved = movePiece(more, `/loop/feed/${n}`, -1);
        expect(moved.loop.feed[Math.max(0, n - 1)]).toEqual(more.loop.feed[n === 0 ? 0 : n]);
        expect(removePiece(more, `/loop/feed/${n}`).loop.feed).toEqual(project.loop.feed);
      });

  it('gives a split more ways, and never fewer than two', () => {
    const { project } = quinceDoc();
    const split = addPiece(project, '/loop/return', 0, 'split');
    const four = setBranches(split, '/loop/return/0', 4);
    const of = (p: Project) => p.loop.return[0] as { branches: unknown[] };
    expect(of(four).branches).toHaveLength(4);
    expect(legal(four)).toBe(true);
    expect(of(setBranches(four, '/loop/return/0', 1)).branches).toHaveLength(2);
  });

  it('adds and removes suctions and outlets; the last one stays', () => {
    const { project } = quinceDoc();
    for (const kind of ['skimmer', 'mainDrain', 'cleaner'] as const)
      expect(legal(addSuction(project, kind))).toBe(true);
    const two = addOutlet(project, 'overWater');
    expect(legal(two)).toBe(true);
    let one = two;
    for (let i = 0; i < 5; i++) one = removeEntry(one, '/loop/outlets/0');
    expect(one.loop.outlets).toHaveLength(1);
  });

  it('adds a tap to the panel and takes it away', () => {
    const { project } = quinceDoc();
    const more = addTap(project, 'vacuumBreaker');
    expect(legal(more)).toBe(true);
    expect(removeTap(more, project.collector.taps.length).collector.taps).toEqual(project.collector.taps);
  });

  it('counts fittings by kind, and drops a kind at none', () => {
    expect(withFitting([{ kind: 'elbow90', count: 2 }], 'elbow90', 3)).toEqual([
      { kind: 'elbow90', count: 3 },
    ]);
    expect(withFitting([{ kind: 'elbow90', count: 2 }], 'elbow90', 0)).toEqual([]);
    expect(withFitting(undefined, 'teeRun', 1)).toEqual([{ kind: 'teeRun', count: 1 }]);
  });

  it('puts a new point of the pump between the last two, so that the curve still falls', () => {
    const points = addPumpPoint([
      { flow_m3s: 0, head_m: 12 },
      { flow_m3s: 0.004, head_m: 4 },
    ]);
    expect(points.map((q) => q.head_m)).toEqual([12, 8, 4]);
    expect(points.map((q) => q.flow_m3s)).toEqual([0, 0.002, 0.004]);
  });
});

describe('filter, bypass and the end of the return', () => {
  it('change their kind and back, and the file stays legal', () => {
    for (const make of [quinceDoc, ternDoc]) {
      const { project } = make();
      for (const kind of BYPASS_KINDS) {
        const other = setBypass(project, kind);
        expect(other.loop.bypass.kind).toBe(kind);
        expect(legal(other)).toBe(true);
      }
      for (const kind of ['none', 'sand', 'cartridge', 'diatomite'] as const) {
        const other = setFilter(project, kind);
        expect(other.loop.filter?.kind ?? 'none').toBe(kind);
        expect(legal(other)).toBe(true);
      }
      const own = setOwnMouth(project, true);
      expect(legal(own)).toBe(true);
      expect(setOwnMouth(own, false).loop.returnOutlet).toBeUndefined();
    }
  });

  it('keep the share to the collector between three-way valve and two valves', () => {
    const { project } = quinceDoc();
    const share = {
      ...project,
      loop: {
        ...project.loop,
        bypass: { ...setBypass(setBypass(project, 'twoValves'), 'threeWay').loop.bypass },
      },
    };
    const was = project.loop.bypass.kind === 'threeWay' ? project.loop.bypass.toCollector : null;
    expect(share.loop.bypass.kind === 'threeWay' && share.loop.bypass.toCollector).toBe(was);
  });
});

describe('ways before and after sections', () => {
  it('take pieces like any other way', () => {
    const { project } = quinceDoc();
    const [way] = sectionWays(project, 'A');
    const more = addPiece(project, way.path, 0, 'balancing');
    expect(legal(more)).toBe(true);
    expect(
      wayRows(more, sectionWays(more, 'A'), true, 'into').some((row) => row.id === `${way.path}/0`),
    ).toBe(true);
  });
});
