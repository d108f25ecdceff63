import type { QuantityKind } from '@sunlap/project/units/kinds';
import type { Hand } from '@sunlap/workbench/cautions/catalogue';
import type { Doc } from '../store/doc';

interface Common {
  id: string;
  label: string;
  /** Text on the chip in place of the plain value. */
  chip?: string;
  hint?: string;
  /** Where it sends the person's hand. */
  hand?: Hand;
  /** Place in the project file, so that a note can find its field. */
  path?: string;
}

export interface NumberField extends Common {
  type: 'number';
  kind: QuantityKind;
  /** Null where what it stands for differs from place to place. */
  value: number | null;
  /** Shown and stepped from where `value` is null. */
  typical: number;
  min: number;
  max: number;
  /** Writes the value where its kind has too few figures for it. */
  write?: (value: number) => string;
  /** Next value one step on. */
  step: (value: number, way: 1 | -1) => number;
  set: (doc: Doc, value: number) => Doc;
  stepName: (shown: string) => string;
}

export interface ChoiceField extends Common {
  type: 'choice';
  options: readonly { value: string; label: string; disabled?: boolean; group?: string }[];
  value: string | null;
  /** Options that do something, each once, instead of being something. */
  acts?: boolean;
  set: (doc: Doc, value: string) => Doc;
  stepName: (shown: string) => string;
}

export interface PipeField extends Common {
  type: 'pipe';
  value: string | null;
  typical: string;
  set: (doc: Doc, pipe: string) => Doc;
  stepName: (shown: string) => string;
}

export type Field = NumberField | ChoiceField | PipeField;

/** Steps by equal amounts that land on whole multiples. */
export const evenSteps =
  (size: number) =>
  (value: number, way: 1 | -1): number => {
    const k = value / size;
    const near = Math.round(k);
    const at = Math.abs(k - near) < 1e-6 ? near + way : way > 0 ? Math.ceil(k) : Math.floor(k);
    return Number((at * size).toPrecision(12));
  };
