import { findPipe } from '@sunlap/data/pipes';
import type { PathElement } from '@sunlap/project/schema/path';
import { formatQuantity } from '@sunlap/project/units/format';
import type { Hand } from '@sunlap/workbench/cautions/catalogue';
import { evenSteps, type Field, type NumberField, type PipeField } from '../parts/field';
import { t } from '../text/catalogue';
import { p } from '../text/pieces';
import { choiceAt, named, numberAt, put } from './makeField';
import { moveField, nameOf, runFields } from './pieceFields';
import { pipeName, pipeSize } from './pipes';

/** To the inch: nobody lays pipe to an eighth. */
const roughly = (value: number, us: boolean): string =>
  formatQuantity(value, 'length', us ? 'us' : 'metric', us ? { fraction: 1 } : {}).text;

const plain = (v: number): string => String(Number(v.toPrecision(3)));

export function shareField(
  pointer: string,
  name: string,
  what: string,
  value: number,
  hand: Hand,
): NumberField {
  return {
    ...numberAt(pointer, name, what, {
      kind: 'ratio',
      value,
      typical: value,
      min: 0,
      max: 1,
      step: evenSteps(0.05),
      path: pointer,
    }),
    stepName: (v) => t.steps.set(name, v),
    hand,
  };
}

export function heightField(
  pointer: string,
  name: string,
  what: string,
  value: number,
  us: boolean,
  hand: Hand,
): NumberField {
  return {
    ...numberAt(pointer, name, what, {
      kind: 'length',
      value,
      typical: value,
      min: -20,
      max: 60,
      step: evenSteps(us ? 0.1524 : 0.1),
      chip: roughly(value, us),
      path: pointer,
    }),
    stepName: (v) => t.steps.set(name, v),
    hand,
  };
}

/** Any pipe, by its place in the project file. */
export function pipeAt(pointer: string, name: string, what: string, value: string, path?: string): PipeField {
  return {
    type: 'pipe',
    id: pointer,
    label: named(name, what),
    value,
    typical: value,
    set: put(pointer),
    stepName: (v) => t.steps.set(name, v),
    chip: pipeSize(value),
    hint: pipeName(value),
    hand: 'pipe',
    ...(path === undefined ? {} : { path }),
  };
}

/** A plain number without a unit: shown to three figures. */
export function numberOf(
  pointer: string,
  name: string,
  what: string,
  value: number | undefined,
  spec: { typical: number; max: number; step: number; none: string; path: string },
): NumberField {
  return {
    ...numberAt(pointer, name, what, {
      kind: 'count',
      value,
      typical: spec.typical,
      min: 0,
      max: spec.max,
      step: evenSteps(spec.step),
      chip: value === undefined ? spec.none : `${what} ${plain(value)}`,
      path: spec.path,
    }),
    write: plain,
  };
}

type Of<K extends PathElement['kind']> = Extract<PathElement, { kind: K }>;

function pipeRun(e: Of<'pipe'>, pointer: string, us: boolean): Field[] {
  const name = nameOf(e);
  return [
    pipeAt(`${pointer}/pipe`, name, t.fields.pipe, e.pipe, pointer),
    {
      ...numberAt(`${pointer}/length_m`, name, t.fields.pipeLength, {
        kind: 'length',
        value: e.length_m,
        typical: e.length_m,
        min: 0.01,
        max: 500,
        step: evenSteps(us ? 0.3048 : 0.25),
        chip: roughly(e.length_m, us),
        path: pointer,
      }),
      stepName: (v) => t.steps.set(name, v),
      hand: 'pipe',
    },
    e.endHeight_m === undefined
      ? {
          ...numberAt(`${pointer}/endHeight_m`, name, p.endHeight, {
            kind: 'length',
            value: null,
            typical: 0,
            min: -20,
            max: 60,
            step: evenSteps(us ? 0.1524 : 0.1),
            chip: p.noHeight,
            path: pointer,
          }),
          hand: 'pipe',
        }
      : heightField(`${pointer}/endHeight_m`, name, t.fields.endHeight, e.endHeight_m, us, 'pipe'),
    ...runFields(e, pointer, name),
    numberOf(`${pointer}/extraK`, name, p.extraK, e.extraK, {
      typical: 0,
      max: 200,
      step: 0.5,
      none: p.noExtraK,
      path: pointer,
    }),
    moveField(pointer, name),
  ];
}

