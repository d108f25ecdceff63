import type { Bank, Collector, HeaderEnd, Section } from '@sunlap/project/schema/collector';
import type { PathElement } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { addTap, removeTap } from '../../edits/pieces';
import { withValue } from '../../edits/pointer';
import type { FieldRow } from '../../parts/FieldRows';
import { evenSteps } from '../../parts/field';
import { actsAt, changed, choiceAt, numberAt, put } from '../../shape/makeField';
import { fittingFields, tapFields } from '../../shape/pieceFields';
import { pipeSize } from '../../shape/pipes';
import { say } from '../../shape/quantity';
import { t } from '../../text/catalogue';
import { loopText } from '../../text/loop';
import { p } from '../../text/pieces';
import { sectionWays, wayRows } from '../loop/way-rows';

const HEADERS = ['supply', 'gather'] as const;
const endWord = (end: HeaderEnd): string => (end === 'first' ? p.part.firstWord : p.part.lastWord);
const nameOf = (b: Bank): string => b.name ?? b.id;

/** Angle of a section's tubes from level towards up-slope, whichever way it is said. */
function angleOf(s: Section): number {
  return s.direction === 'slope' ? 90 : s.direction === 'contour' ? 0 : (s.angle_deg ?? 0);
}

function sectionRow(s: Section, i: number, units: 'us' | 'metric'): FieldRow {
  const at = `/collector/sections/${i}`;
  const name = s.name ?? s.id;
  const angle = angleOf(s);
  const turn = (project: Project, v: number): Project =>
    withValue(project, at, {
      ...project.collector.sections[i],
      direction: v === 0 ? 'contour' : v === 90 ? 'slope' : 'angle',
      angle_deg: v === 0 || v === 90 ? undefined : v,
    });
  return {
    id: at,
    name,
    fields: [
      {
        field: numberAt(`${at}/angle_deg`, name, p.part.angle, {
          kind: 'angle',
          value: angle,
          typical: angle,
          min: -179,
          max: 180,
          step: evenSteps(5),
          set: (doc, v) => changed(doc, (project) => turn(project, v)),
          chip: p.part.turned(say(angle, 'angle', units)),
        }),
      },
    ],
  };
}

/** Which ends of a header something is joined to. */
function joinedEnds(s: Section, k: number, header: 'supply' | 'gather'): readonly HeaderEnd[] {
  if (header === 'supply')
    return k === 0 ? s.inletEnds : (s.handovers[k - 1]?.joins ?? []).map((join) => join.to);
  return k === s.banks.length - 1 ? s.outletEnds : (s.handovers[k]?.joins ?? []).map((join) => join.from);
}

/** Lead-in, spare ends and fall of a pass's headers. */
function headerRows(s: Section, i: number, k: number, us: boolean): FieldRow[] {
  const bank = s.banks[k];
  if (bank.kind === 'rated') return [];
  const base = `/collector/sections/${i}/banks/${k}`;
  const pitch = bank.kind === 'tubes' ? bank.pitch_m : (bank.pitch_m ?? bank.outerDiameter_m);
  return HEADERS.flatMap((header): FieldRow[] => {
    const own = bank[header];
    if (own === undefined) return [];
    const at = `${base}/${header}`;
    const name = `${nameOf(bank)}, ${p.part.header[header]}`;
    const joined = joinedEnds(s, k, header);
    const spare = (end: HeaderEnd): FieldRow['fields'] => {
      if (joined.includes(end)) return [];
      const key = end === 'first' ? 'spareFirst' : 'spareLast';
      return [
        {
          word: endWord(end),
          field: choiceAt(
            `${at}/${key}`,
            name,
            end === 'first' ? p.part.spareFirst : p.part.spareLast,
            [
              { value: 'cap', label: p.part.cap },
              { value: 'valve', label: p.part.valve },
            ],
            own[key] ?? 'cap',
          ),
        },
      ];
    };
    const fall =
      header === 'supply' && bank.kind === 'tubes'
        ? [
            {
              word: p.part.headerFallWord,
              field: numberAt(`${base}/headerFall_mPerM`, nameOf(bank), p.part.headerFall, {
                kind: 'slope',
                value: bank.headerFall_mPerM ?? 0,
                typical: bank.headerFall_mPerM ?? 0,
                min: -0.5,
                max: 0.5,
                step: evenSteps(us ? 1 / 192 : 0.005),
              }),
            },
          ]
        : [];
    return [
      {
        id: at,
        name,
        fields: [
          {
            word: p.part.leadWord,
            field: numberAt(`${at}/leadIn_m`, name, p.part.leadIn, {
              kind: 'smallLength',
              value: own.leadIn_m ?? pitch / 2,
              typical: own.leadIn_m ?? pitch / 2,
              min: 0,
              max: 5,
              step: evenSteps(us ? 0.0254 : 0.02),
            }),
          },
          ...spare('first'),
          ...spare('last'),
          ...fall,
        ],
      },
    ];
  });
}

