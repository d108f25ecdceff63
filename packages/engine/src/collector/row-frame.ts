import { cross, type Direction, dot, skyDirection } from '../sun/vectors';

const RAD = Math.PI / 180;

/** Axes of a plane with tubes in it, in yard coordinates. */
export interface RowFrame {
  /** Normal of the plane, towards its sunny side. */
  readonly normal: Direction;
  /** Along the tubes. */
  readonly axis: Direction;
  /** In the plane, across the tubes: axis × normal. */
  readonly across: Direction;
  readonly tilt_deg: number;
  readonly facing_deg: number;
}

/**
 * Frame of a tube row.
 *
 * @param tilt_deg    of the plane [deg], 0…180
 * @param facing_deg  azimuth it faces [deg]
 * @param axis_deg    of the tubes in the plane [deg]: 0 along the contour, 90 up the slope; the contour
 *                    direction is to the right of someone who looks at the sunny side
 * @example rowFrame(0, 180, 0).axis // east
 */
export function rowFrame(tilt_deg: number, facing_deg: number, axis_deg: number): RowFrame {
  const normal = skyDirection(tilt_deg, facing_deg);
  const up = skyDirection(tilt_deg - 90, facing_deg);
  const right: Direction = {
    east: -Math.cos(facing_deg * RAD),
    north: Math.sin(facing_deg * RAD),
    up: 0,
  };
  const c = Math.cos(axis_deg * RAD);
  const s = Math.sin(axis_deg * RAD);
  const axis: Direction = {
    east: right.east * c + up.east * s,
    north: right.north * c + up.north * s,
    up: right.up * c + up.up * s,
  };
  return { normal, axis, across: cross(axis, normal), tilt_deg, facing_deg };
}

/** The sun as a row sees it: components of its direction. */
export interface RowSun {
  readonly along: number;
  readonly across: number;
  readonly normal: number;
  /** Cosine of the angle between the sun and the plane across the tubes: √(1 − along²). */
  readonly cosBeta: number;
}

/**
 * @param frame            of the row
 * @param sunZenith_deg    [deg]
 * @param sunAzimuth_deg   [deg]
 */
export function sunOnRow(frame: RowFrame, sunZenith_deg: number, sunAzimuth_deg: number): RowSun {
  const s = skyDirection(sunZenith_deg, sunAzimuth_deg);
  const along = dot(s, frame.axis);
  return {
    along,
    across: dot(s, frame.across),
    normal: dot(s, frame.normal),
    cosBeta: Math.sqrt(Math.max(0, 1 - along * along)),
  };
}
