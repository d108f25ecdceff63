import type { Notice } from '@sunlap/engine/numeric/notice';
import { parseProject, readProject } from '@sunlap/project/file/read';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import quince from '../../../../examples/quince-yard.json';
import tern from '../../../../examples/tern-roof.json';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { flow } from '../../src/flow/flow';
import { solveFlow } from '../../src/flow/flow-basic';
import { applyEdits } from '../../src/mending/edits';
import { withMends } from '../../src/mending/tried';
import { randomLayout } from '../build/random-layout';

function example(file: unknown): Project {
  const read = readProject(JSON.stringify(file));
  if (!read.ok) throw new Error('the example does not read');
  return read.project;
}

const started = (over: object): Project => startProject({ ...usualAnswers('us'), ...over });
const projects: [string, Project][] = [
  ['quince', example(quince)],
  ['tern', example(tern)],
  ['a first panel of two passes', started({})],
  ['one pass, level', started({ passes: 1, tilt_deg: 0 })],
  ...[2, 5, 7, 11, 17].map((seed): [string, Project] => [`layout ${seed}`, randomLayout(seed)]),
];

/** Everything that the study finds without starting from empty, which no mend here is about. */
const found = (project: Project): Notice[] => flow(project, { startUp: false, breaker: false }).notices;
const mended = (project: Project): Notice[] =>
  withMends(project, solveFlow(project), found(project), STANDARD_TABLES);

const RANK = ['info', 'unsure', 'heat', 'damage', 'safety'];
/** Rank of the worst finding of each kind. */
const worst = (notices: readonly Notice[]): Map<string, number> => {
  const out = new Map<string, number>();
  for (const n of notices) out.set(n.code, Math.max(out.get(n.code) ?? 0, RANK.indexOf(n.severity)));
  return out;
};

describe('a step that mends', () => {
  const offered = new Map<string, number>();

  it.each(projects)('takes its finding away and brings no worse one: %s', (_, project) => {
    const before = mended(project);
    const were = worst(before);
    for (const notice of before) {
      if (!notice.mend) continue;
      offered.set(notice.code, (offered.get(notice.code) ?? 0) + 1);
      const after = applyEdits(project, notice.mend.edits)!;
      expect(parseProject(after).ok).toBe(true);
      const left = worst(found(after));
      expect([...left.keys()], notice.mend.label).not.toContain(notice.code);
      for (const [code, rank] of left) {
        // whether friction is known hangs on the last litre of flow, not on the change
        if (code === 'friction-unknown') continue;
        expect(rank, `${code} after: ${notice.mend.label}`).toBeLessThanOrEqual(were.get(code) ?? 0);
      }
    }
  });

  it('is offered for each kind of finding somewhere, and not everywhere', () => {
    for (const code of ['does-not-drain', 'first-fill-traps-air', 'air-holds-in-tubes'])
      expect(offered.get(code) ?? 0, code).toBeGreaterThan(0);
    // coils hold their water whatever is done to the rest
    const roof = mended(projects[1][1]).find((n) => n.code === 'does-not-drain');
    expect(roof).toBeDefined();
    expect(roof?.mend).toBeUndefined();
  });
});

describe('edits', () => {
  it('set, append, and share what lies beside', () => {
    const root = { a: [{ b: 1 }, { b: 2 }], c: { d: 3 } };
    const out = applyEdits(root, [
      { path: '/a/1/b', value: 5 },
      { path: '/a/-', value: { b: 6 } },
      { path: '/c/e', value: 7 },
    ]);
    expect(out).toEqual({ a: [{ b: 1 }, { b: 5 }, { b: 6 }], c: { d: 3, e: 7 } });
    expect(out?.a[0]).toBe(root.a[0]);
    expect(root.a).toHaveLength(2);
  });

  it('do nothing by halves where a place is missing', () => {
    const root = { a: [1] };
    expect(
      applyEdits(root, [
        { path: '/a/-', value: 2 },
        { path: '/a/7', value: 3 },
      ]),
    ).toBeNull();
    expect(applyEdits(root, [{ path: '/b/c/d', value: 3 }])).toBeNull();
    expect(applyEdits(root, [{ path: '/a/x', value: 3 }])).toBeNull();
  });
});
