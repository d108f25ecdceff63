import type { Project } from '@sunlap/project/schema/project';
import { addOutlet, addSuction, removeEntry, setOwnMouth } from '../../edits/pieces';
import type { FieldRow } from '../../parts/FieldRows';
import { evenSteps, type Field } from '../../parts/field';
import { heightField } from '../../shape/elementFields';
import { actsAt, changed, choiceAt, numberAt, put } from '../../shape/makeField';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { p } from '../../text/pieces';

type Units = 'us' | 'metric';

function adder<K extends string>(
  id: string,
  label: string,
  words: Record<K, string>,
  run: (project: Project, kind: K) => Project,
): Field {
  return actsAt(
    id,
    label,
    p.add,
    (Object.keys(words) as K[]).map((kind) => ({
      value: kind,
      label: words[kind],
      step: p.added(words[kind], label),
      run: (project: Project) => run(project, kind),
    })),
  );
}

/** Takes one of several away; the last one stays. */
const remover = (count: number, at: string, name: string): Field[] =>
  count < 2
    ? []
    : [
        actsAt(`${at}#remove`, p.changed(name, p.remove), p.remove, [
          {
            value: 'remove',
            label: p.remove,
            step: p.removed(name),
            run: (x: Project) => removeEntry(x, at),
          },
        ]),
      ];

const oneOf = <K extends string>(words: Record<K, string>): { value: K; label: string }[] =>
  (Object.keys(words) as K[]).map((value) => ({ value, label: words[value] }));

/** A chip that names what it holds while it is empty. */
const named = (what: string, value: string | null): string => `${what.toLowerCase()} ${value ?? '–'}`;

function suctionRows(project: Project, units: Units): FieldRow[] {
  const { suctions } = project.loop;
  return suctions.map((s, i): FieldRow => {
    const at = `/loop/suctions/${i}`;
    const name = s.name ?? s.id;
    const fields: Field[] = [
      choiceAt(`${at}/kind`, name, p.suctionKind, oneOf(p.suctionKinds), s.kind, { path: at }),
      numberAt(`${at}/coverRating_m3s`, name, p.rating, {
        kind: 'flow',
        value: s.coverRating_m3s,
        typical: s.coverRating_m3s ?? 0.006,
        min: 1e-5,
        max: 0.1,
        step: evenSteps(units === 'us' ? 1 / 3170 : 1 / 6000),
        chip: named(p.rating, s.coverRating_m3s === undefined ? null : say(s.coverRating_m3s, 'flow', units)),
        path: at,
      }),
      ...(suctions.length < 2
        ? []
        : [
            numberAt(`${at}/share`, name, p.share, {
              kind: 'ratio',
              value: s.share,
              typical: s.share ?? 1 / suctions.length,
              min: 0,
              max: 1,
              step: evenSteps(0.05),
              chip: s.share === undefined ? p.shareByPipes : named(p.share, say(s.share, 'ratio', units)),
              path: at,
            }),
          ]),
      ...remover(suctions.length, at, name),
    ];
    return { id: at, name: p.suctionRow(name), fields: fields.map((field) => ({ field })) };
  });
}

type Mouth = Project['loop']['outlets'][number];

function mouthFields(o: Mouth, at: string, name: string): Field[] {
  return [
    choiceAt(`${at}/kind`, name, p.outletKind, oneOf(p.outletKinds), o.kind, { path: at }),
    numberAt(`${at}/bore_m`, name, p.bore, {
      kind: 'diameter',
      value: o.bore_m,
      typical: o.bore_m ?? 0.019,
      min: 0.003,
      max: 0.3,
      step: evenSteps(0.0015875),
      ...(o.bore_m === undefined ? { chip: p.boreOfPipe } : {}),
      path: at,
    }),
  ];
}

function ownMouthRow(project: Project, units: Units): FieldRow {
  const own = project.loop.returnOutlet;
  const at = '/loop/returnOutlet';
  const way = choiceAt(
    `${at}#kind`,
    p.returnGoes,
    '',
    oneOf(p.returnWays),
    own === undefined ? 'loop' : 'own',
    {
      path: at,
      set: (doc, v) => changed(doc, (x) => setOwnMouth(x, v === 'own')),
    },
  );
  const more =
    own === undefined
      ? []
      : [
          heightField(
            `${at}/height_m`,
            own.name ?? own.id,
            t.fields.outletHeight,
            own.height_m,
            units === 'us',
            'outlet',
          ),
          ...mouthFields(own, at, own.name ?? own.id),
        ];
  return { id: at, name: p.ownMouth, fields: [way, ...more].map((field) => ({ field })) };
}

/** Suctions, outlets, and where the collector's return ends. */
export function endRows(project: Project, units: Units): FieldRow[] {
  const { loop } = project;
  return [
    ...suctionRows(project, units),
    {
      id: 'suctions',
      name: p.suctions,
      fields: [{ field: adder('/loop/suctions#add', p.suctions, p.suction, addSuction) }],
    },
    ...loop.outlets.map((o, i): FieldRow => {
      const at = `/loop/outlets/${i}`;
      const name = o.name ?? o.id;
      const fields = [...mouthFields(o, at, name), ...remover(loop.outlets.length, at, name)];
      return { id: at, name: p.outletRow(name), fields: fields.map((field) => ({ field })) };
    }),
    {
      id: 'outlets',
      name: p.outlets,
      fields: [{ field: adder('/loop/outlets#add', p.outlets, p.outlet, addOutlet) }],
    },
    ownMouthRow(project, units),
    {
      id: 'turnover',
      name: p.turnover,
      fields: [
        {
          field: {
            ...numberAt('/loop/turnoverTarget_h', p.turnover, '', {
              kind: 'count',
              value: loop.turnoverTarget_h,
              typical: 8,
              min: 0.5,
              max: 48,
              step: evenSteps(0.5),
              chip: loop.turnoverTarget_h === undefined ? p.noTurnover : `${loop.turnoverTarget_h} h`,
            }),
            set: put('/loop/turnoverTarget_h'),
            write: (v) => `${Number(v.toPrecision(3))}`,
          },
        },
      ],
    },
  ];
}
