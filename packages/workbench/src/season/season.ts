import { rankNotices } from '@sunlap/engine/numeric/notice';
import { drain } from '@sunlap/engine/season/year';
import type { Project } from '@sunlap/project/schema/project';
import { sayIn } from '../flow/say';
import type { SolverReport } from '../results';
import { obstacleLosses } from '../yard/obstacle-loss';
import { firstAnswer } from './first-answer';
import { type MoneyOptions, seasonMoney } from './money';
import { seasonNotices } from './notices';
import { SeasonBand, seasonRivals } from './rivals';
import { createSeasonCache, type Study, type StudyOptions, studyYear } from './study';
import { suctionChoice } from './suction';
import { type SeasonAnswer, type SeasonValues, seasonValues, swimMonthsOf, worthOf } from './values';
import { compare, whatIfs } from './what-if';

export interface SeasonOptions
  extends Pick<StudyOptions, 'weather' | 'cache' | 'tables' | 'substeps'>,
    MoneyOptions {
  /** False leaves out the rivals of the band; what-ifs and money stay. */
  readonly band?: boolean;
  /** Asked after each piece of work; true ends the study with what there is. */
  readonly stop?: () => boolean;
  readonly onProgress?: (progress: SeasonProgress) => void;
}

/** How far a study is, and what there is by now. */
export interface SeasonProgress {
  /** Of the whole [–]. */
  readonly share: number;
  /** What is being worked on, for a person. */
  readonly doing: string;
  /** Years run and years there are to run. */
  readonly done: number;
  readonly of: number;
  /** The answer so far; null before the first year is whole. Not complete. */
  readonly answer: SeasonAnswer | null;
}

/**
 * The year at once: one run, with and without the collector; no band, no what-ifs, no money. For every change
 * while the person works; the full study is `season`.
 *
 * @example seasonBasic(project, { cache }).result.year.swimDays.with
 */
export function seasonBasic(project: Project, options: SeasonOptions = {}): SeasonAnswer {
  const study = drain(studyYear(project, options));
  const values = seasonValues(project, study);
  return {
    result: values,
    solver: reportOf(study, values),
    band: {},
    notices: rankNotices(seasonNotices(project, study, values, {}, sayIn(project.units))),
    complete: false,
  };
}

/**
 * The full study in pieces: a generator that a worker drives as its time allows. Each piece is about ten days of
 * one run (a few milliseconds). The first whole year comes as a partial answer; changes, the band's rivals and
 * money follow, and each yield carries what there is. Ending early loses nothing.
 *
 * @example
 * const work = seasonSteps(project, { cache });
 * for (let next = work.next(); ; next = work.next()) { if (next.done) return next.value; show(next.value.share); }
 */
export function* seasonSteps(
  project: Project,
  options: SeasonOptions = {},
): Generator<SeasonProgress, SeasonAnswer> {
  const cache = options.cache ?? createSeasonCache();
  // what is tried must not push the project's own network and layout out of the cache
  const spare = { ...createSeasonCache(), shade: cache.shade };
  const say = sayIn(project.units);
  let answer: SeasonAnswer | null = null;
  let done = 0;
  let of = 12;
  const progress = (part: number, doing: string): SeasonProgress => ({
    share: Math.min(1, (done + part) / of),
    doing,
    done,
    of,
    answer,
  });
  function* run(p: Project, over: StudyOptions, doing: string): Generator<SeasonProgress, Study> {
    const work = studyYear(p, { ...options, cache, ...over });
    for (;;) {
      const next = work.next();
      if (next.done) {
        done++;
        return next.value;
      }
      yield progress(next.value, doing);
    }
  }

  const base = yield* run(project, { potential: true }, 'the year as it is');
  const values = seasonValues(project, base);
  values.worth = base.heats ? worthOf(base) : null;
  spare.series = cache.series;
  spare.sun = cache.sun;
  spare.calendar = cache.calendar;
  spare.clock = cache.clock;
  const band = new SeasonBand(values);
  const finished = (complete: boolean): SeasonAnswer => {
    const intervals = band.intervals();
    return {
      result: { ...values },
      solver: reportOf(base, values),
      band: intervals,
      notices: rankNotices(seasonNotices(project, base, values, intervals, say)),
      complete,
    };
  };
  fillQuick(project, base, values);
  const lossOf = (id: string): number => {
    const loss = values.obstacles.find((o) => o.id === id);
    return loss ? loss.year_kWh.pool + loss.year_kWh.collector : 0;
  };
  if (base.heats) values.suction = suctionChoice(project, base, values, say);
  const tries = whatIfs(project, base.plan, base.scene, lossOf).filter(
    (w) => base.heats || w.kind === 'cover' || w.kind === 'felled',
  );
  const rivals =
    options.band === false ? [] : seasonRivals(project).filter((r) => base.heats || inWater(r.group));
  of = 1 + tries.length + rivals.length;
  answer = finished(false);
  yield progress(0, 'what changes would bring');
  for (const tried of tries) {
    const other = tried.project.collector === project.collector ? cache : spare;
    const study = yield* run(tried.project, { cache: other, change: tried.change }, tried.name);
    // a panel whose loop cannot be solved is no comparison
    if (base.heats && !study.heats) continue;
    values.changes = [...values.changes, compare(project, base, tried, study)];
    values.first = firstAnswer(values, values.changes, swimMonthsOf(project));
    values.money = seasonMoney(project, base, values, values.changes, options);
    answer = finished(false);
  }
  for (const rival of rivals) {
    const study = yield* run(project, { change: rival.change }, 'how sure this is');
    band.add(rival.group, seasonValues(project, study));
    answer = finished(false);
  }
  return finished(true);
}

/** Doubts that matter without a collector. */
function inWater(group: string): boolean {
  return group === 'evaporation' || group === 'poolExposure' || group === 'skyLongWave';
}

/** Parts of the answer that need no further run. */
function fillQuick(project: Project, base: Study, values: SeasonValues): void {
  const ground = base.scene.parts.length > 0 ? groundArea(base) : 0;
  values.obstacles = obstacleLosses(
    project,
    base.weather.series,
    base.sun,
    base.calendar,
    base.scene,
    base.shade,
    { pool: base.pool.surface_m2, collector: ground },
  );
}

/** Ground that the collector's parts cover, in its plane [m²]. */
function groundArea(base: Study): number {
  return base.scene.parts.reduce((sum, part) => {
    const [a, b, , d] = part.corners;
    const side = (p: typeof a, q: typeof a): number => Math.hypot(q[0] - p[0], q[1] - p[1], q[2] - p[2]);
    return sum + side(a, b) * side(a, d);
  }, 0);
}

/** The full study in one go; `stop` ends it early with what there is. */
export function season(project: Project, options: SeasonOptions = {}): SeasonAnswer {
  const work = seasonSteps(project, options);
  for (;;) {
    const next = work.next();
    if (next.done) return next.value;
    options.onProgress?.(next.value);
    if (next.value.answer && options.stop?.()) return next.value.answer;
  }
}

/** The balance stands for the solver: a year that does not close never looks like one that does. */
function reportOf(study: Study, values: SeasonValues): SolverReport {
  const { residual, panelResidual } = values.balance;
  const closes = residual <= 1e-6 && panelResidual <= 1e-6;
  return {
    converged: closes && study.flows.converged,
    iterations: study.weather.series.length,
    residual: Math.max(residual, panelResidual),
    ...(closes && study.flows.converged
      ? {}
      : { worst: closes ? 'The flows of the loop.' : 'The balance of the year does not close.' }),
  };
}
