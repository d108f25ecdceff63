import { waterDensity, waterHeatCapacity } from '@sunlap/engine/fluids/water';
import { type LeakLoss, leakLoss } from '@sunlap/engine/hydraulics/drain-leak';
import type { Project } from '@sunlap/project/schema/project';
import { poolSize } from '../assembly/pool-size';

type PoolAndLoop = Pick<Project, 'pool' | 'loop'>;

/**
 * What is pumped out through a leak while nobody is there, with some of the suctions open: one answer for the check,
 * the year and the report. A skimmer draws down to its mouth in the pool's wall, whatever depth its pipe is drawn
 * at; no suction draws from under the floor, and no more comes out than there is.
 *
 * @param open is the suction of that place in the file open?
 * @example leakThrough(project, () => true).volume_m3
 */
export function leakThrough({ pool, loop }: PoolAndLoop, open: (place: number) => boolean): LeakLoss {
  const level = pool.waterLevel_m ?? 0;
  const { surface_m2, depth_m, volume_m3 } = poolSize(pool);
  const floor_m = Math.max(depth_m, pool.deep_m + level);
  const suctions = loop.suctions.map((s, i) => {
    const mouth_m = s.kind === 'skimmer' ? pool.skimmerMouthDepth_m : s.depth_m;
    return { id: s.id, depth_m: Math.min(floor_m, Math.max(0, mouth_m + level)), open: open(i) };
  });
  const volumeAbove_m3 = (depth: number): number => Math.min(volume_m3, surface_m2 * depth);
  return leakLoss({ surface_m2, volumeAbove_m3, automaticMakeUp: pool.automaticMakeUp }, suctions);
}

/**
 * Heat that warms what is filled in again, ρ·c·V·(T − T_mains) [J]; none where the mains are the warmer.
 *
 * @param mains_C of the mains as the year takes them: as given, else the year's mean air
 * @example refillHeat_J(10, 26, 16) // 4.18e8
 */
export function refillHeat_J(volume_m3: number, water_C: number, mains_C: number): number {
  return volume_m3 * waterDensity(20) * waterHeatCapacity(20) * Math.max(0, water_C - mains_C);
}
