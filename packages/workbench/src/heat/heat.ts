import { rankNotices } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { studyFlow } from '../flow/flow';
import { solverReport } from '../flow/flow-basic';
import { unattainableNotices } from '../flow/notices-loop';
import { sayIn } from '../flow/say';
import type { HeatAnswer } from '../results';
import { asItStands } from '../state/standing';
import { heatBand } from './heat-band';
import { type HeatStudyOptions, heatReport } from './heat-basic';
import { heatCosting } from './heat-costing';
import { heatNotices } from './heat-notices';
import { heatValues } from './heat-values';
import { heatWeather, type MomentOptions, resolveMoment } from './moment';
import { oddSkyNotices } from './odd-sky';
import { panelCurves } from './panel-curve';
import { shadeCost } from './shade-cost';
import { createHeatCache, solveHeat } from './solve-heat';
import { poolPerSunnyDay_K } from './sunny-day';

export interface HeatOptionsFull extends HeatStudyOptions {
  /** True adds the study of starting from empty to the flow's part. */
  readonly startUp?: boolean;
  /** False leaves out the study of the vacuum breaker. */
  readonly breaker?: boolean;
}

/**
 * The full heat study of one moment: heat with its band and what it comes from, each tube's temperatures, the
 * panel's curve, dry standing, first slug, and the flow study at these temperatures.
 *
 * @example heat(project, { at: '2026-04-12T11:00', air_C: 24 }).result.heat_W
 */
export function heat(given: Project, moment: MomentOptions, options: HeatOptionsFull = {}): HeatAnswer {
  const project = asItStands(given);
  const now = resolveMoment(project, moment);
  const weather = heatWeather(project, now);
  const { water_C } = now.moment;
  const cache = options.cache ?? createHeatCache(options.solver);
  const solved = solveHeat(project, weather, water_C, { ...options, cache });
  const result = heatValues(project, now, weather, solved);
  result.curves = panelCurves(project, now, solved);
  result.shade = shadeCost(project, now, weather, solved, result.shade ?? null);
  const band = heatBand(project, now, solved);
  result.poolPerSunnyDay_K = poolPerSunnyDay_K(project, { ...moment, water_C }, solved);
  const say = sayIn(project.units);
  const notices = [...oddSkyNotices(now, say), ...heatNotices(project, solved, result, band, say)];
  const flow = studyFlow(project, solved.flow, {
    ...options,
    water_C,
    startUp: options.startUp ?? false,
    costing: heatCosting(project, solved, water_C, say),
  });
  return {
    result,
    solver: heatReport(solved),
    band: band.intervals,
    // what the loop cannot do comes before what it would bring
    notices: rankNotices([
      ...unattainableNotices(solved.flow, flow.result),
      ...notices,
      ...flow.notices.filter((n) => n.code !== 'flow-not-attainable'),
    ]),
    complete: true,
    flow: { ...flow, solver: solverReport(solved.flow.solution) },
  };
}
