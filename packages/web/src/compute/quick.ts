import { heatBasic } from '@sunlap/workbench/heat/heat-basic';
import { createHeatCache } from '@sunlap/workbench/heat/solve-heat';
import type { Doc } from '../store/doc';
import type { Study } from './usecases';

/** Kept between answers: layouts that did not change are not prepared again. */
const cache = createHeatCache();

/** One solution: all that is fetched before the first answer. */
export function quickStudy({ project, moment }: Doc): Study {
  const answer = heatBasic(project, moment, { cache, day: false });
  return { flow: answer.flow, heat: answer };
}
