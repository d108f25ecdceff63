import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import type { Tables } from '../assembly/tables';
import type { Say } from '../flow/say';
import { plugNotices } from '../state/plug-notices';
import { buildNotices } from './build-notices';
import { heightNotices } from './height-notices';
import { pumpCurveNotices } from './pump-notices';
import { referenceNotices, withStandIn } from './references';
import { teeNotices } from './tee-notices';
import { zoneNotices } from './zone-notices';

/** Everything that can be found without solving anything. */
export function structureNotices(project: Project, tables: Tables, say: Say): Notice[] {
  return [
    ...referenceNotices(project, tables).map(withStandIn),
    ...zoneNotices(project),
    ...plugNotices(project),
    ...pumpCurveNotices(project, say),
    ...heightNotices(project, tables, say),
    ...buildNotices(project, tables, say),
    ...teeNotices(project, tables),
  ];
}
