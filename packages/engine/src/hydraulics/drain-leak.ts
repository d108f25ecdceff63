import { DomainError } from '../numeric/errors';

/** A suction that draws from the pool. */
export interface LeakSuction {
  readonly id: string;
  /** depth of its mouth under the present water level [m], ≥ 0 */
  readonly depth_m: number;
  /** its valve is open */
  readonly open: boolean;
}

/** The pool, as far as a leak can empty it. */
export interface LeakPool {
  /** surface of the water [m²] */
  readonly surface_m2: number;
  /**
   * Volume of water above a depth under the present level [m³]. Left out: surface × depth, which is right
   * for upright walls and too much where they slope in.
   */
  readonly volumeAbove_m3?: (depth: number) => number;
  /** water is made up automatically */
  readonly automaticMakeUp: boolean;
}

export interface LeakLoss {
  /** the suction that decides, null when every one is shut: nothing is pumped out */
  readonly downTo: string | null;
  readonly levelFall_m: number;
  readonly volume_m3: number;
  /** hours until the suction draws air, at the leak given; null when none was given or nothing leaks */
  readonly hours: number | null;
  /** the pump draws air from then on and runs dry: nothing stops it */
  readonly pumpRunsDry: boolean;
  /** make-up keeps feeding the leak: with it the loss has no end */
  readonly endless: boolean;
}

/**
 * What is pumped out through a leak in the collector while nobody is there: the pool goes down to the lowest
 * suction that is open. The pump is never assumed to stop: it runs dry. Automatic make-up keeps feeding the
 * leak, so that nothing runs dry and the loss has no end.
 *
 * @param pool     surface [m²] > 0
 * @param suctions every suction with its depth [m] ≥ 0 and whether it is open
 * @param leak     flow lost [m³/s], > 0; left out when unknown
 * @throws {DomainError} outside those ranges
 * @example leakLoss({ surface_m2: 32, automaticMakeUp: false }, [{ id: 'skimmer', depth_m: 0.12, open: true }]).volume_m3 // 3.84
 */
export function leakLoss(pool: LeakPool, suctions: readonly LeakSuction[], leak?: number): LeakLoss {
  if (!(pool.surface_m2 > 0 && pool.surface_m2 < Infinity))
    throw new DomainError('pool surface', pool.surface_m2, '(0, ∞) m²');
  if (leak !== undefined && !(leak > 0 && leak < Infinity))
    throw new DomainError('leak', leak, '(0, ∞) m³/s');
  let deepest: LeakSuction | null = null;
  for (const suction of suctions) {
    if (!(suction.depth_m >= 0 && suction.depth_m < Infinity))
      throw new DomainError('depth of a suction', suction.depth_m, '[0, ∞) m');
    if (suction.open && (deepest === null || suction.depth_m > deepest.depth_m)) deepest = suction;
  }
  if (deepest === null)
    return { downTo: null, levelFall_m: 0, volume_m3: 0, hours: null, pumpRunsDry: true, endless: false };
  const depth = deepest.depth_m;
  const volume = pool.volumeAbove_m3 ? pool.volumeAbove_m3(depth) : pool.surface_m2 * depth;
  if (!(volume >= 0 && volume < Infinity)) throw new DomainError('volume', volume, '[0, ∞) m³');
  return {
    downTo: deepest.id,
    levelFall_m: depth,
    volume_m3: volume,
    hours: leak === undefined ? null : volume / leak / 3600,
    pumpRunsDry: !pool.automaticMakeUp,
    endless: pool.automaticMakeUp,
  };
}
