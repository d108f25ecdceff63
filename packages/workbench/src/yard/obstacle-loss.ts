import type { SunSteps } from '@sunlap/engine/season/sun-steps';
import { lightOnPlane } from '@sunlap/engine/sun/plane';
import { shadeGrid } from '@sunlap/engine/sun/shade-grid';
import { sunlitGainWithout } from '@sunlap/engine/sun/shade-table';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import type { SeasonCalendar } from '../season/calendar';
import type { ShadeTables, YardScene } from './scene';

/** Sun that one thing keeps off pool and collector, by month of the series [kWh]. */
export interface SunLoss {
  id: string;
  name: string;
  pool_kWh: number[];
  collector_kWh: number[];
  year_kWh: { pool: number; collector: number };
}

/**
 * What each thing in the yard costs in sun, by month: what would arrive more if it alone were gone, direct light
 * and the sky's. Two things that shade the same spot each cost nothing while the other stands.
 *
 * @param area_m2      of the water and of the collector's ground
 */
export function obstacleLosses(
  project: Pick<Project, 'collector' | 'site'>,
  series: WeatherSeries,
  sun: SunSteps,
  calendar: SeasonCalendar,
  scene: YardScene,
  tables: ShadeTables,
  area_m2: { readonly pool: number; readonly collector: number },
): SunLoss[] {
  if (!tables.pool || scene.obstacles.length === 0) return [];
  const { tilt_deg, facing_deg } = project.collector.placement;
  const albedo = project.site.groundAlbedo;
  const out = scene.obstacles.map(({ id, name }) => ({
    id,
    name,
    pool_kWh: new Array<number>(12).fill(0),
    collector_kWh: new Array<number>(12).fill(0),
    year_kWh: { pool: 0, collector: 0 },
  }));
  const hours = series.step_s / 3600 / 1000;
  const whole = scene.parts.reduce((sum, part) => sum + shadeGrid(part).area_m2, 0);
  const parts = tables.parts.flatMap((table, i) =>
    table ? [{ table, share: shadeGrid(scene.parts[i]).area_m2 / whole }] : [],
  );
  for (let i = 0; i < series.length; i++) {
    if (!(sun.sunlit[i] > 0) || !(series.global_Wm2[i] > 0)) continue;
    const m = calendar.month[i];
    const [az, el] = [sun.azimuth_deg[i], 90 - sun.zenith_deg[i]];
    const diffuse = Math.min(series.diffuse_Wm2[i], series.global_Wm2[i]);
    const level = series.global_Wm2[i] - diffuse;
    const plane = lightOnPlane(
      {
        sunZenith_deg: sun.zenith_deg[i],
        sunAzimuth_deg: az,
        directNormal_Wm2: series.directNormal_Wm2[i],
        diffuseHorizontal_Wm2: diffuse,
        extraterrestrial_Wm2: sun.extraterrestrial_Wm2[i],
      },
      tilt_deg,
      facing_deg,
      albedo,
    );
    const beam = plane.direct_Wm2 + plane.circumsolar_Wm2;
    const sky = plane.background_Wm2 + plane.horizon_Wm2;
    for (let k = 0; k < out.length; k++) {
      const { pool } = tables;
      const onPool =
        level * sunlitGainWithout(pool, m, k, az, el) + diffuse * pool.skyGainWithout[pool.monthState[m]][k];
      out[k].pool_kWh[m] += onPool * area_m2.pool * hours;
      for (const { table: t, share } of parts) {
        const onPart = beam * sunlitGainWithout(t, m, k, az, el) + sky * t.skyGainWithout[t.monthState[m]][k];
        out[k].collector_kWh[m] += onPart * area_m2.collector * share * hours;
      }
    }
  }
  for (const o of out) {
    o.year_kWh.pool = o.pool_kWh.reduce((a, b) => a + b, 0);
    o.year_kWh.collector = o.collector_kWh.reduce((a, b) => a + b, 0);
  }
  return out;
}
