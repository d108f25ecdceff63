import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import { waterDensity, waterHeatCapacity } from '@sunlap/engine/fluids/water';
import { tubeOutlet } from '@sunlap/engine/measurement/survey-tube';
import type { SolvedHeat } from '../heat/solve-heat';

/** How one tube of a bank answers to its flow, all else as it is. */
export interface TubeModel {
  /** Number painted on the panel. */
  readonly position: number;
  readonly networkFlow_m3s: number;
  readonly inlet_C: number;
  /** Where it comes to rest. */
  readonly equilibrium_C: number;
  readonly outlet_C: (flow_m3s: number) => number;
  readonly heat_W: (flow_m3s: number) => number;
}

/** Flows at which the panel is solved, over the network's; between them conductance is interpolated. */
const FACTORS = [0.04, 0.1, 0.2, 0.4, 0.7, 1, 1.5, 2.2];

/**
 * Tubes of the bank at a place of the geometry that can flow. A tube's conductance F′U′L changes with its water film,
 * which changes with its flow: the whole panel is solved at several flows and each tube's conductance read back from
 * its outlet, −ṁc·ln((T_out − T_eq)/(T_in − T_eq)).
 *
 * @param place of the bank in the geometry's list
 */
export function tubeModels(solved: SolvedHeat, place: number): TubeModel[] {
  const links = solved.flow.assembled.banks[place];
  if (!links) return [];
  const { layout, elementFlow_kgs, conditions } = solved;
  const inlet = solved.panel.node_C[solved.flow.assembled.collectorIn];
  const c = waterHeatCapacity(Math.min(99, Math.max(0.1, inlet)));
  const density = waterDensity(Math.min(99, Math.max(0.1, inlet)));
  const runs = FACTORS.map((factor) =>
    solvePanel(
      layout.panel,
      elementFlow_kgs.map((m) => m * factor),
      inlet,
      conditions.panel,
      { laminarGain: DEFAULT_HEAT_OPTIONS.laminarGain, tolerance_K: 1e-6 },
    ),
  );
  return links.units.flatMap((link, unit): TubeModel[] => {
    const e = layout.elementOf[link];
    const flow = Math.abs(elementFlow_kgs[e] ?? 0);
    if (e < 0 || !(flow > 1e-7)) return [];
    const conductances = runs.map((run, k) => {
      const rest = run.elementTarget_C[e];
      const left = (run.elementOutlet_C[e] - rest) / (run.elementInlet_C[e] - rest);
      return left > 1e-9 && left < 1 ? -Math.log(left) * flow * FACTORS[k] * c : Number.NaN;
    });
    const known = conductances.filter((k) => k > 0);
    if (known.length === 0) return [];
    const networkFlow_m3s = flow / density;
    const tubeInlet = solved.panel.elementInlet_C[e];
    const equilibrium = solved.panel.elementTarget_C[e];
    const outlet_C = (q: number): number =>
      tubeOutlet(
        tubeInlet,
        equilibrium,
        between(conductances, known[0], q / networkFlow_m3s),
        c * density,
        q,
      );
    return [
      {
        position: solved.flow.assembled.geometry.banks[place].units[unit].position,
        networkFlow_m3s,
        inlet_C: tubeInlet,
        equilibrium_C: equilibrium,
        outlet_C,
        heat_W: (q) => (q > 0 ? c * density * q * (outlet_C(q) - tubeInlet) : 0),
      },
    ];
  });
}

/** Linear in the logarithm of the flow; the ends hold beyond the ends. */
function between(values: readonly number[], usual: number, factor: number): number {
  const at = (i: number): number => (values[i] > 0 ? values[i] : usual);
  const last = FACTORS.length - 1;
  if (!(factor > FACTORS[0])) return at(0);
  if (factor >= FACTORS[last]) return at(last);
  const i = FACTORS.findIndex((f, k) => k < last && factor < FACTORS[k + 1] && factor >= f);
  const x = Math.log(factor / FACTORS[i]) / Math.log(FACTORS[i + 1] / FACTORS[i]);
  return at(i) + x * (at(i + 1) - at(i));
}
