import type { Project } from '@sunlap/project/schema/project';

/** Air of the hottest calm day where the file says nothing [°C]: a hot summer noon in most places; judgement. */
export const HOTTEST_AIR_C = 35;

/** Air of the hottest calm day that a design must bear [°C], for the check, the parts and the report alike. */
export const hottestAir_C = ({ build }: Pick<Project, 'build'>): number => build?.hottest_C ?? HOTTEST_AIR_C;
