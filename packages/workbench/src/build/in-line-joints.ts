import { DomainError } from '@sunlap/engine/numeric/errors';
import type { Project } from '@sunlap/project/schema/project';
import type { PanelGeometry } from '../assembly/geometry';
import type { InLineJoint } from '../assembly/in-line';
import { gatherParts } from './parts';

type Described = Pick<Project, 'collector' | 'loop' | 'prices' | 'units' | 'stock' | 'build'>;

interface Known {
  readonly of: Described;
  readonly joints: readonly InLineJoint[];
}

/** The last answer for each collector: one study solves the same design many times. */
const known = new WeakMap<Project['collector'], Known>();

/**
 * Couplings, unions and tees of taps that the whole design has in the water's way, from the parts list itself, for
 * `assembleNetwork`. Joining and unions are as the file has them.
 *
 * @param geometry of the same collector
 */
export function inLineJoints(project: Described, geometry: PanelGeometry): readonly InLineJoint[] {
  const before = known.get(project.collector);
  if (before && same(before.of, project)) return before.joints;
  const joints = gathered(project, geometry);
  known.set(project.collector, { of: project, joints });
  return joints;
}

function gathered(project: Described, geometry: PanelGeometry): readonly InLineJoint[] {
  try {
    return gatherParts(project, { scope: 'all' }, geometry).inLine;
  } catch (error) {
    // stock shorter than a coupling's gap: nothing can be cut from it, and the parts list says so
    if (error instanceof DomainError) return [];
    throw error;
  }
}

const same = (a: Described, b: Described): boolean =>
  a.loop === b.loop && a.prices === b.prices && a.stock === b.stock && a.build === b.build;
