import type { FlowAnswer, HeatAnswer } from '@sunlap/workbench/results';
import { flow } from '@sunlap/workbench/flow/flow';
import type { Doc } from '../store/doc';

export interface Study {
  flow: FlowAnswer;
  heat: HeatAnswer | null;
}

/** Where the app meets the use-cases. */
export function study(doc: Doc): Study {
  return { flow: flow(doc.project, { water_C: doc.moment.water_C }), heat: null };
}
