import type { PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { formatQuantity } from '@sunlap/project/units/format';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import type { Hand } from '@sunlap/workbench/cautions/catalogue';
import { valueAt, withValue } from '../../edits/pointer';
import { evenSteps, type Field, type NumberField } from '../../parts/field';
import { moveField, runFields } from '../../shape/pieceFields';
import { pipeName, pipeSize } from '../../shape/pipes';
import type { Doc } from '../../store/doc';
import { t } from '../../text/catalogue';

const put =
  (pointer: string) =>
  (doc: Doc, value: unknown): Doc => ({
    ...doc,
    project: withValue(doc.project, pointer, value),
  });

/** To the inch: nobody lays pipe to an eighth. */
const roughly = (value: number, us: boolean): string =>
  formatQuantity(value, 'length', us ? 'us' : 'metric', us ? { fraction: 1 } : {}).text;

const label = (name: string, what: string) => `${name}: ${what.toLowerCase()}`;

function lengthField(pointer: string, name: string, value: number, us: boolean): NumberField {
  return {
    type: 'number',
    id: `${pointer}/length_m`,
    label: label(name, t.fields.pipeLength),
    kind: 'length',
    value,
    typical: value,
    min: 0.01,
    max: 500,
    step: evenSteps(us ? 0.3048 : 0.25),
    set: put(`${pointer}/length_m`),
    stepName: (v) => t.steps.set(name, v),
    chip: roughly(value, us),
    path: pointer,
    hand: 'pipe',
  };
}

function share(pointer: string, name: string, what: string, value: number, hand: Hand): NumberField {
  return {
    type: 'number',
    id: pointer,
    label: what === '' ? name : label(name, what),
    kind: 'ratio',
    value,
    typical: value,
    min: 0,
    max: 1,
    step: evenSteps(0.05),
    set: put(pointer),
    stepName: (v) => t.steps.set(name, v),
    path: pointer,
    hand,
  };
}

function height(
  pointer: string,
  name: string,
  what: string,
  value: number,
  us: boolean,
  hand: Hand,
): NumberField {
  return {
    type: 'number',
    id: pointer,
    label: label(name, what),
    kind: 'length',
    value,
    typical: value,
    min: -20,
    max: 60,
    step: evenSteps(us ? 0.1524 : 0.1),
    set: put(pointer),
    stepName: (v) => t.steps.set(name, v),
    chip: roughly(value, us),
    path: pointer,
    hand,
  };
}

function ofElement(e: PathElement, pointer: string, us: boolean): Field[] {
  if (e.kind === 'pipe') {
    const name = e.name ?? e.id;
    return [
      {
        type: 'pipe',
        id: `${pointer}/pipe`,
        label: label(name, t.fields.pipe),
        value: e.pipe,
        typical: e.pipe,
        set: put(`${pointer}/pipe`),
        stepName: (v) => t.steps.set(name, v),
        chip: pipeSize(e.pipe),
        hint: pipeName(e.pipe),
        hand: 'pipe',
        path: pointer,
      },
      lengthField(pointer, name, e.length_m, us),
      ...(e.endHeight_m === undefined
        ? []
        : [height(`${pointer}/endHeight_m`, name, t.fields.endHeight, e.endHeight_m, us, 'pipe')]),
      ...runFields(e, pointer, name),
      moveField(pointer, name),
    ];
  }
  if (e.kind === 'valve')
    return [
      share(`${pointer}/opening`, e.name ?? e.id, t.fields.opening, e.opening, 'valve'),
      moveField(pointer, e.name ?? e.id),
    ];
  if (e.kind === 'checkValve') return [moveField(pointer, e.name ?? e.id)];
  if (e.kind === 'split')
    return e.branches.flatMap((b, i) =>
      b.flatMap((x, k) => ofElement(x, `${pointer}/branches/${i}/${k}`, us)),
    );
  return [];
}

/** Everything that can be changed on the Loop sheet, by its place in the project file. */
export function loopFields(project: Project, units: UnitSystem): Field[] {
  const us = units === 'us';
  const { loop } = project;
  const path = (pointer: string) =>
    ((valueAt(project, pointer) as PathElement[] | undefined) ?? []).flatMap((e, i) =>
      ofElement(e, `${pointer}/${i}`, us),
    );
  const fields: Field[] = [];
  loop.suctions.forEach((s, i) => {
    const base = `/loop/suctions/${i}`;
    fields.push(
      height(`${base}/depth_m`, s.name ?? s.id, t.fields.depth, s.depth_m, us, 'suction'),
      ...path(`${base}/path`),
    );
  });
  fields.push(
    ...path('/loop/toPump'),
    {
      ...share('/loop/pump/speed', t.fields.speed, '', loop.pump.speed, 'pump'),
      max: 1.5,
    },
    height(
      '/loop/pump/height_m',
      loop.pump.name ?? t.loop.pump,
      t.fields.outletHeight,
      loop.pump.height_m,
      us,
      'pump',
    ),
    ...path('/loop/toFilter'),
  );
  if (loop.filter !== undefined)
    fields.push({
      type: 'number',
      id: '/loop/filter/dirt',
      label: t.fields.dirt,
      kind: 'count',
      value: loop.filter.dirt,
      typical: loop.filter.dirt,
      min: 1,
      max: 20,
      step: evenSteps(0.25),
      set: put('/loop/filter/dirt'),
      stepName: (v) => t.steps.set(t.fields.dirt, v),
      chip: t.loop.dirtTimes(String(loop.filter.dirt)),
      path: '/loop/filter',
      hand: 'filter',
    });
  fields.push(...path('/loop/toBypass'));
  const { bypass } = loop;
  if (bypass.kind === 'threeWay')
    fields.push(
      share('/loop/bypass/toCollector', t.fields.valve, '', bypass.toCollector, 'valve'),
      ...path('/loop/bypass/past'),
    );
  if (bypass.kind === 'twoValves')
    fields.push(
      share(
        '/loop/bypass/toCollector/opening',
        bypass.toCollector.name ?? t.loop.toCollector,
        t.fields.opening,
        bypass.toCollector.opening,
        'valve',
      ),
      share(
        '/loop/bypass/pastValve/opening',
        bypass.pastValve.name ?? t.loop.pastValve,
        t.fields.opening,
        bypass.pastValve.opening,
        'valve',
      ),
      ...path('/loop/bypass/past'),
    );
  fields.push(...path('/loop/feed'), ...path('/loop/return'), ...path('/loop/toPool'));
  const plumbing = (node: unknown, pointer: string): void => {
    const p = node as { before?: unknown; after?: unknown; series?: unknown[]; parallel?: unknown[] };
    fields.push(...path(`${pointer}/before`), ...path(`${pointer}/after`));
    for (const key of ['series', 'parallel'] as const)
      p[key]?.forEach((part, i) => {
        plumbing(part, `${pointer}/${key}/${i}`);
      });
  };
  plumbing(project.collector.plumbing, '/collector/plumbing');
  loop.outlets.forEach((o, i) => {
    const base = `/loop/outlets/${i}`;
    fields.push(
      ...path(`${base}/path`),
      height(`${base}/height_m`, o.name ?? o.id, t.fields.outletHeight, o.height_m, us, 'outlet'),
    );
  });
  return fields;
}

/** Fields of one piece, the pipe first, then its length. */
export const fieldsAt = (fields: readonly Field[], pointer: string): Field[] =>
  fields.filter((f) => f.path === pointer || f.path?.slice(0, f.path.lastIndexOf('/')) === pointer);