/** Own pipe of a hand-over where one was drawn, else what is taken for it. */
function handoverRows(s: Section, i: number, us: boolean): FieldRow[] {
  return s.handovers.flatMap((handover, k) =>
    handover.joins.map((join, n): FieldRow => {
      const at = `/collector/sections/${i}/handovers/${k}/joins/${n}`;
      const [from, to] = [s.banks[k], s.banks[k + 1]];
      const name = `${p.part.handover(nameOf(from), nameOf(to))}, ${endWord(join.from)}`;
      const pipe = from.kind === 'rated' ? from.headerPipe : (from.gather?.pipe ?? from.pipe);
      const kind = choiceAt(
        `${at}/path`,
        name,
        p.part.handoverKind,
        [
          { value: 'assumed', label: p.part.assumed },
          ...(pipe === undefined ? [] : [{ value: 'own', label: p.part.own }]),
        ],
        join.path === undefined ? 'assumed' : 'own',
        {
          set: (doc, v) => {
            if ((v === 'own') === (join.path !== undefined)) return doc;
            const run: PathElement = {
              kind: 'pipe',
              id: `${from.id}-${to.id}-${join.from}`,
              pipe: pipe ?? '',
              length_m: 0.3,
              fittings: [{ kind: 'elbow90', count: 2 }],
              surroundings: 'sun',
            };
            return put(`${at}/path`)(doc, v === 'own' ? [run] : undefined);
          },
        },
      );
      const runs = (join.path ?? []).flatMap((e, m): FieldRow['fields'] => {
        if (e.kind !== 'pipe') return [];
        const own = `${at}/path/${m}`;
        return [
          {
            field: {
              type: 'pipe',
              id: `${own}/pipe`,
              label: `${name}: ${t.fields.pipe.toLowerCase()}`,
              value: e.pipe,
              typical: e.pipe,
              set: put(`${own}/pipe`),
              stepName: (v) => t.steps.set(name, v),
              chip: pipeSize(e.pipe),
              hand: 'pipe',
            },
          },
          {
            word: loopText.word.length,
            field: numberAt(`${own}/length_m`, name, t.fields.pipeLength, {
              kind: 'length',
              value: e.length_m,
              typical: e.length_m,
              min: 0.01,
              max: 100,
              step: evenSteps(us ? 0.0762 : 0.05),
            }),
          },
          ...fittingFields(e, own, name).map((field) => ({ field })),
        ];
      });
      return { id: at, name, fields: [{ field: kind }, ...runs] };
    }),
  );
}

type Tap = Collector['taps'][number];
const keyOf = (at: Tap['at']): string => [at.section, at.bank, at.header, at.end].join('|');

function tapRows(collector: Collector, scope: string | null): FieldRow[] {
  const places = collector.sections.flatMap((s) =>
    s.banks.flatMap((b) =>
      b.kind !== 'rated' && b.supply === undefined
        ? []
        : HEADERS.flatMap((header) =>
            (['first', 'last'] as const).map((end): { at: Tap['at']; label: string } => ({
              at: { section: s.id, bank: b.id, header, end },
              label: p.part.place(nameOf(b), p.part.header[header], endWord(end)),
            })),
          ),
    ),
  );
  const rows = collector.taps.flatMap((tap, i): FieldRow[] => {
    if (scope !== null && tap.at.section !== scope) return [];
    const at = `/collector/taps/${i}`;
    const bank = collector.sections.flatMap((s) => s.banks).find((b) => b.id === tap.at.bank);
    const name = p.part.tap(p.purposes[tap.purpose], bank === undefined ? tap.at.bank : nameOf(bank));
    const where = choiceAt(
      `${at}/at`,
      name,
      p.part.tapAt,
      places.map((place) => ({ value: keyOf(place.at), label: place.label })),
      keyOf(tap.at),
      {
        path: at,
        set: (doc, v) => {
          const place = places.find((x) => keyOf(x.at) === v);
          return place === undefined ? doc : put(`${at}/at`)(doc, place.at);
        },
      },
    );
    const gone = actsAt(`${at}#remove`, p.changed(name, p.remove), p.remove, [
      { value: 'remove', label: p.remove, step: p.removed(name), run: (project) => removeTap(project, i) },
    ]);
    const fields = [...tapFields(tap, at, name), where, gone].map((field) => ({ field }));
    return [{ id: at, name, fields }];
  });
  const purposes = Object.keys(p.purposes) as Tap['purpose'][];
  const add = actsAt(
    '/collector/taps#add',
    p.part.addTapLabel,
    p.part.addTap,
    purposes.map((purpose) => ({
      value: purpose,
      label: p.kinds[purpose],
      step: p.added(p.kinds[purpose], p.part.taps.toLowerCase()),
      run: (project: Project) => addTap(project, purpose),
      disabled: places.length === 0,
    })),
  );
  return [...rows, { id: 'taps', name: p.part.taps, fields: [{ field: add }] }];
}

/** What has no place on the drawing of the panel, section by section; taps last. */
export function partRows(project: Project, scope: string | null, units: 'us' | 'metric'): FieldRow[] {
  const us = units === 'us';
  const { collector } = project;
  const rows = collector.sections.flatMap((s, i) =>
    scope !== null && s.id !== scope
      ? []
      : [
          sectionRow(s, i, units),
          ...s.banks.flatMap((_, k) => headerRows(s, i, k, us)),
          ...handoverRows(s, i, us),
        ],
  );
  return [
    ...rows,
    ...wayRows(project, sectionWays(project, scope), us, p.intoSections),
    ...tapRows(collector, scope),
  ];
}
