import type { Project } from '@sunlap/project/schema/project';
import type { FieldRow } from '../../parts/FieldRows';
import { p } from '../../text/pieces';
import { endRows } from './end-rows';
import { plantRows } from './plant-rows';
import { type PumpNow, pumpRows } from './pump-rows';
import { hiddenRows, intoRow, sectionWays } from './way-rows';

/** What has no place on the drawing: taps, splits, the pump's points, filter, valve, suctions, outlets, new pieces. */
export function moreRows(project: Project, units: 'us' | 'metric', now: PumpNow | null): FieldRow[] {
  const { loop } = project;
  const common = Object.keys(p.ways)
    .filter((path) => path !== '/loop/bypass/past' || loop.bypass.kind !== 'none')
    .map((path) => ({ path, name: p.ways[path] }));
  const ends = [
    ...loop.suctions.map((s, i) => ({ path: `/loop/suctions/${i}/path`, name: s.name ?? s.id })),
    ...loop.outlets.map((o, i) => ({ path: `/loop/outlets/${i}/path`, name: o.name ?? o.id })),
    ...(loop.returnOutlet === undefined
      ? []
      : [{ path: '/loop/returnOutlet/path', name: loop.returnOutlet.name ?? p.ownMouth }]),
  ];
  const sections = sectionWays(project);
  return [
    ...[...common, ...ends, ...sections].flatMap(({ path }) => hiddenRows(project, path)),
    ...pumpRows(project, now),
    ...plantRows(project, units),
    ...endRows(project, units),
    intoRow([...common, ...ends], p.into),
    intoRow(sections, p.intoSections),
  ];
}
