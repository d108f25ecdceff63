import { DEFAULT_HEAT_OPTIONS } from '@sunlap/engine/collector/options';
import { solvePanel } from '@sunlap/engine/collector/panel';
import { pressureAtElevation } from '@sunlap/engine/fluids/moist-air';
import { waterDensity, waterHeatCapacity } from '@sunlap/engine/fluids/water';
import { sunDay } from '@sunlap/engine/sun/day';
import type { Project } from '@sunlap/project/schema/project';
import { heatConditions } from '../assembly/heat-conditions';
import { plainLayout, shadeLayout } from '../assembly/heat-shade';
import { poolSize } from '../assembly/pool-size';
import { utcOf } from './local-time';
import { heatWeather, type MomentOptions, resolveAt } from './moment';
import type { SolvedHeat } from './solve-heat';

/** Moments at which a day's heat is looked at, evenly between sunrise and sunset. */
const MOMENTS = 7;

/**
 * How much a clear day of this date warms the pool, its own losses left out [K]: heat while there is any to
 * gain, at the flow and water of the moment.
 */
export function poolPerSunnyDay_K(project: Project, moment: MomentOptions, solved: SolvedHeat): number {
  const { site } = project;
  const noon = utcOf(`${moment.at.slice(0, 10)}T12:00`, site.timeZone);
  const day = sunDay(noon, site, { pressure_Pa: pressureAtElevation(site.elevation_m), temperature_C: 20 });
  if (day.alwaysDown || !(day.length_ms > 0)) return 0;
  const from = day.sunrise_ms ?? day.noon_ms - day.length_ms / 2;
  const step = day.length_ms / MOMENTS;
  const plain = plainLayout(solved.layout);
  const { assembled } = solved.flow;
  let energy = 0;
  for (let i = 0; i < MOMENTS; i++) {
    const now = resolveAt(project, { ...moment, sky: 'clear' }, from + (i + 0.5) * step);
    const weather = heatWeather(project, now);
    // shadows have moved on
    const layout = shadeLayout(plain, assembled, weather.shade);
    const { panel } = heatConditions(project, assembled, layout, weather, DEFAULT_HEAT_OPTIONS);
    const heat = solvePanel(layout.panel, solved.elementFlow_kgs, now.moment.water_C, panel, {
      tolerance_K: 1e-4,
    }).heat_W;
    energy += (Math.max(0, heat) * step) / 1000;
  }
  const water_C = Math.min(99, Math.max(0.1, moment.water_C ?? 26));
  const pool = poolSize(project.pool);
  return energy / (pool.volume_m3 * waterDensity(water_C) * waterHeatCapacity(water_C));
}
