import type { Project } from '@sunlap/project/schema/project';
import type { MomentOptions } from '../heat/moment';

/**
 * The hour at which heaters are compared: a clear spring forenoon, mild and with little wind, in the site's own
 * hemisphere.
 *
 * @example referenceMoment(project).at // '2026-04-12T11:00' north of the equator
 */
export function referenceMoment(project: Pick<Project, 'site'>): MomentOptions {
  return {
    at: project.site.latitude_deg < 0 ? '2026-10-12T11:00' : '2026-04-12T11:00',
    water_C: 26,
    air_C: 22,
    dewPoint_C: 6,
    wind_ms: 2,
    sky: 'clear',
  };
}
