import { pumps } from '@sunlap/data/pumps';
import type { Project } from '@sunlap/project/schema/project';
import type { CurvePoint } from '@sunlap/workbench/results';
import { addPumpPoint } from '../../edits/pieces';
import { withValue } from '../../edits/pointer';
import type { FieldRow } from '../../parts/FieldRows';
import { evenSteps, type Field } from '../../parts/field';
import { actsAt, changed, choiceAt, numberAt } from '../../shape/makeField';
import { p } from '../../text/pieces';

/** Where the pump runs and what its curve is, so that a change of kind starts from there. */
export interface PumpNow {
  flow_m3s: number;
  head_m: number;
  curve: readonly CurvePoint[];
}

/** Points kept when a curve of the shelf becomes points of its own. */
const KEPT_POINTS = 5;

/** Where the pump's curve comes from, its points, and the point that was measured. */
export function pumpRows(project: Project, now: PumpNow | null): FieldRow[] {
  const { curve } = project.loop.pump;
  const at = '/loop/pump/curve';
  const steps = { step: evenSteps(1 / 15850), min: 0, max: 0.1 };
  const kind: Field = choiceAt(
    `${at}/kind`,
    p.pump,
    p.curveFrom,
    [
      { value: 'points', label: p.curvePoints },
      { value: 'shelf', label: p.curveShelf },
    ],
    curve.kind,
    {
      path: at,
      set: (doc, v) =>
        changed(doc, (project) => {
          if (v === project.loop.pump.curve.kind) return project;
          if (v === 'shelf') return withValue(project, at, { kind: 'shelf', shelf: pumps[0].id });
          const drawn = now?.curve ?? [];
          if (drawn.length < 2) return project;
          const points = Array.from({ length: KEPT_POINTS }, (_, k) => {
            const { flow_m3s, head_m } = drawn[Math.round((k * (drawn.length - 1)) / (KEPT_POINTS - 1))];
            return { flow_m3s, head_m };
          });
          return withValue(project, at, { kind: 'points', points });
        }),
    },
  );
  if (curve.kind === 'shelf') {
    const shelf = choiceAt(
      `${at}/shelf`,
      p.shelf,
      '',
      pumps.map(({ id, label }) => ({ value: id, label })),
      curve.shelf,
    );
    const measured = choiceAt(
      `${at}/measured`,
      p.measured,
      '',
      [
        { value: 'none', label: p.noMeasured },
        { value: 'one', label: p.oneMeasured },
      ],
      curve.measured === undefined ? 'none' : 'one',
      {
        set: (doc, v) =>
          changed(doc, (project) =>
            withValue(
              project,
              `${at}/measured`,
              v === 'one' && now !== null && now.flow_m3s > 0 && now.head_m > 0
                ? { flow_m3s: now.flow_m3s, head_m: now.head_m }
                : undefined,
            ),
          ),
      },
    );
    const point: FieldRow['fields'] =
      curve.measured === undefined
        ? []
        : [
            {
              field: numberAt(`${at}/measured/flow_m3s`, p.measuredFlow, '', {
                kind: 'flow',
                value: curve.measured.flow_m3s,
                typical: curve.measured.flow_m3s,
                ...steps,
                min: 1e-5,
              }),
            },
            {
              field: numberAt(`${at}/measured/head_m`, p.measuredHead, '', {
                kind: 'head',
                value: curve.measured.head_m,
                typical: curve.measured.head_m,
                min: 0.1,
                max: 100,
                step: evenSteps(0.25),
              }),
            },
          ];
    return [
      { id: at, name: p.pump, fields: [{ field: kind }, { field: shelf }, { field: measured }, ...point] },
    ];
  }
  const { points } = curve;
  const acts = actsAt(`${at}/points`, p.points, p.points, [
    {
      value: 'add',
      label: p.addPoint,
      step: p.changed(p.pump, p.addPoint),
      run: (project) => withValue(project, `${at}/points`, addPumpPoint(points)),
      disabled: points.length >= 40,
    },
    {
      value: 'drop',
      label: p.dropPoint,
      step: p.changed(p.pump, p.dropPoint),
      run: (project) => withValue(project, `${at}/points`, points.slice(0, -1)),
      disabled: points.length <= 2,
    },
  ]);
  return [
    { id: at, name: p.pump, fields: [{ field: kind }, { field: acts }] },
    ...points.map((point, i): FieldRow => {
      const own = `${at}/points/${i}`;
      const name = p.point(i + 1);
      return {
        id: own,
        name,
        fields: [
          {
            word: p.pointFlow,
            field: numberAt(`${own}/flow_m3s`, name, p.pointFlow, {
              kind: 'flow',
              value: point.flow_m3s,
              typical: point.flow_m3s,
              ...steps,
            }),
          },
          {
            word: p.pointHead,
            field: numberAt(`${own}/head_m`, name, p.pointHead, {
              kind: 'head',
              value: point.head_m,
              typical: point.head_m,
              min: 0,
              max: 100,
              step: evenSteps(0.25),
            }),
          },
          {
            word: p.pointPower,
            field: numberAt(`${own}/power_W`, name, p.pointPower, {
              kind: 'power',
              value: point.power_W,
              typical: point.power_W ?? 750,
              min: 0,
              max: 20_000,
              step: evenSteps(25),
              ...(point.power_W === undefined ? { chip: '–' } : {}),
            }),
          },
        ],
      };
    }),
  ];
}
