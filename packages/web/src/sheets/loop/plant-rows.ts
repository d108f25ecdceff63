import type { Project } from '@sunlap/project/schema/project';
import { BYPASS_KINDS, setBypass, setFilter } from '../../edits/plant';
import type { FieldRow } from '../../parts/FieldRows';
import { evenSteps, type Field } from '../../parts/field';
import { heightField, numberOf } from '../../shape/elementFields';
import { changed, choiceAt, numberAt } from '../../shape/makeField';
import { p } from '../../text/pieces';

type Units = 'us' | 'metric';
const row = (id: string, name: string, fields: readonly Field[]): FieldRow => ({
  id,
  name,
  fields: fields.map((field) => ({ field })),
});

const FILTERS = Object.keys(p.filterKinds) as (keyof typeof p.filterKinds)[];

function filterRow(project: Project, units: Units): FieldRow {
  const { filter } = project.loop;
  const at = '/loop/filter';
  const us = units === 'us';
  const kind = choiceAt(
    `${at}/kind`,
    p.filter,
    '',
    FILTERS.map((value) => ({ value, label: p.filterKinds[value] })),
    filter?.kind ?? 'none',
    {
      path: at,
      set: (doc, v) => changed(doc, (x) => setFilter(x, FILTERS.find((k) => k === v) ?? 'none')),
    },
  );
  if (filter === undefined) return row(at, p.filter, [kind]);
  return row(at, p.filter, [
    kind,
    heightField(`${at}/height_m`, p.filter, p.filterHeight, filter.height_m ?? 0.8, us, 'filter'),
    ...filter.clean.flatMap((point, i) => [
      numberAt(`${at}/clean/${i}/flow_m3s`, p.filter, p.cleanFlow, {
        kind: 'flow',
        value: point.flow_m3s,
        typical: point.flow_m3s,
        min: 1e-5,
        max: 0.1,
        step: evenSteps(us ? 1 / 15850 : 1 / 60000),
        path: at,
      }),
      numberAt(`${at}/clean/${i}/drop_Pa`, p.filter, p.cleanDrop, {
        kind: 'pressure',
        value: point.drop_Pa,
        typical: point.drop_Pa,
        min: 0,
        max: 500_000,
        step: evenSteps(us ? 1723.69 : 1000),
        path: at,
      }),
    ]),
    numberAt(`${at}/backwash_m3`, p.filter, p.backwash, {
      kind: 'volume',
      value: filter.backwash_m3,
      typical: filter.backwash_m3 ?? 0.6,
      min: 0,
      max: 20,
      step: evenSteps(us ? 0.0378541 : 0.05),
      ...(filter.backwash_m3 === undefined ? { chip: p.noBackwash } : {}),
      path: at,
    }),
  ]);
}

function bypassRow(project: Project): FieldRow {
  const { bypass } = project.loop;
  const at = '/loop/bypass';
  const kind = choiceAt(
    `${at}/kind`,
    p.bypass,
    '',
    BYPASS_KINDS.map((value) => ({ value, label: p.bypassKinds[value] })),
    bypass.kind,
    {
      path: at,
      set: (doc, v) => changed(doc, (x) => setBypass(x, BYPASS_KINDS.find((k) => k === v) ?? bypass.kind)),
    },
  );
  const kv =
    bypass.kind === 'threeWay'
      ? [
          numberOf(`${at}/kv_m3h`, p.bypass, p.kv, bypass.kv_m3h, {
            typical: 50,
            max: 1000,
            step: 5,
            none: p.kvTable,
            path: at,
          }),
        ]
      : [];
  return row(at, p.bypass, [kind, ...kv]);
}

function motorRow(project: Project): FieldRow {
  const { pump } = project.loop;
  const at = '/loop/pump';
  return row(`${at}#motor`, p.motor, [
    numberAt(`${at}/driveLoad_W`, p.motor, p.driveLoad, {
      kind: 'power',
      value: pump.driveLoad_W,
      typical: pump.driveLoad_W ?? 20,
      min: 0,
      max: 2000,
      step: evenSteps(5),
      ...(pump.driveLoad_W === undefined ? { chip: p.noDriveLoad } : {}),
      path: at,
    }),
    numberAt(`${at}/efficiency`, p.motor, p.efficiency, {
      kind: 'ratio',
      value: pump.efficiency,
      typical: pump.efficiency ?? 0.45,
      min: 0.05,
      max: 0.95,
      step: evenSteps(0.01),
      ...(pump.efficiency === undefined ? { chip: p.noEfficiency } : {}),
      path: at,
    }),
  ]);
}

/** Filter, bypass and motor: kinds and figures that the drawing does not show. */
export const plantRows = (project: Project, units: Units): FieldRow[] => [
  motorRow(project),
  filterRow(project, units),
  bypassRow(project),
];
