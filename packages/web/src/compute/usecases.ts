import type { StartAnswer } from '@sunlap/workbench/flow/start-answer';
import type { FlowAnswer, HeatAnswer } from '@sunlap/workbench/results';
import type { Doc } from '../store/doc';
import { quickStudy } from './quick';

export interface Study {
  flow: FlowAnswer;
  heat: HeatAnswer | null;
  /** Starting from empty and the vacuum breaker; absent from the quicker answers. */
  start?: StartAnswer;
}

export type Depth =
  /** One solution: for every frame while something moves. */
  | 'quick'
  /** With bands, curves and notices. */
  | 'full'
  /** Starting from empty, turning down, the vacuum breaker: what takes longest, by itself. */
  | 'start';

/** Where the app meets the use-cases. What the longer ones need is fetched when they are first asked. */
export async function study(doc: Doc, depth: Depth): Promise<Study> {
  if (depth === 'quick') return quickStudy(doc);
  const { project, moment } = doc;
  if (depth === 'start') {
    const { heatStart } = await import('@sunlap/workbench/heat/heat-start');
    const { flow, ...start } = heatStart(project, moment);
    return { flow, heat: null, start };
  }
  const { heat } = await import('@sunlap/workbench/heat/heat');
  const answer = heat(project, moment, { startUp: false, breaker: false });
  return { flow: answer.flow, heat: answer };
}
