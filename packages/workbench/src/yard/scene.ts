import type { ShadeReceiver } from '@sunlap/engine/sun/shade-grid';
import { checkObstacle, type Obstacle, type PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import { type ShadeTable, shadeTable } from '@sunlap/engine/sun/shade-table';
import type { Project } from '@sunlap/project/schema/project';
import type { YardObstacle } from '@sunlap/project/schema/season';
import { panelGeometry } from '../assembly/geometry';
import type { Tables } from '../assembly/tables';
import { outlinePoints } from './outline';

/** One thing that throws shadows, with its place in the file; the pool's screen comes last, without one. */
export interface SceneObstacle {
  readonly id: string;
  readonly name: string;
  readonly what: 'house' | 'wall' | 'fence' | 'hedge' | 'other' | 'tree' | 'screen';
  readonly solid: Obstacle;
}

/** The yard as the sun sees it. */
export interface YardScene {
  readonly obstacles: readonly SceneObstacle[];
  readonly pool: ShadeReceiver;
  /** Parts of the collector: its sections. */
  readonly parts: readonly ShadeReceiver[];
  /** Part of each section. */
  readonly partOfSection: readonly number[];
  /** Names of things in the yard that have no body and were left out. */
  readonly bodiless: readonly string[];
}

/** Takes pool, collector and obstacles from the file. */
export function yardScene(
  project: Pick<Project, 'pool' | 'collector' | 'yard'>,
  tables: Pick<Tables, 'sizes'>,
): YardScene {
  const obstacles: SceneObstacle[] = [];
  const bodiless: string[] = [];
  for (const o of project.yard?.obstacles ?? []) {
    const solid = solidOf(o);
    const what = o.kind === 'tree' ? 'tree' : o.what;
    const name = o.name ?? `${what} ${o.id}`;
    if (hasBody(solid)) obstacles.push({ id: o.id, name, what, solid });
    else bodiless.push(name);
  }
  const water = outlinePoints(project.pool.outline);
  const { screen } = project.pool;
  if (screen) {
    const solid: Obstacle = {
      kind: 'screen',
      footprint: around(water, screen.margin_m),
      base_m: 0,
      top_m: screen.height_m,
      mesh: screen.mesh,
    };
    if (hasBody(solid)) obstacles.push({ id: 'screen', name: 'Screen over the pool', what: 'screen', solid });
    else bodiless.push('Screen over the pool');
  }
  const { parts, partOfSection } = collectorParts(project, tables);
  return { obstacles, pool: { corners: water.map(([x, y]) => [x, y, 0]) }, parts, partOfSection, bodiless };
}

/** An obstacle of the file as a solid. */
export function solidOf(o: YardObstacle): Obstacle {
  if (o.kind === 'prism') return { kind: 'prism', footprint: o.footprint, base_m: o.base_m, top_m: o.top_m };
  return {
    kind: 'tree',
    at: [o.x_m, o.y_m],
    ground_m: o.ground_m,
    trunkRadius_m: o.trunkRadius_m,
    crownRadius_m: o.crownRadius_m,
    crownBase_m: o.crownBase_m,
    height_m: o.height_m,
    leafTransmittance: o.leafTransmittance,
    bareTransmittance: o.bareTransmittance,
    leafMonths: o.leafMonths,
  };
}

function hasBody(solid: Obstacle): boolean {
  try {
    checkObstacle(solid);
    return true;
  } catch {
    return false;
  }
}

/** Upright rectangle round the water with a margin. */
function around(water: readonly PlanPoint[], margin_m: number): PlanPoint[] {
  const xs = water.map((p) => p[0]);
  const ys = water.map((p) => p[1]);
  const [x0, x1] = [Math.min(...xs) - margin_m, Math.max(...xs) + margin_m];
  const [y0, y1] = [Math.min(...ys) - margin_m, Math.max(...ys) + margin_m];
  return [
    [x0, y0],
    [x1, y0],
    [x1, y1],
    [x0, y1],
  ];
}

/** Corners of what each section covers in the collector's plane, at the height of its tubes. */
function collectorParts(
  project: Pick<Project, 'collector'>,
  tables: Pick<Tables, 'sizes'>,
): Pick<YardScene, 'parts' | 'partOfSection'> {
  const geometry = panelGeometry(project.collector, tables.sizes);
  const boxes = geometry.sections.map((section) => {
    const box = { u0: Infinity, v0: Infinity, u1: -Infinity, v1: -Infinity, w: 0 };
    for (const bank of section.banks)
      for (const unit of bank.units)
        for (const p of [unit.near, unit.far]) {
          box.u0 = Math.min(box.u0, p.u_m);
          box.v0 = Math.min(box.v0, p.v_m);
          box.u1 = Math.max(box.u1, p.u_m);
          box.v1 = Math.max(box.v1, p.v_m);
          box.w = Math.max(box.w, p.w_m);
        }
    return box;
  });
  const parts = boxes.map((box): ShadeReceiver => {
    // a single tube still is a strip
    const grow = (a: number, b: number): [number, number] => (b - a > 0.02 ? [a, b] : [a - 0.01, b + 0.01]);
    const [u0, u1] = grow(box.u0, box.u1);
    const [v0, v1] = grow(box.v0, box.v1);
    const at = (u: number, v: number) => {
      const p = geometry.frame.at(u, v, box.w);
      return [p.x_m, p.y_m, p.height_m] as const;
    };
    return { corners: [at(u0, v0), at(u1, v0), at(u1, v1), at(u0, v1)] };
  });
  return { parts, partOfSection: boxes.map((_, s) => s) };
}

/** Sunlit shares over the sky of the pool and of each part of the collector; null where nothing stands. */
export interface ShadeTables {
  readonly pool: ShadeTable | null;
  readonly parts: readonly (ShadeTable | null)[];
}

/** Tables of a scene; each is worked out once and kept while things in the yard stay where they are. */
export function shadeTables(scene: YardScene, known: Map<string, ShadeTable>): ShadeTables {
  const [pool, ...parts] = tablesOf([scene.pool, ...scene.parts], scene, known);
  return { pool, parts };
}

/** Points along a side that are enough for the share of the sky. */
const SKY_SIDE = 8;

/** Coarse tables of the collector's parts: good for the share of the sky, and quick enough to drag. */
export function skyTables(scene: YardScene, known: Map<string, ShadeTable>): (ShadeTable | null)[] {
  return tablesOf(scene.parts, scene, known, SKY_SIDE);
}

/** Tables that are kept beyond those in use. */
const MOST_KEPT = 24;

function tablesOf(
  receivers: readonly ShadeReceiver[],
  scene: YardScene,
  known: Map<string, ShadeTable>,
  side?: number,
): (ShadeTable | null)[] {
  if (scene.obstacles.length === 0) return receivers.map(() => null);
  const solids = scene.obstacles.map((o) => o.solid);
  const all = JSON.stringify(solids);
  const used = new Set<string>();
  const tables = receivers.map((receiver) => {
    const key = `${JSON.stringify(receiver.corners)}|${all}`;
    used.add(key);
    const table = known.get(key) ?? shadeTable(receiver, solids, side);
    known.set(key, table);
    return table;
  });
  for (const key of known.keys()) if (!used.has(key) && known.size > MOST_KEPT) known.delete(key);
  return tables;
}
