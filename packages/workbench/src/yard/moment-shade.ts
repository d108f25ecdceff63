import type { Obstacle } from '@sunlap/engine/sun/shade-obstacle';
import { type ShadeTable, skyShare } from '@sunlap/engine/sun/shade-table';
import type { Project } from '@sunlap/project/schema/project';
import type { MomentShade } from '../assembly/heat-shade';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { skyTables, type YardScene, yardScene } from './scene';

interface KeptYard {
  readonly pool: Project['pool'];
  readonly yard: Project['yard'];
  readonly tables: Tables;
  readonly scene: YardScene;
  readonly solids: readonly Obstacle[];
  parts: readonly (ShadeTable | null)[] | null;
}

/** The yard of each collector, while nothing in it moves. */
const yards = new WeakMap<Project['collector'], KeptYard>();
/** Coarse tables by where receiver and things stand, keyed as the season's. */
const known = new Map<string, ShadeTable>();

/**
 * What the things in the yard do to the collector's light with the sun at one place: the solids themselves for direct
 * light, which is cut along every tube where a shadow's edge crosses it, and by section the share of the sky still
 * seen, from the season's table on a coarser grid (within 0.003 of it). It is kept while collector and things stay.
 *
 * @param month 0 = January
 * @returns null where nothing stands
 */
export function momentShade(
  project: Project,
  month: number,
  azimuth_deg: number,
  elevation_deg: number,
  tables: Tables = STANDARD_TABLES,
): MomentShade | null {
  if (!project.pool.screen && !(project.yard && project.yard.obstacles.length > 0)) return null;
  const kept = yardOf(project, tables);
  const { scene, solids } = kept;
  if (solids.length === 0) return null;
  kept.parts ??= skyTables(scene, known);
  const { parts } = kept;
  return {
    solids,
    names: scene.obstacles.map((o) => o.name),
    month,
    azimuth_deg,
    elevation_deg,
    skyOfSection: scene.partOfSection.map((part) => {
      const table = parts[part];
      return table ? skyShare(table, month) : 1;
    }),
  };
}

function yardOf(project: Project, tables: Tables): KeptYard {
  const { collector, pool, yard } = project;
  const kept = yards.get(collector);
  if (kept && kept.pool === pool && kept.yard === yard && kept.tables === tables) return kept;
  const scene = yardScene(project, tables);
  const made = { pool, yard, tables, scene, solids: scene.obstacles.map((o) => o.solid), parts: null };
  yards.set(collector, made);
  return made;
}
