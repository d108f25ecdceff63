import { poolCovers } from '@sunlap/data/poolCovers';
import type { Project } from '@sunlap/project/schema/project';
import type { RunPlan, Schedule, Season } from '@sunlap/project/schema/season';
import type { QuantityKind } from '@sunlap/project/units/kinds';
import { type ChoiceField, evenSteps, type Field, type NumberField } from '../../parts/field';
import { t } from '../../text/catalogue';
import { s } from '../../text/season';
import { answer } from './run';

const MONTHS = new Array<boolean>(12).fill(true);
const NIGHT = { from_h: 20, to_h: 9 };

export const withSeason = (project: Project, change: Partial<Season>): Project => ({
  ...project,
  season: { ...project.season, ...change },
});

/** The project without one part of its season. */
export function withoutPart(project: Project, part: keyof Season): Project {
  const { [part]: _, ...rest } = project.season ?? {};
  return { ...project, season: rest };
}

function number(
  id: string,
  label: string,
  kind: QuantityKind,
  value: number,
  range: readonly [number, number, number],
  change: (project: Project, value: number) => Project,
  more: Partial<NumberField> = {},
): NumberField {
  return {
    type: 'number',
    id,
    label,
    kind,
    value,
    typical: value,
    min: range[0],
    max: range[1],
    step: evenSteps(range[2]),
    set: (doc, v) => ({ ...doc, project: change(doc.project, v) }),
    stepName: (shown) => t.steps.set(label, shown),
    ...more,
  };
}

function choice(
  id: string,
  label: string,
  value: string,
  options: readonly { value: string; label: string }[],
  change: (project: Project, value: string) => Project,
  more: Partial<ChoiceField> = {},
): ChoiceField {
  return {
    type: 'choice',
    id,
    label,
    value,
    options,
    set: (doc, v) => ({ ...doc, project: change(doc.project, v) }),
    stepName: (shown) => t.steps.set(label, shown),
    ...more,
  };
}

/** The plan of the file; without one what the year was run with: nine to five by hand, in months that are not cold. */
export function planOf(project: Project): RunPlan {
  const ran = answer.value?.answer.result.months;
  return (
    project.season?.run ?? {
      kind: 'hours',
      months: MONTHS.map((_, m) => ({ from_h: 9, to_h: 17, on: ran === undefined || ran[m].runHours > 0 })),
      limit_C: Math.min(45, project.pool.wish_C + 2),
    }
  );
}

const clock = (h: number) => `${Math.floor(h)}:${String(Math.round((h % 1) * 60)).padStart(2, '0')}`;
const always = (on: readonly Schedule[]) => on.some((o) => o.from_h === o.to_h);

