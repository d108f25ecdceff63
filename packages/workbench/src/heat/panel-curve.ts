import { isoCurve } from '@sunlap/engine/collector/iso-curve';
import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { metreHeat } from '@sunlap/engine/collector/row-heat';
import type { Project } from '@sunlap/project/schema/project';
import { type HeatConditions, heatConditions } from '../assembly/heat-conditions';
import { plainLayout } from '../assembly/heat-shade';
import type { HeatValues } from '../results';
import { typicalElement } from './heat-values';
import { heatWeather, type MomentChange, type ResolvedMoment } from './moment';
import type { SolvedHeat } from './solve-heat';

/** Winds at the panel for which the curve is given [m/s]; tests of unglazed absorbers reach 3. */
const WINDS = [0.5, 1, 2, 3];

/**
 * The panel in the form of ISO 9806, per ground covered: q/G″ at air temperature and the loss per kelvin, for
 * several winds over the panel, from its typical tube at the water film it has now. Empty without sun or tubes.
 */
export function panelCurves(project: Project, now: ResolvedMoment, solved: SolvedHeat): HeatValues['curves'] {
  const e = typicalElement(solved);
  if (e < 0) return [];
  // a test house has no trees: the panel in the open
  const layout = plainLayout(solved.layout);
  const conditions = (change: MomentChange): HeatConditions =>
    heatConditions(
      project,
      solved.flow.assembled,
      layout,
      heatWeather(project, now, { ...change, unshaded: true }),
      DEFAULT_HEAT_OPTIONS,
    );
  const net = conditions({}).net_Wm2;
  if (!(net > 50)) return [];
  const element = layout.panel.description.elements[e];
  if (element.kind !== 'pipe') return [];
  const standing = element.pieces[0].outside;
  const strip = stripOf(project, solved, standing);
  const inner = solved.panel.wallResistance_mKW[e] + solved.panel.waterResistance_mKW[e];
  const piece = layout.panel.pieceStart[e];
  const byWind = new Map<number, HeatConditions>();
  for (const wind of WINDS) byWind.set(wind, conditions({ wind_ms: wind, exposure: 1 }));
  let settled = true;
  const heat = (mean_C: number, wind: number): number => {
    const { panel } = byWind.get(wind)!;
    const metre = metreHeat(
      panel.outside[standing],
      panel.absorbed_Wm[piece],
      panel.backingAbsorbed_Wm?.[piece] ?? 0,
      inner,
      mean_C,
    );
    settled &&= metre.converged;
    return metre.heat_Wm / strip;
  };
  const curve = isoCurve(heat, now.moment.air_C, net, WINDS);
  // a curve that did not settle is none
  if (!settled) return [];
  return curve.lines.map((l) => ({
    wind_ms: l.wind_ms,
    eta0: l.eta0,
    loss_Wm2K: l.slope_Wm2K,
  }));
}

/** Ground that a metre of the typical tube covers [m]. */
function stripOf(project: Project, solved: SolvedHeat, standing: number): number {
  const s = solved.layout.standings[standing];
  if (s.kind === 'row') return Math.max(solved.layout.rows[s.row].sight.strip_m[s.tube], s.outer_m);
  if (s.kind !== 'coil') return s.kind === 'header' ? s.outer_m : s.size.outer_m;
  const geometry = solved.flow.assembled.geometry.banks[s.bank];
  const bank = project.collector.sections[geometry.section].banks[geometry.bank];
  return bank.kind === 'coil' ? ((Math.PI / 4) * bank.outerDiameter_m ** 2) / bank.length_m : 1;
}
