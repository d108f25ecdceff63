import type { Path, PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import {
  addPiece,
  FITTINGS,
  type FittingKind,
  fittingCount,
  movePiece,
  PIECE_KINDS,
  type PieceKind,
  removePiece,
  setBranches,
  withFitting,
} from '../edits/pieces';
import { valueAt, withValue } from '../edits/pointer';
import { type ChoiceField, evenSteps, type Field, type NumberField } from '../parts/field';
import type { Doc } from '../store/doc';
import { t } from '../text/catalogue';
import { p } from '../text/pieces';

type Change = (project: Project) => Project;
export const changed = (doc: Doc, change: Change): Doc => ({ ...doc, project: change(doc.project) });

/** Sets one value of the project file. */
export const put =
  (pointer: string) =>
  (doc: Doc, value: unknown): Doc =>
    changed(doc, (project) => withValue(project, pointer, value));

const named = (name: string, what: string) => `${name}: ${what.toLowerCase()}`;

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
  extra: { chip?: string; path?: string; set?: ChoiceField['set']; stepName?: (v: string) => string } = {},
): ChoiceField {
  const label = what === '' ? name : named(name, what);
  const { set = put(pointer), stepName = (v: string) => t.steps.set(label, v), ...rest } = extra;
  return { type: 'choice', id: pointer, label, options, value, set, stepName, ...rest };
}

