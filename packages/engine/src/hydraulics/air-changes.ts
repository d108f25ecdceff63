import { GRAVITY_MS2 } from '../numeric/constants';
import type { ExtendedNetwork, Mouth } from './air-network';
import { inletPressure, supplyHead } from './air-pressure';
import type { AirLayout } from './air-types';
import { airClearing } from './clearing';
import type { NetworkSolution } from './network-types';

/** Head by which a mouth may miss its crown, and an inlet its limit [m]. */
export const HEAD_TOLERANCE = 1e-7;

/** Flow in a tube under which its water stands [kg/s]: a drop in ten minutes. */
export const STANDING = 1e-7;

export type Filling = 'full' | 'outfall' | 'unfilled';

/** One set of states: which spaces hold air, how each tube runs, which spaces cannot be swept free of air. */
export interface AirStates {
  readonly open: boolean[];
  readonly unsweepable: boolean[];
  readonly filling: Filling[];
}

/** A tube or a space that contradicts its state, by how much head, and what to change. */
export interface Change {
  readonly size_m: number;
  apply(states: AirStates, steps: Float64Array): void;
}

/** Flow out of a tube at its discharge end [kg/s]. */
export function outflow(layout: AirLayout, t: number, solution: NetworkSolution): number {
  const { link, discharge } = layout.tubes[t]!;
  return (discharge === 'to' ? 1 : -1) * solution.flow_kgs[link]!;
}

/**
 * Whether no water comes out of a tube with its mouth at the crown: it runs backwards, or stands below. Backwards
 * against a mouth that is held too high says nothing yet.
 */
export function runsDry(
  layout: AirLayout,
  t: number,
  gap: number,
  tolerance: number,
  solution: NetworkSolution,
): boolean {
  const flow = outflow(layout, t, solution);
  return flow < -STANDING ? gap >= -tolerance : flow <= STANDING && gap > 0;
}

/** Head that a mouth lacks to zero gauge pressure under its crown [m]; negative when it is under pressure. */
export function mouthGap(
  { description }: ExtendedNetwork,
  layout: AirLayout,
  t: number,
  mouth: Mouth,
  solution: NetworkSolution,
): number {
  const { link, crown_m } = layout.tubes[t]!;
  const reference = description.referenceDensity_kgm3;
  const ratio = (description.links[link]!.density_kgm3 ?? reference) / reference;
  const velocityHead = (ratio * solution.velocity_ms[link]! ** 2) / (2 * GRAVITY_MS2);
  return crown_m + velocityHead - solution.head_m[mouth.node]!;
}

/** Tubes in open spaces that contradict their state by more than a tolerance [m]. */
export function tubeChanges(
  network: ExtendedNetwork,
  layout: AirLayout,
  states: AirStates,
  steps: Float64Array,
  tolerance: number,
  solution: NetworkSolution,
): Change[] {
  const changes: Change[] = [];
  for (const [t, mouth] of network.mouths.entries()) {
    const { link, crown_m, space } = layout.tubes[t]!;
    if (mouth === null || space === null || !states.open[space]) continue;
    const become = (size_m: number, filling: Filling, step: number): void => {
      changes.push({
        size_m,
        apply(next, steps) {
          next.filling[t] = filling;
          steps[t] = step;
        },
      });
    };
    const header = solution.head_m[mouth.header]!;
    const over = () => supplyHead(network.description, link, mouth.supply, solution) - crown_m;
    if (states.filling[t] === 'unfilled') {
      // opened as if the header below were to stay as it is
      if (over() > tolerance)
        become(over(), header >= crown_m ? 'full' : 'outfall', Math.max(0, crown_m - header));
      continue;
    }
    const gap = mouthGap(network, layout, t, mouth, solution);
    const dry = runsDry(layout, t, gap, tolerance, solution);
    if (states.filling[t] === 'full') {
      if (gap > tolerance) become(gap, dry ? 'unfilled' : 'outfall', dry ? 0 : gap);
    } else if (dry) {
      if (header >= crown_m) become(HEAD_TOLERANCE, 'full', 0);
      else become(Math.max(-over(), HEAD_TOLERANCE), 'unfilled', 0);
    } else if (steps[t] === 0 && gap <= 0) become(HEAD_TOLERANCE - gap, 'full', 0);
  }
  return changes;
}

/**
 * Spaces that contradict their state, judged once their tubes agree with theirs. In the order in which they
 * would happen: the worst suction opens first, the lowest space fills first.
 */
export function spaceChanges(
  network: ExtendedNetwork,
  layout: AirLayout,
  states: AirStates,
  solution: NetworkSolution,
): Change[] {
  const weight = network.description.referenceDensity_kgm3 * GRAVITY_MS2;
  const opening: Change[] = [];
  const filling: (Change & { readonly lowest_m: number })[] = [];
  for (const [s, space] of layout.spaces.entries()) {
    const { inlet, downLeg } = space;
    const head = inlet && inletPressure(network.description, inlet, solution, network.mouths) / weight;
    if (!states.open[s]) {
      const lack = inlet === null || head === null ? 0 : -inlet.openPressure_Pa / weight - head;
      if (lack > HEAD_TOLERANCE)
        opening.push({
          size_m: lack,
          apply(next) {
            next.open[s] = true;
            next.unsweepable[s] = true;
          },
        });
      continue;
    }
    const members = [...layout.tubes.keys()].filter(
      (t) => layout.tubes[t]!.space === s && network.mouths[t] !== null,
    );
    const running = members.every(
      (t) => states.filling[t] !== 'unfilled' && outflow(layout, t, solution) > 0,
    );
    const pressed = head === null ? running && members.every((t) => states.filling[t] === 'full') : head >= 0;
    // an open hole lets in as much air as the water carries off
    const sweepable = !states.unsweepable[s] && inlet?.openPressure_Pa !== 0 && downLeg !== null;
    const swept =
      running &&
      sweepable &&
      airClearing(
        solution.velocity_ms[downLeg.link]!,
        network.description.links[downLeg.link]!.law.bore_m,
        downLeg.angle_deg,
      ).grade === 'clears';
    if (members.length > 0 ? pressed || swept : head !== null && head >= 0)
      filling.push({
        size_m: Math.max(head ?? 0, HEAD_TOLERANCE),
        lowest_m: Math.min(...members.map((t) => layout.tubes[t]!.crown_m)),
        apply(next, steps) {
          next.open[s] = false;
          for (const t of members) {
            next.filling[t] = 'full';
            steps[t] = 0;
          }
        },
      });
  }
  opening.sort((a, b) => b.size_m - a.size_m);
  filling.sort((a, b) => a.lowest_m - b.lowest_m);
  return [...opening, ...filling];
}
