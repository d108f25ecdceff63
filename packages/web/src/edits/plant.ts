import type { Loop } from '@sunlap/project/schema/loop';
import type { PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';

type Bypass = Loop['bypass'];
export const BYPASS_KINDS = ['none', 'threeWay', 'twoValves'] as const satisfies readonly Bypass['kind'][];
type FilterKind = NonNullable<Loop['filter']>['kind'];

/** Clean drop of a usual filter at 50 gpm [Pa]; common practice, from memory. */
const CLEAN_PA: Record<FilterKind, number> = { sand: 21_000, cartridge: 7000, diatomite: 14_000 };
const CLEAN_FLOW_m3s = 0.0032;

const withLoop = (project: Project, change: Partial<Loop>): Project => ({
  ...project,
  loop: { ...project.loop, ...change },
});

/** Another kind of filter, with what is usual for it; `none` takes it out. */
export function setFilter(project: Project, kind: FilterKind | 'none'): Project {
  const { filter, ...loop } = project.loop;
  if (kind === filter?.kind) return project;
  if (kind === 'none') return { ...project, loop };
  return withLoop(project, {
    filter: {
      height_m: 0.8,
      dirt: 1,
      ...filter,
      kind,
      clean: [{ flow_m3s: CLEAN_FLOW_m3s, drop_Pa: CLEAN_PA[kind] }],
    },
  });
}

const runOf = (list: readonly PathElement[]) => list.find((e) => e.kind === 'pipe');

/**
 * Another way of sending water past the collector. The way past stays where there was one; the share to the
 * collector becomes the opening of the valve, and back.
 */
export function setBypass(project: Project, kind: Bypass['kind']): Project {
  const { bypass, feed, toBypass, toPool } = project.loop;
  if (kind === bypass.kind) return project;
  if (kind === 'none') return withLoop(project, { bypass: { kind } });
  const pipe = [feed, toBypass, toPool].map(runOf).find((run) => run !== undefined)?.pipe ?? '';
  const past: PathElement[] =
    bypass.kind === 'none'
      ? [{ kind: 'pipe', id: 'short-way', pipe, length_m: 1, surroundings: 'shade' }]
      : bypass.past;
  const share =
    bypass.kind === 'threeWay'
      ? bypass.toCollector
      : bypass.kind === 'twoValves'
        ? bypass.toCollector.opening
        : 1;
  if (kind === 'threeWay')
    return withLoop(project, { bypass: { kind, id: 'valve', pipe, toCollector: share, past } });
  const valve = { kind: 'valve' as const, type: 'ball' as const, pipe };
  return withLoop(project, {
    bypass: {
      kind,
      toCollector: { ...valve, id: 'to-collector', role: 'toCollector', opening: share },
      pastValve: { ...valve, id: 'past-collector', role: 'past', opening: 1 - share },
      past,
    },
  });
}
