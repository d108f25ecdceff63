import type { PlanPoint } from '@sunlap/engine/sun/shade-obstacle';
import type { Project } from '@sunlap/project/schema/project';
import type { YardObstacle } from '@sunlap/project/schema/season';
import { outlinePoints } from '@sunlap/workbench/yard/outline';

const RAD = Math.PI / 180;
export const POOL = 'pool';
export const COLLECTOR = 'collector';

/** Where a thing lies and how large it is: middle, direction of its length clockwise from east, sizes [m]. */
export interface Frame {
  x_m: number;
  y_m: number;
  turn_deg: number;
  length_m: number;
  width_m: number;
}

/** A point of the frame, in halves of its length and width from the middle. */
export function on(f: Frame, along: number, across: number): PlanPoint {
  const [c, s] = [Math.cos(f.turn_deg * RAD), Math.sin(f.turn_deg * RAD)];
  const [u, v] = [(along * f.length_m) / 2, (across * f.width_m) / 2];
  return [f.x_m + u * c + v * s, f.y_m - u * s + v * c];
}

const bearing = (deg: number) => ((deg % 360) + 360) % 360;

/** Frame of a polygon whose first side gives the direction. */
export function frameOf(points: readonly PlanPoint[]): Frame {
  const [a, b] = points;
  const turn_deg = bearing(-Math.atan2(b[1] - a[1], b[0] - a[0]) / RAD);
  const [c, s] = [Math.cos(turn_deg * RAD), Math.sin(turn_deg * RAD)];
  const us = points.map(([x, y]) => x * c - y * s);
  const vs = points.map(([x, y]) => x * s + y * c);
  const [u0, u1, v0, v1] = [Math.min(...us), Math.max(...us), Math.min(...vs), Math.max(...vs)];
  const [u, v] = [(u0 + u1) / 2, (v0 + v1) / 2];
  return { x_m: u * c + v * s, y_m: -u * s + v * c, turn_deg, length_m: u1 - u0, width_m: v1 - v0 };
}

/** The same polygon carried from one frame to another. */
export function carried(points: readonly PlanPoint[], from: Frame, to: Frame): [number, number][] {
  const [c, s] = [Math.cos(from.turn_deg * RAD), Math.sin(from.turn_deg * RAD)];
  return points.map(([x, y]) => {
    const [dx, dy] = [x - from.x_m, y - from.y_m];
    const along = (dx * c - dy * s) / (from.length_m / 2);
    const across = (dx * s + dy * c) / (from.width_m / 2);
    const [px, py] = on(to, along, across);
    return [round(px), round(py)];
  });
}

const round = (v: number) => Math.round(v * 1e4) / 1e4;

export const obstacleOf = (project: Project, id: string): YardObstacle | undefined =>
  project.yard?.obstacles.find((o) => o.id === id);

/** Frame of anything in the yard; the collector's from the corners it was laid out with. */
export function thingFrame(project: Project, id: string, panel: readonly PlanPoint[]): Frame | null {
  if (id === COLLECTOR) return panel.length < 3 ? null : frameOf(panel);
  if (id === POOL) {
    const o = project.pool.outline;
    if (o.kind === 'polygon') return frameOf(outlinePoints(o));
    const { x_m, y_m, turn_deg = 0 } = o;
    return o.kind === 'round'
      ? { x_m, y_m, turn_deg: 0, length_m: o.diameter_m, width_m: o.diameter_m }
      : { x_m, y_m, turn_deg, length_m: o.length_m, width_m: o.width_m };
  }
  const o = obstacleOf(project, id);
  if (o === undefined) return null;
  if (o.kind === 'tree')
    return {
      x_m: o.x_m,
      y_m: o.y_m,
      turn_deg: 0,
      length_m: 2 * o.crownRadius_m,
      width_m: 2 * o.crownRadius_m,
    };
  return frameOf(o.footprint);
}

export function withObstacle(
  project: Project,
  id: string,
  change: (o: YardObstacle) => YardObstacle,
): Project {
  const yard = project.yard ?? { obstacles: [] };
  return {
    ...project,
    yard: { ...yard, obstacles: yard.obstacles.map((o) => (o.id === id ? change(o) : o)) },
  };
}

/** Puts a thing into another frame: moved, turned, made larger or smaller. */
export function placed(project: Project, id: string, panel: readonly PlanPoint[], to: Frame): Project {
  const from = thingFrame(project, id, panel);
  if (from === null) return project;
  const x_m = round(to.x_m);
  const y_m = round(to.y_m);
  const turn_deg = round(bearing(to.turn_deg));
  const length_m = Math.max(0.1, round(to.length_m));
  const width_m = Math.max(0.05, round(to.width_m));
  if (id === COLLECTOR) {
    const p = project.collector.placement;
    const d = turn_deg - from.turn_deg;
    const [c, s] = [Math.cos(d * RAD), Math.sin(d * RAD)];
    const [dx, dy] = [p.x_m - from.x_m, p.y_m - from.y_m];
    return {
      ...project,
      collector: {
        ...project.collector,
        placement: {
          ...p,
          x_m: round(to.x_m + dx * c + dy * s),
          y_m: round(to.y_m - dx * s + dy * c),
          facing_deg: round(bearing(p.facing_deg + d)) % 360,
        },
      },
    };
  }
  if (id === POOL) {
    const o = project.pool.outline;
    const outline =
      o.kind === 'polygon'
        ? { ...o, points: carried(outlinePoints(o), from, { x_m, y_m, turn_deg, length_m, width_m }) }
        : o.kind === 'round'
          ? { ...o, x_m, y_m, diameter_m: Math.abs(length_m - from.length_m) > 1e-6 ? length_m : width_m }
          : { ...o, x_m, y_m, turn_deg, length_m, width_m };
    return { ...project, pool: { ...project.pool, outline } };
  }
  return withObstacle(project, id, (o) => {
    if (o.kind === 'prism')
      return { ...o, footprint: carried(o.footprint, from, { x_m, y_m, turn_deg, length_m, width_m }) };
    const across = Math.abs(length_m - from.length_m) > 1e-6 ? length_m : width_m;
    return { ...o, x_m, y_m, crownRadius_m: round(across / 2) };
  });
}

/** Is the point inside the polygon? */
export function holds(polygon: readonly PlanPoint[], [x, y]: PlanPoint): boolean {
  let odd = false;
  for (let i = 0, j = polygon.length - 1; i < polygon.length; j = i++) {
    const [xi, yi] = polygon[i];
    const [xj, yj] = polygon[j];
    if (yi > y !== yj > y && x < ((xj - xi) * (y - yi)) / (yj - yi) + xi) odd = !odd;
  }
  return odd;
}
