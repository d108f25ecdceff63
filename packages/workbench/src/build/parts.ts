import type { Project } from '@sunlap/project/schema/project';
import { type PanelGeometry, panelGeometry } from '../assembly/geometry';
import { STANDARD_TABLES } from '../assembly/standard-tables';
import { sayIn } from '../flow/say';
import { type Bag, newBag } from './bag';
import { addLoopParts } from './loop-parts';
import { type BuildOptions, completeOptions } from './options';
import { longestStock_m } from './stock-lengths';
import type { Gathering } from './strand';

/**
 * Every pipe and fitting that a design needs, from the same description that the flow study solves. Supports and cement
 * come on top, see `build`.
 *
 * @param geometry of the same collector, when it is known already
 */
export function gatherParts(
  project: Pick<Project, 'collector' | 'loop' | 'prices' | 'units' | 'stock' | 'build'>,
  options: BuildOptions = {},
  geometry: PanelGeometry = panelGeometry(project.collector, STANDARD_TABLES.sizes),
): Bag {
  const bag = newBag();
  const longest = new Map<string, number>();
  const g: Gathering = {
    bag,
    options: completeOptions(options, project),
    say: sayIn(project.units),
    longest_m(pipe) {
      const found = longest.get(pipe) ?? longestStock_m(project, pipe);
      longest.set(pipe, found);
      return found;
    },
  };
  addLoopParts(g, project, geometry);
  return bag;
}

/**
 * Pipe that water flows through, as cut, and what of the flow study's lengths sits in fittings [m]. Their sum is the flow
 * study's pipe; what had to be lengthened because fittings need room is taken off, and named in notices.
 */
export function flowLengths(bag: Bag): { pipe_m: number; fittings_m: number } {
  const pipe_m = bag.pieces.reduce((sum, p) => sum + (p.inFlow ? p.length_m * p.count : 0), 0);
  return { pipe_m: pipe_m - bag.grown_m, fittings_m: bag.taken_m };
}
