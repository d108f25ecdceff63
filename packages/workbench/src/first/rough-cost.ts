import type { Project } from '@sunlap/project/schema/project';
import type { Bag } from '../build/bag';
import { glueLines, gluingOf } from '../build/gluing';
import { completeOptions } from '../build/options';
import { gatherParts } from '../build/parts';
import { shopList } from '../build/shop';
import { stockLengths } from '../build/stock-lengths';

/** What a design takes, fast enough to follow a drag: no cutting plan, pipe by the metre. */
export interface RoughCost {
  readonly gluedJoints: number;
  readonly pipe_m: number;
  /** Of everything that has a price. */
  readonly cost: number;
  /** Kinds of parts without one. */
  readonly unpriced: number;
  readonly currency: string;
}

/** Offcuts of a careful cutting plan, as a share of the pipe; common practice. */
const OFFCUTS = 0.05;

/**
 * Joints, pipe and cost of the heater's own part. The bill with cutting plan and packs is `build`.
 *
 * @example roughCost(project).gluedJoints
 */
export function roughCost(project: Project): RoughCost {
  const options = completeOptions({ spares: 0 }, project);
  const bag: Bag = gatherParts(project, options);
  const gluing = gluingOf(bag, options);
  const byPipe = new Map<string, number>();
  for (const p of bag.pieces) byPipe.set(p.pipe, (byPipe.get(p.pipe) ?? 0) + p.length_m * p.count);
  let cost = 0;
  let unpriced = 0;
  let pipe_m = 0;
  for (const [pipe, length] of byPipe) {
    pipe_m += length;
    const perMetre = Math.min(
      ...stockLengths(project, pipe).map((s) => (s.price === null ? Infinity : s.price / s.length_m)),
    );
    if (Number.isFinite(perMetre)) cost += length * (1 + OFFCUTS) * perMetre;
    else unpriced++;
  }
  for (const line of [...shopList(bag, [], project, options), ...glueLines(gluing, project)]) {
    if (line.price === null) unpriced++;
    else cost += line.price;
  }
  return { gluedJoints: gluing.glued, pipe_m, cost, unpriced, currency: project.prices?.currency ?? 'USD' };
}
