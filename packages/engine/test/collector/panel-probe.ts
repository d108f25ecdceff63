import type { OuterCurve, OuterState } from '../../src/collector/outer-curve';
import { readOuter } from '../../src/collector/outer-curve';
import { type OpenAir, openTube as tubeInAir } from '../../src/collector/surroundings';
import { OD } from './panel-fixture';

/** Half-inch tube alone in the air. */
export function openTube(air: OpenAir): OuterCurve {
  return tubeInAir({ diameter_m: OD, front: 0.5, rear: 0.5, tilt_deg: 20 }, air);
}

/** State of a curve at a surface temperature, as the panel reads it. */
export function outerState(curve: OuterCurve, surface_C: number): OuterState {
  const out = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
  readOuter(curve, surface_C, out);
  return out;
}
