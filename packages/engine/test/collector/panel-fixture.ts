import type { PanelConditions, PanelDescription, PanelElement } from '../../src/collector/panel-types';
import { type OpenAir, openTube } from '../../src/collector/surroundings';

/** Half-inch schedule 40 PVC, metres. */
export const BORE = 0.0158;
export const OD = 0.02134;
export const WALL = 0.16;

export const AIR: OpenAir = { air_C: 22, wind_ms: 0.4, pressure_Pa: 101_325, sky_C: 5 };

/**
 * Invented panel: banks in series, each of N tubes between two headers of an inch and a half; water enters a
 * bank at the near end of its first header and leaves at the far end of the second.
 */
export function seriesPanel(banks: number, tubes: number, length_m = 6): PanelDescription {
  const elements: PanelElement[] = [];
  const pipe = (
    from: number,
    to: number,
    bore_m: number,
    outerDiameter_m: number,
    pieces: { length_m: number; outside: number }[],
  ) => elements.push({ kind: 'pipe', from, to, bore_m, outerDiameter_m, wallConductivity_WmK: WALL, pieces });
  for (let b = 0; b < banks; b += 1) {
    const first = b * 2 * tubes;
    if (b > 0) elements.push({ kind: 'link', from: first - 1, to: first });
    for (let i = 0; i < tubes; i += 1) {
      if (i > 0) {
        pipe(first + i - 1, first + i, 0.0409, 0.0483, [{ length_m: 0.07, outside: 1 }]);
        pipe(first + tubes + i - 1, first + tubes + i, 0.0409, 0.0483, [{ length_m: 0.07, outside: 1 }]);
      }
      pipe(first + i, first + tubes + i, BORE, OD, [
        { length_m: length_m / 2, outside: 0 },
        { length_m: length_m / 2, outside: 0 },
      ]);
    }
  }
  return { nodeCount: banks * 2 * tubes, elements };
}

/** Flow of each element when a bank's tubes share alike (or by `share`), kg/s. */
export function evenFlow(banks: number, tubes: number, total_kgs: number, share?: number[]): Float64Array {
  const flow: number[] = [];
  for (let b = 0; b < banks; b += 1) {
    if (b > 0) flow.push(total_kgs);
    const own = share ?? new Array<number>(tubes).fill(1 / tubes);
    let before = 0;
    for (let i = 0; i < tubes; i += 1) {
      if (i > 0) flow.push(total_kgs * (1 - before), total_kgs * before);
      flow.push(total_kgs * own[i]);
      before += own[i];
    }
  }
  return Float64Array.from(flow);
}

/** Sun on every tube piece, header pieces in the shade. */
export function conditions(
  description: PanelDescription,
  absorbed_Wm = 22,
  air: OpenAir = AIR,
): PanelConditions {
  const tube = openTube({ diameter_m: OD, front: 0.42, rear: 0.42, tilt_deg: 20 }, air);
  const header = openTube({ diameter_m: 0.0483, front: 0.5, rear: 0.5, tilt_deg: 0 }, air);
  const absorbed: number[] = [];
  for (const e of description.elements)
    if (e.kind === 'pipe') for (const p of e.pieces) absorbed.push(p.outside === 0 ? absorbed_Wm : 0);
  return { outside: [tube, header], absorbed_Wm: Float64Array.from(absorbed) };
}
