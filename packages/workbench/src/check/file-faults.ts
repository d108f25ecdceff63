import type { Notice } from '@sunlap/engine/numeric/notice';
import type { Project } from '@sunlap/project/schema/project';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import type { Tables } from '../assembly/tables';
import { sayIn } from '../flow/say';
import { pumpCurveNotices } from './pump-notices';
import { BROKEN_REFERENCES, referenceNotices } from './references';

/**
 * What makes a well-formed file one that nothing should be computed from: names that lead nowhere, and a pump
 * curve that rises with flow. A face that opens files from outside refuses them; the browser, where a person is
 * still at work on the file, shows the same findings as notices.
 */
export function fileFaults(project: Project, tables: Tables = STANDARD_TABLES): Notice[] {
  return [
    ...referenceNotices(project, tables).filter((notice) => BROKEN_REFERENCES.includes(notice.code)),
    ...pumpCurveNotices(project, sayIn(project.units)).filter((notice) => notice.code === 'pump-curve-rises'),
  ];
}