/** Size and Kv of what is made for a pipe. */
function sized(e: Of<'valve'> | Of<'checkValve'>, pointer: string, name: string): Field[] {
  return [
    ...(e.pipe === undefined || findPipe(e.pipe) === undefined
      ? []
      : [pipeAt(`${pointer}/pipe`, name, p.sized, e.pipe, pointer)]),
    numberOf(`${pointer}/kv_m3h`, name, p.kv, e.kv_m3h, {
      typical: 50,
      max: 1000,
      step: 5,
      none: p.kvTable,
      path: pointer,
    }),
  ];
}

const VALVES = Object.keys(p.valveTypes) as (keyof typeof p.valveTypes)[];
const DEVICES = Object.keys(p.deviceTypes) as (keyof typeof p.deviceTypes)[];

function valve(e: Of<'valve'>, pointer: string): Field[] {
  const name = nameOf(e);
  return [
    shareField(`${pointer}/opening`, name, t.fields.opening, e.opening, 'valve'),
    choiceAt(
      `${pointer}/type`,
      name,
      p.valveType,
      VALVES.map((value) => ({ value, label: p.valveTypes[value] })),
      e.type,
      { path: pointer },
    ),
    ...sized(e, pointer, name),
    moveField(pointer, name),
  ];
}

function device(e: Of<'device'>, pointer: string, us: boolean): Field[] {
  const flow = (key: string, what: string, value: number | undefined, chip?: string) =>
    numberAt(`${pointer}/${key}`, e.name, what, {
      kind: 'flow',
      value,
      typical: value ?? 0.0016,
      min: 1e-5,
      max: 0.1,
      step: evenSteps(us ? 1 / 15850 : 1 / 60000),
      path: pointer,
      ...(chip === undefined ? {} : { chip }),
    });
  return [
    choiceAt(
      `${pointer}/type`,
      e.name,
      p.deviceType,
      DEVICES.map((value) => ({ value, label: p.deviceTypes[value] })),
      e.type,
      { path: pointer },
    ),
    flow('loss/flow_m3s', p.deviceFlow, e.loss.flow_m3s),
    numberAt(`${pointer}/loss/drop_Pa`, e.name, p.deviceDrop, {
      kind: 'pressure',
      value: e.loss.drop_Pa,
      typical: e.loss.drop_Pa,
      min: 0,
      max: 500_000,
      step: evenSteps(us ? 1723.69 : 1000),
      path: pointer,
    }),
    flow('minFlow_m3s', p.leastFlow, e.minFlow_m3s, e.minFlow_m3s === undefined ? p.noLeastFlow : undefined),
    moveField(pointer, e.name),
  ];
}

/** Everything that can be changed of one element of a way; taps and the ways of a split stand by themselves. */
export function elementFields(e: PathElement, pointer: string, us: boolean): Field[] {
  switch (e.kind) {
    case 'pipe':
      return pipeRun(e, pointer, us);
    case 'valve':
      return valve(e, pointer);
    case 'checkValve':
      return [...sized(e, pointer, nameOf(e)), moveField(pointer, nameOf(e))];
    case 'device':
      return device(e, pointer, us);
    case 'split':
      return e.branches.flatMap((branch, i) =>
        branch.flatMap((x, k) => elementFields(x, `${pointer}/branches/${i}/${k}`, us)),
      );
    case 'tap':
      return [];
  }
}
