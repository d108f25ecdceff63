import { GRAVITY_MS2 } from '../numeric/constants';
import type { Mouth } from './air-network';
import type { AirInlet, AirLayout, AirSolution } from './air-types';
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

/**
 * The solution with the pressures that part-full pipe really has. Below a space that holds air the search counts
 * the down-leg as full, and so finds suction there that air has already relieved: from each open space, through
 * every pipe whose end would be under suction, gauge pressure is zero. A dry tube holds air at its discharge.
 *
 * @returns the solution, pressures of such ends set to 0
 */
export function relievedPressures(
  network: NetworkDescription,
  layout: AirLayout,
  answer: AirSolution,
): NetworkSolution {
  const { solution } = answer;
  const from = solution.fromPressure_Pa.slice();
  const to = solution.toPressure_Pa.slice();
  const filled = new Set<number>();
  const start: number[] = [];
  for (const [t, tube] of layout.tubes.entries()) {
    const { state } = answer.tubes[t]!;
    if (state === 'full' || state === 'outfall') filled.add(tube.link);
    if (tube.space !== null && answer.spaces[tube.space]!.open)
      start.push(network.links[tube.link]![tube.discharge]);
  }
  for (const [s, { inlet }] of layout.spaces.entries())
    if (inlet && answer.spaces[s]!.open) start.push(inlet.node);
  const incident: number[][] = network.nodes.map(() => []);
  for (const [i, link] of network.links.entries()) {
    incident[link.from]!.push(i);
    incident[link.to]!.push(i);
  }
  const seen = new Set(start);
  for (const node of seen) {
    for (const i of incident[node]!) {
      if (filled.has(i)) continue;
      const away = network.links[i]!.from === node;
      const [here, there] = away ? [from, to] : [to, from];
      if (here[i]! < 0) here[i] = 0;
      if (!(there[i]! < 0)) continue;
      there[i] = 0;
      const other = away ? network.links[i]!.to : network.links[i]!.from;
      if (network.nodes[other]!.fixedHead_m === undefined) seen.add(other);
    }
  }
  return { ...solution, fromPressure_Pa: from, toPressure_Pa: to };
}
