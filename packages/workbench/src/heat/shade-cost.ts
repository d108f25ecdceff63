import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import type { Project } from '@sunlap/project/schema/project';
import { type HeatWeather, heatConditions } from '../assembly/heat-conditions';
import { meanWithout, plainLayout } from '../assembly/heat-shade';
import type { HeatShade } from '../results';
import { heatWeather, type ResolvedMoment } from './moment';
import type { SolvedHeat } from './solve-heat';

/** Direct light that one thing must keep off by itself to be named [–]. */
const NAMED = 0.005;

/**
 * What shade costs now: the panel in the open at the same flows, less what it gives; and the thing whose absence
 * alone would let most direct light through.
 */
export function shadeCost(
  project: Project,
  now: ResolvedMoment,
  { shade }: HeatWeather,
  solved: SolvedHeat,
  values: HeatShade | null,
): HeatShade | null {
  if (!values || !shade) return values;
  const { assembled } = solved.flow;
  const open = plainLayout(solved.layout);
  const weather = heatWeather(project, now, { unshaded: true });
  const { panel } = heatConditions(project, assembled, open, weather, DEFAULT_HEAT_OPTIONS);
  const { heat_W } = solvePanel(open.panel, solved.elementFlow_kgs, now.moment.water_C, panel, {
    laminarGain: DEFAULT_HEAT_OPTIONS.laminarGain,
    tolerance_K: 1e-6,
  });
  let worst: string | null = null;
  let most = NAMED;
  shade.names.forEach((name, k) => {
    const gain = meanWithout(open, assembled, shade, k) - values.sunlit;
    if (gain > most) {
      most = gain;
      worst = name;
    }
  });
  return { ...values, cost_W: heat_W - solved.panel.heat_W, worst };
}
