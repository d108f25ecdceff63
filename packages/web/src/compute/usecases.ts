import { heat } from '@sunlap/workbench/heat/heat';
import { heatBasic } from '@sunlap/workbench/heat/heat-basic';
import { createHeatCache } from '@sunlap/workbench/heat/solve-heat';
import type { FlowAnswer, HeatAnswer } from '@sunlap/workbench/results';
import type { Doc } from '../store/doc';

export interface Study {
  flow: FlowAnswer;
  heat: HeatAnswer | null;
}

export type Depth =
  /** One solution: for every frame while something moves. */
  | 'quick'
  /** With bands, curves, starting from empty, and notices. */
  | 'full';

/** Kept between answers: layouts that did not change are not prepared again. */
const cache = createHeatCache();

/** Where the app meets the use-cases. */
export function study({ project, moment }: Doc, depth: Depth): Study {
  const answer =
    depth === 'quick'
      ? heatBasic(project, moment, { cache, day: false })
      : heat(project, moment, { startUp: true });
  return { flow: answer.flow, heat: answer };
}
