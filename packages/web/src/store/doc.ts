import type { Project } from '@sunlap/project/schema/project';

/** Conditions for "now" on the sheets, as the person set them. */
export interface MomentInput {
  /** Local time at the site, `2026-04-12T11:00`. */
  at: string;
  water_C: number;
  air_C: number;
  dewPoint_C: number;
  /** At 10 m in the open. */
  wind_ms: number;
  sky: Sky;
}

export const SKIES = ['clear', 'hazy', 'thinCloud', 'halfCloud', 'overcast'] as const;
export type Sky = (typeof SKIES)[number];

/** What undo goes back to and autosave keeps: the project and the moment it is looked at. */
export interface Doc {
  project: Project;
  moment: MomentInput;
}

/** A mild spring forenoon at the site, in its own hemisphere. */
export function firstMoment(project: Project): MomentInput {
  return {
    at: project.site.latitude_deg < 0 ? '2026-10-12T11:00' : '2026-04-12T11:00',
    water_C: 26,
    air_C: 22,
    dewPoint_C: 6,
    wind_ms: 2,
    sky: 'clear',
  };
}
