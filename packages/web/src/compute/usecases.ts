import type { StartAnswer } from '@sunlap/workbench/flow/start-answer';
import { heat } from '@sunlap/workbench/heat/heat';
import { heatBasic } from '@sunlap/workbench/heat/heat-basic';
import { heatStart } from '@sunlap/workbench/heat/heat-start';
import { createHeatCache } from '@sunlap/workbench/heat/solve-heat';
import type { FlowAnswer, HeatAnswer } from '@sunlap/workbench/results';
import type { Doc } from '../store/doc';

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

/** Kept between answers: layouts that did not change are not prepared again. */
const cache = createHeatCache();

/** Where the app meets the use-cases. */
export function study({ project, moment }: Doc, depth: Depth): Study {
  if (depth === 'start') {
    const { flow, ...start } = heatStart(project, moment);
    return { flow, heat: null, start };
  }
  const answer =
    depth === 'quick'
      ? heatBasic(project, moment, { cache, day: false })
      : heat(project, moment, { startUp: false, breaker: false });
  return { flow: answer.flow, heat: answer };
}
