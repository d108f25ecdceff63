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
  placeOf,
  removePiece,
  setBranches,
  withFitting,
} from '../edits/pieces';
import { valueAt, withValue } from '../edits/pointer';
import { type ChoiceField, evenSteps, type Field } from '../parts/field';
import { p } from '../text/pieces';
import { actsAt, type Change, changed, choiceAt, named, numberAt, put } from './makeField';

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
        addPiece(
          project,
          path,
          index((valueAt(project, path) as Path | undefined) ?? []),
          kind,
          p.kindNames[kind],
        ),
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

/** Up and down the way of the water, or out of it; and what is put in before it. */
export function moveField(pointer: string, name: string): ChoiceField {
  const { path, index } = placeOf(pointer);
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
      ...PIECE_KINDS.map((kind) => ({
        value: `put-${kind}`,
        label: p.kinds[kind],
        step: p.added(p.kinds[kind], p.beforeIt(name)),
        run: (project: Project) => addPiece(project, path, index, kind, p.kindNames[kind]),
        group: p.putBefore,
      })),
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
