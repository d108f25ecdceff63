import type { Project } from '@sunlap/project/schema/project';
import { withValue } from '../edits/pointer';
import type { ChoiceField, NumberField } from '../parts/field';
import type { Doc } from '../store/doc';
import { t } from '../text/catalogue';

export type Change = (project: Project) => Project;
export const changed = (doc: Doc, change: Change): Doc => ({ ...doc, project: change(doc.project) });

/** Sets one value of the project file. */
export const put =
  (pointer: string) =>
  (doc: Doc, value: unknown): Doc =>
    changed(doc, (project) => withValue(project, pointer, value));

export const named = (name: string, what: string) => `${name}: ${what.toLowerCase()}`;

/** A number by its place in the project file. */
export function numberAt(
  pointer: string,
  name: string,
  what: string,
  spec: Pick<NumberField, 'kind' | 'typical' | 'min' | 'max' | 'step'> & {
    value: number | null | undefined;
    chip?: string | undefined;
    path?: string;
    set?: NumberField['set'];
  },
): NumberField {
  const label = what === '' ? name : named(name, what);
  return {
    type: 'number',
    id: pointer,
    label,
    kind: spec.kind,
    value: spec.value ?? null,
    typical: spec.typical,
    min: spec.min,
    max: spec.max,
    step: spec.step,
    set: spec.set ?? put(pointer),
    stepName: (v) => t.steps.set(label, v),
    ...(spec.chip === undefined ? {} : { chip: spec.chip }),
    ...(spec.path === undefined ? {} : { path: spec.path }),
  };
}

/** A choice by its place in the project file. */
export function choiceAt(
  pointer: string,
  name: string,
  what: string,
  options: readonly { value: string; label: string }[],
  value: string | null,
  extra: {
    chip?: string;
    path?: string;
    hint?: string;
    set?: ChoiceField['set'];
    stepName?: (v: string) => string;
  } = {},
): ChoiceField {
  const label = what === '' ? name : named(name, what);
  const { set = put(pointer), stepName = (v: string) => t.steps.set(label, v), ...rest } = extra;
  return { type: 'choice', id: pointer, label, options, value, set, stepName, ...rest };
}

export interface Act {
  value: string;
  label: string;
  step: string;
  run: Change;
  disabled?: boolean;
  /** Heading over the first of those that belong together. */
  group?: string;
}

/** Choices that do something instead of being something. */
export function actsAt(
  id: string,
  label: string,
  chip: string,
  acts: readonly Act[],
  path?: string,
): ChoiceField {
  return {
    type: 'choice',
    id,
    label,
    chip,
    options: acts.map(({ value, label: l, disabled, group }) => ({
      value,
      label: l,
      ...(disabled === undefined ? {} : { disabled }),
      ...(group === undefined ? {} : { group }),
    })),
    value: null,
    acts: true,
    set: (doc, value) => {
      const act = acts.find((a) => a.value === value);
      return act === undefined ? doc : changed(doc, act.run);
    },
    stepName: (shown) => acts.find((a) => a.label === shown)?.step ?? shown,
    ...(path === undefined ? {} : { path }),
  };
}
