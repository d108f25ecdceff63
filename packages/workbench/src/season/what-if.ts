import type { Project } from '@sunlap/project/schema/project';
import type { RunPlan as FilePlan } from '@sunlap/project/schema/season';
import type { YardScene } from '../yard/scene';
import { coverOf, USUAL_COVER } from './assumed';
import { moreTubes } from './more-tubes';
import type { Study, StudyChange } from './study';
import { meanOver, type SeasonChange, swimDaysOf, swimMonthsOf } from './values';

/** A change to try: another project or another yard. */
export interface WhatIf {
  readonly id: string;
  readonly name: string;
  readonly kind: SeasonChange['kind'];
  readonly present: boolean;
  readonly project: Project;
  readonly change: StudyChange;
}

/** Trees that are tried at most; the ones that keep off most sun come first. */
const MOST_TREES = 3;
/** A bigger panel is half as much again. */
const BIGGER = 0.5;
const NEXT = 10;

/** What could be done: a cover, ten more tubes, a bigger panel, two more hours a day, each tree felled. */
export function whatIfs(
  project: Project,
  plan: FilePlan,
  scene: YardScene,
  lossOf: (id: string) => number,
): WhatIf[] {
  const { season, collector } = project;
  const out: WhatIf[] = [];
  const had = coverOf(season);
  const night = { months: new Array<boolean>(12).fill(true), from_h: 20, to_h: 9 };
  out.push({
    id: 'cover',
    name: had ? `The cover (${had.name.toLowerCase()})` : 'A clear bubble cover from eight to nine',
    kind: 'cover',
    present: had !== null,
    project: {
      ...project,
      season: had ? without(season) : { ...season, cover: { cover: USUAL_COVER, on: [night] } },
    },
    change: {},
  });
  const total = collector.sections.reduce((s, sec) => s + sec.banks.reduce((n, b) => n + b.count, 0), 0);
  const tubes = collector.sections.every((s) => s.banks.every((b) => b.kind === 'tubes'));
  const next = tubes ? NEXT : 1;
  const grow = (id: string, kind: 'tubes' | 'bigger', count: number, name: string): void => {
    const grown = moreTubes(collector, count);
    if (grown.added < count) return;
    out.push({
      id,
      name,
      kind,
      present: false,
      project: { ...project, collector: grown.collector },
      change: {},
    });
  };
  grow('tubes', 'tubes', next, tubes ? `The next ${NEXT} tubes` : 'The next coil or absorber');
  grow('bigger', 'bigger', Math.max(1, Math.round(BIGGER * total)), 'A panel half as big again');
  const longer = longerDay(plan);
  if (longer)
    out.push({
      id: 'longer',
      name: 'Two more hours a day',
      kind: 'longer',
      present: false,
      project: { ...project, season: { ...season, run: longer } },
      change: {},
    });
  scene.obstacles
    .map((o, felled) => ({ o, felled }))
    .filter(({ o }) => o.what === 'tree')
    .sort((a, b) => lossOf(b.o.id) - lossOf(a.o.id))
    .slice(0, MOST_TREES)
    .forEach(({ o, felled }) => {
      out.push({
        id: `felled-${o.id}`,
        name: `Without ${o.name}`,
        kind: 'felled',
        present: false,
        project,
        change: { felled },
      });
    });
  return out;
}

function without(season: Project['season']): Project['season'] {
  if (!season) return season;
  const { cover: _, ...rest } = season;
  return rest;
}

/** One hour earlier and one later; null for a controller, which needs no hours. */
function longerDay(plan: FilePlan): FilePlan | null {
  if (plan.kind !== 'hours' || !plan.months.some((m) => m.on)) return null;
  return {
    ...plan,
    months: plan.months.map((m) =>
      m.on && m.to_h > m.from_h
        ? { ...m, from_h: Math.max(0, m.from_h - 1), to_h: Math.min(24, m.to_h + 1) }
        : m,
    ),
  };
}

/** Compares a change with the project as it is; what is there already is turned round to what it brings. */
export function compare(project: Project, base: Study, tried: WhatIf, study: Study): SeasonChange {
  const sign = tried.present ? -1 : 1;
  const months = swimMonthsOf(project);
  const days = (s: Study, which: 'with' | 'without'): number[] => swimDaysOf(project, s, s.year[which]);
  const sum = (list: readonly number[]): number => list.reduce((a, b) => a + b, 0);
  const total = (list: Float64Array): number => list.reduce((a, b) => a + b, 0);
  const added = (which: 'with' | 'without'): number =>
    sign * (sum(days(study, which)) - sum(days(base, which)));
  const warmer = (which: 'with' | 'without'): number =>
    sign *
    (meanOver(study.year[which], study.year.month_s, months) -
      meanOver(base.year[which], base.year.month_s, months));
  const fuel = (which: 'with' | 'without'): number =>
    (-sign * (total(study.year[which].fuel_J) - total(base.year[which].fuel_J))) / 3.6e6;
  const [shown, before] = tried.present ? [base, study] : [study, base];
  return {
    id: tried.id,
    name: tried.name,
    kind: tried.kind,
    present: tried.present,
    swimDaysAdded: { with: added('with'), without: added('without') },
    warmer_K: { with: warmer('with'), without: warmer('without') },
    collectorHeatAdded_kWh:
      (sign * (total(study.year.collector.heat_J) - total(base.year.collector.heat_J))) / 3.6e6,
    fuelSaved_kWh: { with: fuel('with'), without: fuel('without') },
    swimDays: { with: days(shown, 'with'), without: days(shown, 'without') },
    swimDaysBefore: { with: days(before, 'with'), without: days(before, 'without') },
  };
}
