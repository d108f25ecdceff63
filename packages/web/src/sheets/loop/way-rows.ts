import type { Plumbing } from '@sunlap/project/schema/collector';
import type { Path, PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { leaves } from '../../edits/plumbing';
import { valueAt } from '../../edits/pointer';
import type { FieldRow } from '../../parts/FieldRows';
import { elementFields } from '../../shape/elementFields';
import { addPieceField, moveField, nameOf, splitFields, tapFields } from '../../shape/pieceFields';
import { p } from '../../text/pieces';

/** Taps and splits of a way of water, which the drawing does not show. */
export function hiddenRows(project: Project, pointer: string): FieldRow[] {
  const list = (valueAt(project, pointer) as Path | undefined) ?? [];
  return list.flatMap((e: PathElement, i): FieldRow[] => {
    const at = `${pointer}/${i}`;
    const name = nameOf(e);
    if (e.kind === 'tap')
      return [
        {
          id: at,
          name,
          fields: [...tapFields(e, at, name), moveField(at, name)].map((field) => ({ field })),
        },
      ];
    if (e.kind !== 'split') return [];
    return [
      {
        id: at,
        name,
        fields: [...splitFields(e, at, name), moveField(at, name)].map((field) => ({ field })),
      },
      ...e.branches.flatMap((_, k) => hiddenRows(project, `${at}/branches/${k}`)),
    ];
  });
}

/** A way of water by its place in the project file. */
export interface Way {
  path: string;
  name: string;
}

/** Ways before and after each section, and before and after sections that are joined. */
export function sectionWays(project: Project, scope: string | null = null): Way[] {
  const { collector } = project;
  const named = (id: string): string => collector.sections.find((s) => s.id === id)?.name ?? id;
  const out: Way[] = [];
  const walk = (node: Plumbing, pointer: string): void => {
    const own = leaves(node).map((leaf) => leaf.section ?? '');
    if (scope === null || own.includes(scope)) {
      const name = own.map(named).join(', ');
      out.push({ path: `${pointer}/before`, name: p.beforeWay(name) });
      out.push({ path: `${pointer}/after`, name: p.afterWay(name) });
    }
    for (const key of ['series', 'parallel'] as const)
      node[key]?.forEach((part, i) => {
        walk(part, `${pointer}/${key}/${i}`);
      });
  };
  walk(collector.plumbing, '/collector/plumbing');
  return out;
}

/** Chips that put a piece at the end of each way. */
export const intoRow = (ways: readonly Way[], name: string): FieldRow => ({
  id: `into ${ways[0]?.path ?? ''}`,
  name,
  fields: ways.map((way) => {
    const field = addPieceField(way.path, way.name, (list) => list.length);
    return { field: { ...field, chip: `+ ${way.name}` } };
  }),
});

/** Every piece of some ways, each with its controls, and a row that puts more into them. */
export function wayRows(project: Project, ways: readonly Way[], us: boolean, into: string): FieldRow[] {
  const rows = ways.flatMap(({ path }): FieldRow[] => {
    const list = (valueAt(project, path) as Path | undefined) ?? [];
    return list.flatMap((e, i): FieldRow[] => {
      const fields = elementFields(e, `${path}/${i}`, us);
      return e.kind === 'tap' || e.kind === 'split' || fields.length === 0
        ? []
        : [{ id: `${path}/${i}`, name: nameOf(e), fields: fields.map((field) => ({ field })) }];
    });
  });
  return [...rows, ...ways.flatMap(({ path }) => hiddenRows(project, path)), intoRow(ways, into)];
}
