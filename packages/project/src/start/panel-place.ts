import type { Project } from '../schema/project';

const RAD = Math.PI / 180;

/** Corner of the first section in the panel's plane: room for the headers' ends [m]. */
export const SECTION_CORNER = { u_m: 0.2, v_m: 0.1 } as const;

/** Way to walk between the water and the panel's lowest edge [m]. */
const WALK_m = 4;

/**
 * Where a new panel stands: behind the pool as seen from where the panel looks, its lowest edge square to that
 * line and centred on it, a way to walk from the nearest corner of the water.
 *
 *   origin = −(E + 4 m)·f − (u₀ + L/2)·r      E = |f_x|·length/2 + |f_y|·width/2
 *
 * with f = (sin γ, cos γ) where the panel faces, r = (−cos γ, sin γ) along its lowest edge to the right.
 * All of the panel lies behind that edge, whatever its size and tilt.
 *
 * @param length_m, width_m of the pool, centred on the yard's origin, length to the east [m]
 * @param edge_m            length of the panel's lowest edge [m]
 * @param facing_deg        0 north, 90 east [deg]
 * @example panelPlace(9.144, 4.572, 6.096, 180) // { x_m: -3.248, y_m: 6.286 }: north of the pool, looking south
 */
export function panelPlace(
  length_m: number,
  width_m: number,
  edge_m: number,
  facing_deg: number,
): Pick<Project['collector']['placement'], 'x_m' | 'y_m'> {
  const east = Math.sin(facing_deg * RAD);
  const north = Math.cos(facing_deg * RAD);
  const back = (Math.abs(east) * length_m + Math.abs(north) * width_m) / 2 + WALK_m;
  const half = SECTION_CORNER.u_m + edge_m / 2;
  const round = (x: number): number => Number(x.toFixed(4)) || 0;
  return { x_m: round(half * north - back * east), y_m: round(-half * east - back * north) };
}
