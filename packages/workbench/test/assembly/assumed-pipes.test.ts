import type { Section } from '@sunlap/project/schema/collector';
import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { assumedLoss, bothEndsArm_m } from '../../src/assembly/assumed-pipes';
import { type AssembledNetwork, assembleNetwork } from '../../src/assembly/network';
import { collector, project, section, TEST_TABLES, tubes } from '../fixtures';

const network = (
  sections: readonly Section[],
  plumbing?: Project['collector']['plumbing'],
): AssembledNetwork =>
  assembleNetwork(project({ collector: collector([...sections], plumbing) }), TEST_TABLES);

/** Length and loss coefficient of the pipes that the file does not describe, by place. */
function joins({ description, infos }: AssembledNetwork): { path: string; length_m: number; k: number }[] {
  return description.links.flatMap(({ law }, i) =>
    infos[i].role === 'join' && law.kind === 'pipe'
      ? [{ path: infos[i].path, length_m: law.length_m, k: law.minorLoss ?? 0 }]
      : [],
  );
}

// by hand, bore 40.9 mm: f_T = 0.02018, an elbow 30 f_T, a tee by its branch 60 f_T, on the pipe's own velocity head
const ELBOWS = 1.2107;
const ELBOWS_AND_TEE = 2.4215;
const BORE_M = 0.0409;
const header = { pipe: 'oneAndHalf', leadIn_m: 0.1 };
const bank = (id: string, over = {}) => tubes(id, { supply: header, gather: header, ...over });

describe('pipe that the file does not describe', () => {
  it('adds up its elbows and its tee', () => {
    expect(assumedLoss({ elbows: 2, tees: 0 }, BORE_M)).toBeCloseTo(ELBOWS, 4);
    expect(assumedLoss({ elbows: 2, tees: 1 }, BORE_M)).toBeCloseTo(ELBOWS_AND_TEE, 4);
    expect(assumedLoss({ elbows: 0, tees: 0 }, BORE_M)).toBe(0);
  });

  it('has no elbow between header ends that face each other in line', () => {
    // ten tubes at 70 mm and lead-ins of 0.1 m: the first bank ends at 0.73 m, the second begins at 1.4 m
    const two = section('a', {
      banks: [bank('a1'), bank('a2', { across_m: 1.5 })],
      handovers: [{ joins: [{ from: 'last', to: 'first' }] }],
    });
    const [join, ...others] = joins(network([two]));
    expect(others).toEqual([]);
    expect(join.k).toBe(0);
    expect(join.length_m).toBeCloseTo(1.5 - 9 * 0.07 - 0.2, 9);
  });

  it('turns twice between header ends side by side', () => {
    const two = section('a', {
      banks: [bank('a1'), bank('a2', { across_m: 1.5 })],
      handovers: [{ joins: [{ from: 'last', to: 'last' }] }],
    });
    const [join] = joins(network([two]));
    expect(join.k).toBeCloseTo(ELBOWS, 4);
    expect(join.length_m).toBeCloseTo(1.5, 9);
  });

  it('goes from one tee to both ends of a header, along half of it and across to its axis', () => {
    const both = section('a', { banks: [bank('a1')], inletEnds: ['first', 'last'] });
    const arms = joins(network([both]));
    expect(arms).toHaveLength(2);
    // half of 9 × 0.07 + 0.2, and four outside diameters of 48.26 mm
    const length = (9 * 0.07 + 0.2) / 2 + 4 * 0.04826;
    for (const arm of arms) {
      expect(arm.length_m).toBeCloseTo(length, 9);
      expect(arm.k).toBeCloseTo(ELBOWS_AND_TEE, 4);
    }
    expect(bothEndsArm_m({ length_m: 9 * 0.07 + 0.2, size: { outer_m: 0.04826 } })).toBeCloseTo(length, 12);
  });

  it('leaves and meets a section beside the first through the branch of a tee', () => {
    const side = [section('a', { banks: [bank('a1')] }), section('b', { u_m: 8, banks: [bank('b1')] })];
    const found = joins(network(side, { parallel: [{ section: 'a' }, { section: 'b' }] }));
    expect(found).toHaveLength(2);
    for (const join of found) {
      expect(join.path).toBe('/collector/plumbing/parallel/1');
      expect(join.k).toBeCloseTo(ELBOWS_AND_TEE, 4);
    }
    const row = joins(network(side, { series: [{ section: 'a' }, { section: 'b' }] }));
    expect(row.map((j) => j.k)).toEqual([expect.closeTo(ELBOWS, 4)]);
  });

  it('reaches from a section to where the next ones part', () => {
    const side = ['a', 'b', 'c'].map((id, i) => section(id, { u_m: 8 * i, banks: [bank(`${id}1`)] }));
    const found = joins(
      network(side, { series: [{ section: 'a' }, { parallel: [{ section: 'b' }, { section: 'c' }] }] }),
    );
    expect(found.map((j) => j.path)).toContain('/collector/plumbing/series/1');
  });
});
