import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { Outline, Pool } from '@sunlap/project/schema/pool';
import type { Project } from '@sunlap/project/schema/project';
import type { YardObstacle } from '@sunlap/project/schema/season';
import { outlinePoints } from '@sunlap/workbench/yard/outline';
import { frameOf, on } from './place';

export type What = 'house' | 'wall' | 'fence' | 'hedge' | 'tree';
export const WHATS: readonly What[] = ['house', 'wall', 'fence', 'hedge', 'tree'];

const INCH_M = 0.0254;
/** Meshes of screens over pools: wires per inch and their thickness (common practice). */
const MESHES = {
  w18: { wires1_perM: 18 / INCH_M, wires2_perM: 14 / INCH_M, wireDiameter_m: 0.011 * INCH_M },
  w20: { wires1_perM: 20 / INCH_M, wires2_perM: 20 / INCH_M, wireDiameter_m: 0.013 * INCH_M },
} as const;

/** Usual sizes of new things, length × width × top [m]; judgement. */
const SIZES: Record<Exclude<What, 'tree'>, readonly [number, number, number]> = {
  house: [10, 7, 4.5],
  wall: [8, 0.2, 2],
  fence: [10, 0.08, 1.8],
  hedge: [6, 0.8, 2],
};

export const LEAFY = {
  all: new Array<boolean>(12).fill(true),
  north: Array.from({ length: 12 }, (_, m) => m >= 3 && m <= 9),
  south: Array.from({ length: 12 }, (_, m) => m >= 9 || m <= 3),
};
export const summerLeaves = (latitude_deg: number): boolean[] => [
  ...(latitude_deg < 0 ? LEAFY.south : LEAFY.north),
];

/** A new thing beside the pool, towards the equator, where it would throw its shadow. */
export function addThing(project: Project, what: What): { project: Project; id: string } {
  const obstacles = project.yard?.obstacles ?? [];
  const taken = new Set(obstacles.map((o) => o.id));
  let n = 1;
  while (taken.has(`${what}-${n}`)) n++;
  const id = `${what}-${n}`;
  const [x_m, y_m] = freePlace(project, what);
  const thing: YardObstacle =
    what === 'tree'
      ? {
          kind: 'tree',
          id,
          x_m,
          y_m,
          ground_m: 0,
          height_m: 7,
          crownRadius_m: 2.5,
          crownBase_m: 2,
          trunkRadius_m: 0.15,
          leafTransmittance: 0.15,
          bareTransmittance: 0.6,
          leafMonths: summerLeaves(project.site.latitude_deg),
        }
      : {
          kind: 'prism',
          id,
          what,
          footprint: [
            [-1, -1],
            [1, -1],
            [1, 1],
            [-1, 1],
          ].map(([a, b]) => {
            const [length_m, width_m] = SIZES[what];
            const [px, py] = on({ x_m, y_m, turn_deg: 0, length_m, width_m }, a, b);
            return [px, py];
          }),
          base_m: 0,
          top_m: SIZES[what][2],
        };
  return { id, project: { ...project, yard: { ...project.yard, obstacles: [...obstacles, thing] } } };
}

/** First place on the side from which the sun comes where nothing stands yet. */
function freePlace(project: Project, what: What): PlanPoint {
  const pool = frameOf(outlinePoints(project.pool.outline));
  const side = project.site.latitude_deg < 0 ? 1 : -1;
  const [length, width] = what === 'tree' ? [5, 5] : SIZES[what];
  const boxes = (project.yard?.obstacles ?? []).map((o) =>
    o.kind === 'tree'
      ? { x_m: o.x_m, y_m: o.y_m, length_m: 2 * o.crownRadius_m, width_m: 2 * o.crownRadius_m }
      : frameOf(o.footprint),
  );
  for (let row = 0; row < 12; row++)
    for (const x of [0, -7, 7, -14, 14]) {
      const at: PlanPoint = [pool.x_m + x, pool.y_m + side * (pool.width_m / 2 + width / 2 + 3 + 3 * row)];
      const clear = boxes.every(
        (b) =>
          Math.abs(b.x_m - at[0]) > (b.length_m + length) / 2 ||
          Math.abs(b.y_m - at[1]) > (b.width_m + width) / 2,
      );
      if (clear) return at;
    }
  return [pool.x_m, pool.y_m + side * 40];
}

