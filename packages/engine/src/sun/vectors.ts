/** A direction in yard coordinates: east, north, up. */
export interface Direction {
  readonly east: number;
  readonly north: number;
  readonly up: number;
}

const RAD = Math.PI / 180;

/**
 * Unit vector towards a point of the sky.
 *
 * @param zenith_deg   angle from the vertical [deg]
 * @param azimuth_deg  from north, clockwise [deg]
 * @example skyDirection(90, 90) // east 1, north 0, up 0
 */
export function skyDirection(zenith_deg: number, azimuth_deg: number): Direction {
  const s = Math.sin(zenith_deg * RAD);
  return {
    east: s * Math.sin(azimuth_deg * RAD),
    north: s * Math.cos(azimuth_deg * RAD),
    up: Math.cos(zenith_deg * RAD),
  };
}

/** Scalar product of two directions. */
export function dot(a: Direction, b: Direction): number {
  return a.east * b.east + a.north * b.north + a.up * b.up;
}

/** Vector product a × b. */
export function cross(a: Direction, b: Direction): Direction {
  return {
    east: a.north * b.up - a.up * b.north,
    north: a.up * b.east - a.east * b.up,
    up: a.east * b.north - a.north * b.east,
  };
}
