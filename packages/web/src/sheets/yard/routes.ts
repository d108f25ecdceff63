import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { Project } from '@sunlap/project/schema/project';
import type { Yard } from '@sunlap/project/schema/season';
import type { LoopPiece } from '@sunlap/workbench/results';
import { COLLECTOR, on, POOL, thingFrame } from './place';

export type Way = 'feed' | 'return';
export const WAYS: readonly Way[] = ['feed', 'return'];
type Route = [number, number][];

const round = (v: number): number => Math.round(v * 1000) / 1000;

export const routeOf = (project: Project, way: Way): Route | undefined => project.yard?.routes?.[way];

/** Length seen from above [m]. */
export function routeLength(route: readonly PlanPoint[]): number {
  let sum = 0;
  for (let i = 1; i < route.length; i++)
    sum += Math.hypot(route[i][0] - route[i - 1][0], route[i][1] - route[i - 1][1]);
  return sum;
}

/**
 * How far the pipe goes up and down between its ends [m], from the heights of pump, panel and pool's openings and
 * those that were typed along it; null until the loop was solved once. Between two known heights it is taken to go
 * one way.
 */
export function climbOf(
  project: Project,
  way: Way,
  pieces: readonly Pick<LoopPiece, 'path' | 'startHeight_m' | 'endHeight_m'>[],
): number | null {
  const heights: number[] = [];
  project.loop[way].forEach((e, i) => {
    const piece = pieces.find((p) => p.path === `/loop/${way}/${i}`);
    if (piece === undefined) return;
    const between = e.kind === 'pipe' ? (e.profile ?? []).map((p) => p.height_m) : [];
    heights.push(piece.startHeight_m, ...between, piece.endHeight_m);
  });
  if (heights.length === 0) return null;
  return heights.reduce((sum, h, i) => (i === 0 ? 0 : sum + Math.abs(h - heights[i - 1])), 0);
}

export function withRoute(project: Project, way: Way, route: Route | null): Project {
  const yard: Yard = project.yard ?? { obstacles: [] };
  const { [way]: _, ...others } = yard.routes ?? {};
  return { ...project, yard: { ...yard, routes: route === null ? others : { ...others, [way]: route } } };
}

/** A first way: from beside the pool, square round the corner, to the panel's near side. */
export function firstRoute(project: Project, way: Way, panel: readonly PlanPoint[]): Route {
  const pool = thingFrame(project, POOL, panel)!;
  const target = thingFrame(project, COLLECTOR, panel) ?? pool;
  const aside = way === 'feed' ? 0 : 0.6;
  const [sx, sy] = on(pool, 1 + (2 + aside) / (pool.length_m / 2), 0);
  // the feed goes to the nearer end, the return comes from the other one
  const ends = ([-1, 1] as const)
    .map((end) => on(target, end, -1))
    .sort((a, b) => Math.hypot(a[0] - sx, a[1] - sy) - Math.hypot(b[0] - sx, b[1] - sy));
  const [ex, ey] = ends[way === 'feed' ? 0 : 1];
  return [
    [round(sx), round(sy)],
    [round(sx), round(ey)],
    [round(ex), round(ey)],
  ];
}

export const withPoint = (route: Route, n: number, [x, y]: PlanPoint): Route =>
  route.map((p, i): [number, number] => (i === n ? [round(x), round(y)] : p));

/** One corner more in the middle of the longest stretch, or the last but one less. */
export function withCorners(route: Route, way: 1 | -1): Route {
  if (way < 0) return route.length <= 2 ? route : route.filter((_, i) => i !== route.length - 2);
  let best = 1;
  let longest = -1;
  for (let i = 1; i < route.length; i++) {
    const long = routeLength([route[i - 1], route[i]]);
    if (long > longest) [best, longest] = [i, long];
  }
  const [a, b] = [route[best - 1], route[best]];
  return [
    ...route.slice(0, best),
    [round((a[0] + b[0]) / 2), round((a[1] + b[1]) / 2)],
    ...route.slice(best),
  ];
}

/** Pipe of the loop's way as it is now [m]. */
export function pipeLength(project: Project, way: Way): number {
  return project.loop[way].reduce((sum, e) => sum + (e.kind === 'pipe' ? e.length_m : 0), 0);
}

/** The loop's pipe made as long as the way in the yard, each run in proportion. */
export function withPipeLength(project: Project, way: Way, length_m: number): Project {
  const now = pipeLength(project, way);
  if (!(now > 0 && length_m > 0)) return project;
  const path = project.loop[way].map((e) => {
    if (e.kind !== 'pipe') return e;
    const k = length_m / now;
    const profile = e.profile?.map((p) => ({ ...p, at_m: round(p.at_m * k) }));
    return { ...e, length_m: round(e.length_m * k), ...(profile === undefined ? {} : { profile }) };
  });
  return { ...project, loop: { ...project.loop, [way]: path } };
}
