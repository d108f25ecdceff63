import type { Project } from '@sunlap/project/schema/project';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { heatValues } from './heat-values';
import { heatWeather, resolveMoment } from './moment';
import { createHeatCache, solveHeat } from './solve-heat';

/**
 * What dry tubes of this collector reach at a calm, clear midsummer noon [°C]: one answer for the check, the
 * parts and the report.
 *
 * @param air_C of that noon [°C]
 */
export function hottestDry_C(project: Project, air_C: number, tables: Tables = STANDARD_TABLES): number {
  const at = project.site.latitude_deg >= 0 ? '2026-06-21T13:00' : '2026-12-21T13:00';
  const now = resolveMoment(project, {
    at,
    air_C,
    dewPoint_C: 16,
    water_C: 28,
    wind_ms: 1,
    sky: 'clear',
  });
  // the sun gets past every tree at some hour
  const weather = heatWeather(project, now, { unshaded: true });
  const solved = solveHeat(project, weather, 28, { tables, cache: createHeatCache() });
  return heatValues(project, now, weather, solved).dryStanding_C;
}