/** Everything that can be changed on the Season sheet. */
export function seasonFields(project: Project): Field[] {
  const plan = planOf(project);
  const { season } = project;
  const one =
    plan.kind === 'hours'
      ? (plan.months.find((m) => m.on) ?? plan.months[0])
      : { from_h: plan.from_h, to_h: plan.to_h };
  const varies =
    plan.kind === 'hours' &&
    plan.months.some((m) => m.on && (m.from_h !== one.from_h || m.to_h !== one.to_h));
  const hours = (key: 'from_h' | 'to_h', label: string) =>
    number(
      `season-${key}`,
      label,
      'count',
      one[key],
      [0, 24, 0.5],
      (p, v) => {
        const now = planOf(p);
        const run: RunPlan =
          now.kind === 'hours'
            ? { ...now, months: now.months.map((m) => ({ ...m, [key]: v })) }
            : { ...now, [key]: v };
        return withSeason(p, { run });
      },
      { chip: varies ? t.chip.varies : clock(one[key]), path: '/season/run' },
    );
  const limit = plan.limit_C ?? 45;
  const fields: Field[] = [
    number(
      'season-wish',
      s.fields.wish,
      'temperature',
      project.pool.wish_C,
      [10, 42, 0.5],
      (p, v) => ({ ...p, pool: { ...p.pool, wish_C: v } }),
      { path: '/pool/wish_C' },
    ),
    choice(
      'season-run',
      s.fields.run,
      plan.kind,
      (['hours', 'controller'] as const).map((value) => ({ value, label: s.options[value] })),
      (p, v) => {
        const now = planOf(p);
        if (now.kind === v) return p;
        const run: RunPlan =
          v === 'hours'
            ? {
                kind: 'hours',
                months: MONTHS.map((on) => ({ from_h: one.from_h, to_h: one.to_h, on })),
                limit_C: limit,
              }
            : {
                kind: 'controller',
                onDifference_K: 5,
                offDifference_K: 1,
                limit_C: limit,
                from_h: 0,
                to_h: 24,
              };
        return withSeason(p, { run });
      },
      { path: '/season/run' },
    ),
    hours('from_h', s.fields.from),
    hours('to_h', s.fields.to),
    number('season-limit', s.fields.limit, 'temperature', limit, [10, 45, 0.5], (p, v) =>
      withSeason(p, { run: { ...planOf(p), limit_C: v } }),
    ),
  ];
  if (plan.kind === 'controller')
    fields.push(
      choice(
        'season-night',
        s.fields.night,
        plan.nightCooling === true ? 'cooling' : 'noCooling',
        (['noCooling', 'cooling'] as const).map((value) => ({ value, label: s.options[value] })),
        (p, v) => withSeason(p, { run: { ...plan, nightCooling: v === 'cooling' } }),
      ),
    );
  const cover = season?.cover;
  fields.push(
    choice(
      'season-cover',
      s.fields.cover,
      cover?.cover ?? 'none',
      [
        { value: 'none', label: s.options.noCover },
        ...poolCovers.map((c) => ({ value: c.id, label: c.name })),
      ],
      (p, v) => {
        if (v !== 'none')
          return withSeason(p, {
            cover: { on: [{ months: MONTHS, ...NIGHT }], ...p.season?.cover, cover: v },
          });
        return withoutPart(p, 'cover');
      },
      { path: '/season/cover' },
    ),
  );
  if (cover !== undefined)
    fields.push(
      choice(
        'season-coverHours',
        s.fields.coverHours,
        always(cover.on) ? 'always' : 'night',
        (['night', 'always'] as const).map((value) => ({ value, label: s.options[value] })),
        (p, v) =>
          withSeason(p, {
            cover: {
              cover: p.season?.cover?.cover ?? cover.cover,
              on: [v === 'always' ? { months: MONTHS, from_h: 0, to_h: 0 } : { months: MONTHS, ...NIGHT }],
            },
          }),
      ),
    );
  const heater = season?.heater;
  fields.push(
    choice(
      'season-heater',
      s.fields.heater,
      heater?.kind ?? 'none',
      (['none', 'gas', 'condensingGas', 'resistance', 'heatPump'] as const).map((value) => ({
        value,
        label: s.options[value],
      })),
      (p, v) => {
        const { heater: old, ...rest } = p.season ?? {};
        if (v === 'none') return { ...p, season: rest };
        const kind = v as NonNullable<typeof heater>['kind'];
        const { efficiency: _, ...kept } = old ?? {
          capacity_W: kind === 'heatPump' ? 15_000 : 60_000,
          setpoint_C: p.pool.wish_C,
          on: [],
        };
        return { ...p, season: { ...rest, heater: { ...kept, kind } } };
      },
      { path: '/season/heater' },
    ),
  );
  if (heater !== undefined)
    fields.push(
      number('season-setpoint', s.fields.setpoint, 'temperature', heater.setpoint_C, [5, 45, 0.5], (p, v) =>
        p.season?.heater === undefined ? p : withSeason(p, { heater: { ...p.season.heater, setpoint_C: v } }),
      ),
    );
  return fields;
}

export const WORDS: Record<string, string> = {
  'season-wish': s.word.wish,
  'season-run': s.word.run,
  'season-from_h': s.word.from,
  'season-to_h': s.word.to,
  'season-limit': s.word.limit,
  'season-cover': s.word.cover,
  'season-coverHours': s.word.on,
  'season-heater': s.word.heater,
  'season-setpoint': s.word.setpoint,
  'season-night': s.word.night,
};