/** Choices that do something instead of being something. */
export function actsAt(
  id: string,
  label: string,
  chip: string,
  acts: readonly { value: string; label: string; step: string; run: Change; disabled?: boolean }[],
  path?: string,
): ChoiceField {
  return {
    type: 'choice',
    id,
    label,
    chip,
    options: acts.map(({ value, label: l, disabled }) => ({
      value,
      label: l,
      ...(disabled === undefined ? {} : { disabled }),
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

/** Put a piece into a way of water, at its end or before a place. */
export function addPieceField(path: string, name: string, index: (list: Path) => number): ChoiceField {
  return actsAt(
    `${path}#add`,
    p.addTo(name),
    p.add,
    PIECE_KINDS.map((kind: PieceKind) => ({
      value: kind,
      label: p.kinds[kind],
      step: p.added(p.kinds[kind], name),
      run: (project: Project) =>
        addPiece(project, path, index((valueAt(project, path) as Path | undefined) ?? []), kind),
    })),
  );
}

/** Counts of the fittings of a run, and another kind of fitting. */
export function fittingFields(
  e: Extract<PathElement, { kind: 'pipe' }>,
  pointer: string,
  name: string,
): Field[] {
  const count = (kind: FittingKind) => fittingCount(e.fittings, kind);
  const set =
    (kind: FittingKind, n: (now: number) => number): Change =>
    (project) => {
      const now = valueAt(project, pointer) as typeof e;
      return withValue(
        project,
        `${pointer}/fittings`,
        withFitting(now.fittings, kind, n(fittingCount(now.fittings, kind))),
      );
    };
  const own = FITTINGS.filter((kind) => count(kind) > 0).map((kind) =>
    numberAt(`${pointer}/fittings/${kind}`, name, p.fittings[kind][1], {
      kind: 'count',
      value: count(kind),
      typical: count(kind),
      min: 0,
      max: 200,
      step: (v, way) => Math.round(v) + way,
      set: (doc, v) =>
        changed(
          doc,
          set(kind, () => Math.round(v)),
        ),
      chip: `${count(kind)} ${p.fittings[kind][count(kind) === 1 ? 0 : 1]}`,
      path: pointer,
    }),
  );
  return [
    ...own,
    actsAt(
      `${pointer}/fittings#add`,
      named(name, p.fittingAdd),
      p.fitting,
      FITTINGS.map((kind) => ({
        value: kind,
        label: p.fittings[kind][0],
        step: p.added(p.fittings[kind][0], name),
        run: set(kind, (n) => n + 1),
      })),
      pointer,
    ),
  ];
}

/** What a run of pipe has beside its size, length and height. */
export function runFields(e: Extract<PathElement, { kind: 'pipe' }>, pointer: string, name: string): Field[] {
  const lanes = e.parallel ?? 1;
  return [
    ...fittingFields(e, pointer, name),
    numberAt(`${pointer}/parallel`, name, p.lanesLabel, {
      kind: 'count',
      value: lanes,
      typical: lanes,
      min: 1,
      max: 20,
      step: (v, way) => Math.round(v) + way,
      set: (doc, v) => put(`${pointer}/parallel`)(doc, Math.round(v)),
      chip: p.lanes(lanes),
      path: pointer,
    }),
    choiceAt(
      `${pointer}/surroundings`,
      name,
      p.surroundings,
      (['sun', 'shade', 'indoors', 'buried'] as const).map((value) => ({ value, label: p.lies[value] })),
      e.surroundings,
      { path: pointer },
    ),
  ];
}

/** Up and down the way of the water, or out of it. */
export function moveField(pointer: string, name: string): ChoiceField {
  return actsAt(
    `${pointer}#move`,
    p.changed(name, p.change),
    p.change,
    [
      {
        value: 'before',
        label: p.before,
        step: p.changed(name, p.before),
        run: (project) => movePiece(project, pointer, -1),
      },
      {
        value: 'after',
        label: p.after,
        step: p.changed(name, p.after),
        run: (project) => movePiece(project, pointer, 1),
      },
      {
        value: 'remove',
        label: p.remove,
        step: p.removed(name),
        run: (project) => removePiece(project, pointer),
      },
    ],
    pointer,
  );
}

const PURPOSES = ['drain', 'bleed', 'airVent', 'vacuumBreaker'] as const;

/** Purpose, state and setting of a tap anywhere. */
export function tapFields(
  tap: { purpose: (typeof PURPOSES)[number]; open?: boolean | undefined; opensAt_Pa?: number | undefined },
  pointer: string,
  name: string,
): Field[] {
  const fields: Field[] = [
    choiceAt(
      `${pointer}/purpose`,
      name,
      p.purpose,
      PURPOSES.map((value) => ({ value, label: p.purposes[value] })),
      tap.purpose,
      { path: pointer },
    ),
  ];
  if (tap.purpose === 'vacuumBreaker')
    fields.push(
      numberAt(`${pointer}/opensAt_Pa`, name, p.opensAt, {
        kind: 'pressure',
        value: tap.opensAt_Pa ?? 0,
        typical: tap.opensAt_Pa ?? 0,
        min: 0,
        max: 90_000,
        step: evenSteps(250),
        path: pointer,
      }),
    );
  else if (tap.purpose !== 'airVent')
    fields.push(
      choiceAt(
        `${pointer}/open`,
        name,
        p.state,
        [
          { value: 'shut', label: p.shut },
          { value: 'open', label: p.open },
        ],
        tap.open === true ? 'open' : 'shut',
        { path: pointer, set: (doc, v) => put(`${pointer}/open`)(doc, v === 'open') },
      ),
    );
  return fields;
}

/** Ways side by side of a split. */
export function splitFields(
  e: Extract<PathElement, { kind: 'split' }>,
  pointer: string,
  name: string,
): Field[] {
  const n = e.branches.length;
  return [
    numberAt(`${pointer}/branches`, name, p.branchesLabel, {
      kind: 'count',
      value: n,
      typical: n,
      min: 2,
      max: 8,
      step: (v, way) => Math.round(v) + way,
      set: (doc, v) => changed(doc, (project) => setBranches(project, pointer, Math.round(v))),
      chip: p.branches(n),
      path: pointer,
    }),
    ...e.branches.map((_, i) =>
      addPieceField(`${pointer}/branches/${i}`, `${name}, ${i + 1}`, (list) => list.length),
    ),
  ];
}

/** Name of an element in lists. */
export function nameOf(e: PathElement): string {
  if (e.name !== undefined) return e.name;
  if (e.kind === 'tap') return p.purposes[e.purpose];
  return e.id;
}
