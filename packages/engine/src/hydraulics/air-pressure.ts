import { GRAVITY_MS2 } from '../numeric/constants';
import type { Mouth } from './air-network';
import type { AirInlet } from './air-types';
import type { NetworkDescription, NetworkSolution } from './network-types';

/**
 * Static gauge pressure at an air inlet: the lowest of the link ends that meet there, carried to the inlet's
 * own height. Tubes that discharge there through a mouth are left out: they may be falling through air.
 *
 * @returns [Pa]
 */
export function inletPressure(
  network: NetworkDescription,
  inlet: Pick<AirInlet, 'node' | 'elevation_m'>,
  solution: NetworkSolution,
  mouths: readonly (Mouth | null)[],
): number {
  const weight = network.referenceDensity_kgm3 * GRAVITY_MS2;
  const { elevation_m } = network.nodes[inlet.node]!;
  const steps = new Set(mouths.map((mouth) => mouth?.step));
  let lowest = weight * (solution.head_m[inlet.node]! - elevation_m);
  for (const [i, { from, to, closed }] of network.links.entries()) {
    if (closed || steps.has(i)) continue;
    if (from === inlet.node) lowest = Math.min(lowest, solution.fromPressure_Pa[i]!);
    if (to === inlet.node) lowest = Math.min(lowest, solution.toPressure_Pa[i]!);
  }
  return lowest + weight * (elevation_m - inlet.elevation_m);
}

/**
 * Head that pushes water into a link of no flow: that of its supply node, less the velocity head of the header
 * where it branches off (every set of tee coefficients comes to about that at no branch flow).
 *
 * @returns [m]
 */
export function supplyHead(
  network: NetworkDescription,
  link: number,
  node: number,
  solution: NetworkSolution,
): number {
  const tee = network.tees.find((t) => t.node === node && t.branch === link);
  let speed = 0;
  if (tee)
    for (const leg of tee.run)
      if (leg !== null) speed = Math.max(speed, Math.abs(solution.velocity_ms[leg]!));
  return solution.head_m[node]! - speed ** 2 / (2 * GRAVITY_MS2);
}
