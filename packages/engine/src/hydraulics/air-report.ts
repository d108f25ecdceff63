import { GRAVITY_MS2 } from '../numeric/constants';
import type { Filling } from './air-changes';
import type { Mouth } from './air-network';
import { inletPressure, supplyHead } from './air-pressure';
import type { AirLayout, AirSpaceResult, AirTubeResult } from './air-types';
import type { NetworkDescription, NetworkSolution } from './network-types';

/** What became of each tube, in the order of the layout. `mouths` is empty when the network was solved as it is. */
export function describeTubes(
  network: NetworkDescription,
  layout: AirLayout,
  mouths: readonly (Mouth | null)[],
  filling: readonly Filling[],
  solution: NetworkSolution,
): AirTubeResult[] {
  const weight = network.referenceDensity_kgm3 * GRAVITY_MS2;
  const dry = { mouthPressure_Pa: null, missingLift_m: 0 };
  return layout.tubes.map((tube, t): AirTubeResult => {
    if (tube.mark !== undefined) return { ...dry, state: tube.mark, cause: 'marked' };
    const { link, discharge, crown_m, space } = tube;
    const inlet = space === null ? null : layout.spaces[space]!.inlet;
    const cause = inlet === null ? 'trappedAir' : inlet.kind;
    const { from, to } = network.links[link]!;
    if (filling[t] === 'unfilled') {
      const supply = mouths[t]?.supply ?? (discharge === 'to' ? from : to);
      const missing = crown_m - supplyHead(network, link, supply, solution);
      return {
        state: inlet === null ? 'airBound' : 'unfilled',
        cause,
        mouthPressure_Pa: null,
        missingLift_m: Math.max(0, missing),
      };
    }
    if (filling[t] === 'outfall') return { state: 'outfall', cause, mouthPressure_Pa: 0, missingLift_m: 0 };
    const end = discharge === 'to' ? solution.toPressure_Pa[link]! : solution.fromPressure_Pa[link]!;
    const { elevation_m } = network.nodes[discharge === 'to' ? to : from]!;
    const mouthPressure_Pa = end + weight * (elevation_m - crown_m);
    return { state: 'full', cause: 'none', mouthPressure_Pa, missingLift_m: 0 };
  });
}

/** What became of each space. */
export function describeSpaces(
  network: NetworkDescription,
  layout: AirLayout,
  mouths: readonly (Mouth | null)[],
  open: readonly boolean[],
  solution: NetworkSolution,
): AirSpaceResult[] {
  return layout.spaces.map(({ id, inlet }, s): AirSpaceResult => {
    if (inlet === null) return { id, open: open[s]!, inletPressure_Pa: null, margin_Pa: null };
    const pressure = inletPressure(network, inlet, solution, mouths);
    const margin = open[s] ? -pressure : pressure + inlet.openPressure_Pa;
    return { id, open: open[s]!, inletPressure_Pa: pressure, margin_Pa: margin };
  });
}