export function removeThing(project: Project, id: string): Project {
  if (project.yard === undefined) return project;
  return {
    ...project,
    yard: { ...project.yard, obstacles: project.yard.obstacles.filter((o) => o.id !== id) },
  };
}

/** Another outline of about the same size in the same place. */
export function reshaped(outline: Outline, kind: Outline['kind']): Outline {
  if (outline.kind === kind) return outline;
  const points = outlinePoints(outline);
  const f = outline.kind === 'polygon' ? frameOf(points) : null;
  const x_m = f?.x_m ?? ('x_m' in outline ? outline.x_m : 0);
  const y_m = f?.y_m ?? ('y_m' in outline ? outline.y_m : 0);
  const turn_deg = f?.turn_deg ?? ('turn_deg' in outline ? (outline.turn_deg ?? 0) : 0);
  const length_m =
    f?.length_m ??
    (outline.kind === 'round' ? outline.diameter_m : 'length_m' in outline ? outline.length_m : 8);
  const width_m =
    f?.width_m ??
    (outline.kind === 'round' ? outline.diameter_m : 'width_m' in outline ? outline.width_m : 4);
  const place = { x_m, y_m, turn_deg };
  switch (kind) {
    case 'rectangle':
      return { kind, ...place, length_m, width_m };
    case 'oval':
      return { kind, ...place, length_m, width_m };
    case 'round':
      return { kind, x_m, y_m, diameter_m: Math.round(Math.sqrt(length_m * width_m) * 100) / 100 };
    case 'L':
      return { kind, ...place, length_m, width_m, cutLength_m: length_m / 2, cutWidth_m: width_m / 2 };
    case 'polygon': {
      // a curve keeps every fourth of its corners, so that they can be taken hold of
      const kept = points.length > 12 ? points.filter((_, i) => i % 4 === 0) : points;
      return { kind, points: kept.map(([px, py]): [number, number] => [px, py]) };
    }
  }
}

/** An L with its cut corner on the other hand. */
export function mirrored(outline: Outline, left: boolean): Outline {
  if (outline.kind !== 'L') return outline;
  const { mirrored: _, ...plain } = outline;
  return left ? { ...plain, mirrored: true } : plain;
}

export function withCorner(outline: Outline, n: number, [x, y]: PlanPoint): Outline {
  if (outline.kind !== 'polygon') return outline;
  return { ...outline, points: outline.points.map((p, i): [number, number] => (i === n ? [x, y] : p)) };
}

/** One corner more, in the middle of the longest side; or the last one less. */
export function moreCorners(outline: Outline, way: 1 | -1): Outline {
  if (outline.kind !== 'polygon') return outline;
  const { points } = outline;
  if (way < 0) return points.length <= 3 ? outline : { ...outline, points: points.slice(0, -1) };
  let best = 0;
  let longest = -1;
  points.forEach(([x, y], i) => {
    const [qx, qy] = points[(i + 1) % points.length];
    const long = Math.hypot(qx - x, qy - y);
    if (long > longest) [best, longest] = [i, long];
  });
  const [a, b] = [points[best], points[(best + 1) % points.length]];
  const middle: [number, number] = [(a[0] + b[0]) / 2, (a[1] + b[1]) / 2];
  return { ...outline, points: [...points.slice(0, best + 1), middle, ...points.slice(best + 1)] };
}

export type ScreenKind = 'none' | 'w18' | 'w20' | 'typed';

export function screenKind(pool: Pool): ScreenKind {
  const mesh = pool.screen?.mesh;
  if (mesh === undefined) return 'none';
  if (mesh.kind === 'typed') return 'typed';
  return Math.abs(mesh.wires1_perM * INCH_M - 18) < 0.5 ? 'w18' : 'w20';
}

export function withScreen(pool: Pool, kind: ScreenKind): Pool {
  if (kind === 'none') {
    const { screen: _, ...open } = pool;
    return open;
  }
  const mesh =
    kind === 'typed' ? ({ kind, openness: 0.7 } as const) : ({ kind: 'woven', ...MESHES[kind] } as const);
  return { ...pool, screen: { height_m: 3, margin_m: 1.5, windLoss: 0.4, ...pool.screen, mesh } };
}
