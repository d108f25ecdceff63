import type { Project } from '../schema/project';
import { type FirstAnswers, startProject } from './start-project';

/** The doubts that the first questions can leave. */
export type Doubt = NonNullable<Project['unsure']>[number];

/**
 * Reads the first answers back out of a project that `startProject` made, so that a question can be asked again.
 *
 * @returns null where the project has outgrown them: several sections, coils, another outline of the pool
 * @example answersOf(startProject(usualAnswers('us')))?.tubes // 20
 */
export function answersOf(project: Project): FirstAnswers | null {
  const { site, pool, collector, loop } = project;
  const [section] = collector.sections;
  const [bank] = section.banks;
  const [feed] = loop.feed;
  const { curve } = loop.pump;
  if (collector.sections.length !== 1 || bank.kind !== 'tubes' || feed?.kind !== 'pipe') return null;
  if (curve.kind !== 'shelf' || pool.outline.kind !== 'rectangle') return null;
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
    poolDepth_m: pool.meanDepth_m ?? Number(((pool.shallow_m + pool.deep_m) / 2).toFixed(3)),
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

/**
 * The project with some of its first answers changed. What the first questions do not ask for (test days, prices,
 * stock, season, repairs) stays.
 *
 * @returns the project as it was where it has outgrown the first questions
 */
export function withAnswers(project: Project, change: Partial<FirstAnswers>): Project {
  const answers = answersOf(project);
  if (answers === null) return project;
  const { unsure: _was, ...kept } = project;
  const { name, units, unsure, site, pool, collector, loop } = startProject({ ...answers, ...change });
  return {
    ...kept,
    name,
    units,
    ...(unsure === undefined ? {} : { unsure }),
    site: { ...project.site, ...site, exposure: project.site.exposure },
    pool: { ...project.pool, ...pool },
    collector,
    loop,
  };
}

/** The same doubts with one put in or taken out, each once. */
export function withDoubt(doubts: readonly Doubt[], doubt: Doubt, unsure: boolean): Doubt[] {
  const others = doubts.filter((d) => d !== doubt);
  return unsure ? [...others, doubt] : others;
}
