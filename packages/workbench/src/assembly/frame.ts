import { cross, type Direction } from '@sunlap/engine/sun/vectors';
import type { Collector } from '@sunlap/project/schema/collector';

const RAD = Math.PI / 180;

/** A point of the collector: in its plane (u along the contour to the right, v up the slope, w off it) and in the yard. */
export interface PanelPoint {
  readonly u_m: number;
  readonly v_m: number;
  readonly w_m: number;
  /** Yard axes: x east, y north. */
  readonly x_m: number;
  readonly y_m: number;
  /** Over the pool's normal water surface. */
  readonly height_m: number;
}

/** The collector's plane: unit vectors along the contour (right, seen from below), up the slope and off the plane. */
export interface PanelFrame {
  readonly u: Direction;
  readonly v: Direction;
  readonly n: Direction;
  /** @param drop_m lowers the point: falls built in on top of what the slope gives [m] */
  at(u_m: number, v_m: number, w_m: number, drop_m?: number): PanelPoint;
}

/**
 * Axes and origin of the collector's plane in the yard.
 *
 *   n = (sin β sin γ, sin β cos γ, cos β),   v = (−cos β sin γ, −cos β cos γ, sin β),   u = v × n
 *
 * with tilt β and facing γ (0 north, 90 east). The origin lies at the placement's x, y and lowest height.
 *
 * @param placement of the project file; angles [deg], places [m]
 * @example facing 180°, tilt 0: u = east, v = north, n = up
 */
export function panelFrame(placement: Collector['placement']): PanelFrame {
  const sinT = Math.sin(placement.tilt_deg * RAD);
  const cosT = Math.cos(placement.tilt_deg * RAD);
  const east = Math.sin(placement.facing_deg * RAD);
  const north = Math.cos(placement.facing_deg * RAD);
  const n: Direction = { east: sinT * east, north: sinT * north, up: cosT };
  const v: Direction = { east: -cosT * east, north: -cosT * north, up: sinT };
  const u = cross(v, n);
  const { x_m, y_m, lowestHeight_m } = placement;
  return {
    u,
    v,
    n,
    at: (a, b, c, drop_m = 0) => ({
      u_m: a,
      v_m: b,
      w_m: c,
      x_m: x_m + a * u.east + b * v.east + c * n.east,
      y_m: y_m + a * u.north + b * v.north + c * n.north,
      height_m: lowestHeight_m + a * u.up + b * v.up + c * n.up - drop_m,
    }),
  };
}

/** Straight distance between two points [m]. */
export function distance_m(a: PanelPoint, b: PanelPoint): number {
  return Math.hypot(a.x_m - b.x_m, a.y_m - b.y_m, a.height_m - b.height_m);
}

/** Axes of a section in the plane: with the tubes, and from tube to tube. */
export interface SectionAxes {
  /** along = (alongU, alongV); across = (acrossU, acrossV); unit vectors, at right angles. */
  readonly alongU: number;
  readonly alongV: number;
  readonly acrossU: number;
  readonly acrossV: number;
  /** Angle of the tubes from the contour towards up-slope [deg]. */
  readonly angle_deg: number;
}

/**
 * Which way the tubes of a section run and are counted. Of the two ways across, the one that goes right or up.
 *
 * @example sectionAxes('slope') // along up the slope, across to the right
 */
export function sectionAxes(direction: 'contour' | 'slope' | 'angle', angle_deg = 0): SectionAxes {
  const angle = direction === 'contour' ? 0 : direction === 'slope' ? 90 : angle_deg;
  // right angles exact, so that headers of contour and slope tubes lie exactly level
  const c = Math.abs(angle) === 90 ? 0 : Math.cos(angle * RAD);
  const s = angle === 0 || angle === 180 ? 0 : Math.sin(angle * RAD);
  const turn = c - s >= 0 ? 1 : -1;
  return {
    alongU: c,
    alongV: s,
    acrossU: -s * turn || 0,
    acrossV: c * turn || 0,
    angle_deg: angle,
  };
}
