import type { PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import type { UnitSystem } from '@sunlap/project/units/kinds';
import { valueAt } from '../../edits/pointer';
import { evenSteps, type Field } from '../../parts/field';
import { elementFields, heightField, shareField } from '../../shape/elementFields';
import { put } from '../../shape/makeField';
import { t } from '../../text/catalogue';
import { loopText } from '../../text/loop';

/** Everything that can be changed on the Loop sheet, by its place in the project file. */
export function loopFields(project: Project, units: UnitSystem): Field[] {
  const us = units === 'us';
  const { loop } = project;
  const path = (pointer: string) =>
    ((valueAt(project, pointer) as PathElement[] | undefined) ?? []).flatMap((e, i) =>
      elementFields(e, `${pointer}/${i}`, us),
    );
  const fields: Field[] = [];
  loop.suctions.forEach((s, i) => {
    const base = `/loop/suctions/${i}`;
    fields.push(
      heightField(`${base}/depth_m`, s.name ?? s.id, t.fields.depth, s.depth_m, us, 'suction'),
      ...path(`${base}/path`),
    );
  });
  fields.push(
    ...path('/loop/toPump'),
    {
      ...shareField('/loop/pump/speed', t.fields.speed, '', loop.pump.speed, 'pump'),
      max: 1.5,
    },
    heightField(
      '/loop/pump/height_m',
      loop.pump.name ?? loopText.pump,
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
      chip: loopText.dirtTimes(String(loop.filter.dirt)),
      path: '/loop/filter',
      hand: 'filter',
    });
  fields.push(...path('/loop/toBypass'));
  const { bypass } = loop;
  if (bypass.kind === 'threeWay')
    fields.push(
      shareField('/loop/bypass/toCollector', t.fields.valve, '', bypass.toCollector, 'valve'),
      ...path('/loop/bypass/past'),
    );
  if (bypass.kind === 'twoValves')
    fields.push(
      shareField(
        '/loop/bypass/toCollector/opening',
        bypass.toCollector.name ?? loopText.toCollector,
        t.fields.opening,
        bypass.toCollector.opening,
        'valve',
      ),
      shareField(
        '/loop/bypass/pastValve/opening',
        bypass.pastValve.name ?? loopText.pastValve,
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
      heightField(`${base}/height_m`, o.name ?? o.id, t.fields.outletHeight, o.height_m, us, 'outlet'),
    );
  });
  return fields;
}

/** Fields of one piece, the pipe first, then its length. */
export const fieldsAt = (fields: readonly Field[], pointer: string): Field[] =>
  fields.filter((f) => f.path === pointer || f.path?.slice(0, f.path.lastIndexOf('/')) === pointer);
