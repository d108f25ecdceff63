import type { Project } from '../schema/project';
import { carryOver } from './merge';
import { type FirstAnswers, startProject } from './start-project';

/** The doubts that the first questions can leave. */
export type Doubt = NonNullable<Project['unsure']>[number];

/**
 * Reads the first answers out of a project, so that a question can be asked again.
 *
 * @returns null where the project has outgrown them and no one answer can be told: several sections, coils, passes
 *   that differ, another outline of the pool, a pump by points, a feed of several pipes
 * @example answersOf(startProject(usualAnswers('us')))?.tubes // 20
 */
export function answersOf(project: Project): FirstAnswers | null {
  const { site, pool, collector, loop } = project;
  const [section] = collector.sections;
  const [bank, ...others] = section.banks;
  const feeds = loop.feed.filter((part) => part.kind === 'pipe');
  const [feed] = feeds;
  const { curve } = loop.pump;
  if (collector.sections.length !== 1 || bank.kind !== 'tubes' || feeds.length !== 1) return null;
  if (curve.kind !== 'shelf' || pool.outline.kind !== 'rectangle') return null;
  const alike = (b: (typeof others)[number]): boolean =>
    b.kind === 'tubes' &&
    b.count === bank.count &&
    b.length_m === bank.length_m &&
    b.pitch_m === bank.pitch_m &&
    b.pipe === bank.pipe;
  if (!others.every(alike)) return null;
  const headers = section.banks.flatMap((b) => (b.kind === 'tubes' ? [b.supply.pipe, b.gather.pipe] : []));
  if (headers.some((pipe) => pipe !== bank.supply.pipe)) return null;
  return {
    name: project.name,
    units: project.units,
    place: site.place,
    latitude_deg: site.latitude_deg,
    longitude_deg: site.longitude_deg,
    elevation_m: site.elevation_m,
    timeZone: site.timeZone,
    poolLength_m: pool.outline.length_m,
    poolWidth_m: pool.outline.width_m,
    poolDepth_m: meanDepth_m(pool),
    pumpShelf: curve.shelf,
    loopPipe: feed.pipe,
    headerPipe: bank.supply.pipe,
    tubePipe: bank.pipe,
    tubes: bank.count,
    tubeLength_m: bank.length_m,
    passes: section.banks.length,
    pitch_m: bank.pitch_m,
    facing_deg: collector.placement.facing_deg,
    tilt_deg: collector.placement.tilt_deg,
    lift_m: collector.placement.lowestHeight_m,
    distance_m: feed.length_m,
    mounting: collector.placement.mounting,
    unsure: project.unsure ?? [],
  };
}

const toMillimetres = (x: number): number => Number(x.toFixed(3));

const meanDepth_m = (pool: Project['pool']): number =>
  pool.meanDepth_m ?? toMillimetres((pool.shallow_m + pool.deep_m) / 2);

/**
 * The project with some of its first answers changed. Only what follows from a changed answer changes, and of that
 * only what still stands as it was begun: a valve put into the feed, a blocked tube, a dirty filter, a panel moved
 * elsewhere stay.
 *
 * @returns the project itself where it has outgrown the first questions, or where no answer differs
 */
export function withAnswers(project: Project, change: Partial<FirstAnswers>): Project {
  const answers = answersOf(project);
  if (answers === null) return project;
  const before = startProject(answers);
  const asked = { ...answers, ...change };
  const mine = withLoopPipe(project, answers.loopPipe, asked.loopPipe);
  return withDepth(carryOver(mine, before, startProject(asked)), asked.poolDepth_m);
}

/** Pool pipe of one kind, wherever it lies in the loop, as another. */
function withLoopPipe(project: Project, was: string, now: string): Project {
  if (was === now) return project;
  const change = (value: unknown): unknown => {
    if (Array.isArray(value)) return value.map(change);
    if (typeof value !== 'object' || value === null) return value;
    return Object.fromEntries(
      Object.entries(value).map(([key, part]) => [
        key,
        key === 'pipe' ? (part === was ? now : part) : change(part),
      ]),
    );
  };
  return { ...project, loop: change(project.loop) as Project['loop'] };
}

/** Another mean depth; a floor that the person shaped keeps its shape. */
function withDepth(project: Project, mean_m: number): Project {
  const { pool } = project;
  const now_m = meanDepth_m(pool);
  if (now_m === mean_m) return project;
  const shallow_m = toMillimetres((pool.shallow_m * mean_m) / now_m);
  const deep_m = toMillimetres((pool.deep_m * mean_m) / now_m);
  const mean = pool.meanDepth_m === undefined ? {} : { meanDepth_m: mean_m };
  return { ...project, pool: { ...pool, shallow_m, deep_m, ...mean } };
}

/** The same doubts with one put in or taken out, each once. */
export function withDoubt(doubts: readonly Doubt[], doubt: Doubt, unsure: boolean): Doubt[] {
  const others = doubts.filter((d) => d !== doubt);
  return unsure ? [...others, doubt] : others;
}
