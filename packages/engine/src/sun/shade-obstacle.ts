import { DomainError } from '../numeric/errors';
import type { ScreenMesh } from './shade-screen';

/** A point of the yard seen from above [m]: x to the east, y to the north. */
export type PlanPoint = readonly [east_m: number, north_m: number];
/** A point of the yard [m]: east, north, up. */
export type YardPoint = readonly [east_m: number, north_m: number, up_m: number];

/** House, wall, fence, hedge: a footprint drawn up from `base_m` to `top_m`. Opaque. */
export interface PrismObstacle {
  readonly kind: 'prism';
  readonly footprint: readonly PlanPoint[];
  readonly base_m: number;
  readonly top_m: number;
}

/**
 * A tree: an opaque trunk and an ellipsoid crown that lets a share of the direct light through, more of it
 * in the months without leaves.
 */
export interface TreeObstacle {
  readonly kind: 'tree';
  readonly at: PlanPoint;
  /** Height of the ground the trunk stands on [m]. */
  readonly ground_m: number;
  readonly trunkRadius_m: number;
  readonly crownRadius_m: number;
  /** Underside and top of the crown above `ground_m` [m]. */
  readonly crownBase_m: number;
  readonly height_m: number;
  /** Share of direct light that passes the crown [–]. */
  readonly leafTransmittance: number;
  readonly bareTransmittance: number;
  /** Twelve entries, January first: is the tree in leaf? */
  readonly leafMonths: readonly boolean[];
}

/** A screen enclosure: mesh walls on a footprint and a flat mesh roof at `top_m`. */
export interface ScreenObstacle {
  readonly kind: 'screen';
  readonly footprint: readonly PlanPoint[];
  readonly base_m: number;
  readonly top_m: number;
  readonly mesh: ScreenMesh;
}

export type Obstacle = PrismObstacle | TreeObstacle | ScreenObstacle;

/** @throws {DomainError} when a solid has no volume or a share lies outside 0…1 */
export function checkObstacle(obstacle: Obstacle): void {
  if (obstacle.kind === 'tree') {
    const t = obstacle;
    checkFinite('tree position', t.at[0], t.at[1], t.ground_m);
    if (!(t.trunkRadius_m >= 0 && t.trunkRadius_m < Infinity))
      throw new DomainError('trunk radius', t.trunkRadius_m, '[0, ∞) m');
    if (!(t.crownRadius_m > 0 && t.crownRadius_m < Infinity))
      throw new DomainError('crown radius', t.crownRadius_m, '(0, ∞) m');
    if (!(t.crownBase_m >= 0)) throw new DomainError('crown base', t.crownBase_m, '[0, height) m');
    if (!(t.height_m > t.crownBase_m && t.height_m < Infinity))
      throw new DomainError('tree height', t.height_m, '(crown base, ∞) m');
    for (const share of [t.leafTransmittance, t.bareTransmittance])
      if (!(share >= 0 && share <= 1)) throw new DomainError('crown transmittance', share, '[0, 1]');
    if (t.leafMonths.length !== 12) throw new DomainError('leaf months', t.leafMonths.length, '12 entries');
    return;
  }
  if (!(obstacle.footprint.length >= 3))
    throw new DomainError('footprint', obstacle.footprint.length, '≥ 3 corners');
  for (const [x, y] of obstacle.footprint) checkFinite('footprint corner', x, y);
  checkFinite('base', obstacle.base_m);
  if (!(obstacle.top_m > obstacle.base_m && obstacle.top_m < Infinity))
    throw new DomainError('top of obstacle', obstacle.top_m, '(base, ∞) m');
}

function checkFinite(quantity: string, ...values: number[]): void {
  for (const value of values) if (!Number.isFinite(value)) throw new DomainError(quantity, value, 'finite m');
}

/** Footprint of a straight wall of a thickness [m] between two points, for fences and walls drawn as a line. */
export function wallFootprint(from: PlanPoint, to: PlanPoint, thickness_m: number): PlanPoint[] {
  if (!(thickness_m > 0)) throw new DomainError('wall thickness', thickness_m, '(0, ∞) m');
  const dx = to[0] - from[0];
  const dy = to[1] - from[1];
  const length = Math.hypot(dx, dy);
  if (!(length > 0)) throw new DomainError('wall length', length, '(0, ∞) m');
  const ox = (-dy / length) * (thickness_m / 2);
  const oy = (dx / length) * (thickness_m / 2);
  return [
    [from[0] - ox, from[1] - oy],
    [to[0] - ox, to[1] - oy],
    [to[0] + ox, to[1] + oy],
    [from[0] + ox, from[1] + oy],
  ];
}
