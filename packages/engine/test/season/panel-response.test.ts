import { describe, expect, it } from 'vitest';
import { solvePanel } from '../../src/collector/panel';
import { preparePanel } from '../../src/collector/panel-prepare';
import type { PanelDescription } from '../../src/collector/panel-types';
import { openTube } from '../../src/collector/surroundings';
import { panelResponse, type ResponseRead } from '../../src/season/panel-response';

/** Feed, a bank of tubes between two headers, return; three kinds of surroundings. */
function bank(tubes: number): PanelDescription {
  const elements: PanelDescription['elements'][number][] = [];
  const pipe = (
    from: number,
    to: number,
    bore_m: number,
    outer_m: number,
    length_m: number,
    outside: number,
  ) =>
    elements.push({
      kind: 'pipe',
      from,
      to,
      bore_m,
      outerDiameter_m: outer_m,
      wallConductivity_WmK: 0.16,
      pieces: [{ length_m, outside }],
    });
  pipe(0, 1, 0.0409, 0.0483, 12, 2);
  for (let i = 0; i < tubes; i++) {
    if (i > 0) {
      pipe(i, i + 1, 0.0409, 0.0483, 0.0826, 1);
      pipe(tubes + i, tubes + i + 1, 0.0409, 0.0483, 0.0826, 1);
    }
    pipe(1 + i, 1 + tubes + i, 0.0158, 0.02134, 6, 0);
  }
  pipe(2 * tubes, 2 * tubes + 1, 0.0409, 0.0483, 15, 2);
  return { nodeCount: 2 * tubes + 2, elements };
}

const TUBES = 20;
const panel = preparePanel(bank(TUBES));
const each = Array.from({ length: TUBES }, (_, i) => 0.03 + 0.0015 * i);
const total = each.reduce((s, m) => s + m, 0);
const flow: number[] = [total];
for (let i = 0, before = 0, after = total; i < TUBES; i++) {
  if (i > 0) flow.push(after, before);
  flow.push(each[i]);
  after -= each[i];
  before += each[i];
}
flow.push(total);
const kindOf = Int32Array.from(panel.pieceOutside);

describe('response of a panel', () => {
  // Invariant: the full march of solvePanel. Left over: the film of water at the panel's mean temperature instead
  // of each tube's own, straight lines over 5 K, other kinds' conductance to first order. The aim for
  // what is tabulated is 0.1 %; heat is held to 0.3 % of what the sun brings over all these cases.
  it('gives the heat of the full march in any weather', () => {
    const reference = Float64Array.from([0.9, 1.6, 1.6]);
    const response = panelResponse(
      panel,
      kindOf,
      new Int32Array(panel.from.length).fill(-1),
      reference,
      0,
      () => flow,
    );
    const read: ResponseRead = {
      effective: new Float64Array(3),
      inner_mKW: new Float64Array(3),
      capacity_WK: 0,
    };
    let worst = 0;
    let sum = 0;
    let count = 0;
    for (const wind of [0.2, 1, 3])
      for (const air_C of [8, 22, 36])
        for (const sun of [0, 7, 14])
          for (const inlet of [12, 24, 33]) {
            const air = { air_C, wind_ms: wind, pressure_Pa: 95_000, sky_C: air_C - 15 };
            const tube = openTube({ diameter_m: 0.02134, front: 0.42, rear: 0.42, tilt_deg: 20 }, air);
            const thick = openTube({ diameter_m: 0.0483, front: 0.5, rear: 0.5, tilt_deg: 20 }, air);
            const outside = [tube, thick, thick];
            const light = [sun, 1.5 * sun, 0.7 * sun];
            const full = solvePanel(panel, flow, inlet, {
              outside,
              absorbed_Wm: Float64Array.from(kindOf, (k) => light[k]),
            });
            expect(full.converged).toBe(true);
            const surface = [inlet, inlet, inlet];
            const u = new Float64Array(3);
            const towards = [0, 0, 0];
            const state = { conductance_WmK: 0, surroundings_C: 0, backingShare: 0 };
            let q = 0;
            let mean = inlet;
            for (let round = 0; round < 6; round++) {
              for (let k = 0; k < 3; k++) {
                outside[k].exact(surface[k], state);
                u[k] = state.conductance_WmK;
                towards[k] = state.surroundings_C + light[k] / u[k];
              }
              response.read(mean, u, read);
              q = 0;
              for (let k = 0; k < 3; k++) {
                const own = read.effective[k] * u[k] * (towards[k] - inlet);
                q += own;
                surface[k] = mean + (own / response.length[k]) * read.inner_mKW[k];
              }
              mean = inlet + q / (2 * read.capacity_WK);
            }
            const scale = Math.max(Math.abs(full.heat_W), 10 * 120);
            worst = Math.max(worst, Math.abs(q - full.heat_W) / scale);
            sum += q - full.heat_W;
            count++;
          }
    expect(worst).toBeLessThan(0.003);
    expect(Math.abs(sum / count)).toBeLessThan(3);
  });
});
