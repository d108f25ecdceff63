import type { Outline, Pool } from '@sunlap/project/schema/pool';

/** Area of the water's surface [m²]. A polygon's by the shoelace formula, whichever way round it is drawn. */
export function outlineArea_m2(outline: Outline): number {
  switch (outline.kind) {
    case 'rectangle':
      return outline.length_m * outline.width_m;
    case 'round':
      return (Math.PI / 4) * outline.diameter_m ** 2;
    case 'oval':
      return (Math.PI / 4) * outline.length_m * outline.width_m;
    case 'L':
      return outline.length_m * outline.width_m - outline.cutLength_m * outline.cutWidth_m;
    case 'polygon': {
      let twice = 0;
      outline.points.forEach(([x, y], i) => {
        const [nextX, nextY] = outline.points[(i + 1) % outline.points.length];
        twice += x * nextY - nextX * y;
      });
      return Math.abs(twice) / 2;
    }
  }
}

export interface PoolSize {
  readonly surface_m2: number;
  readonly depth_m: number;
  readonly volume_m3: number;
}

/** Surface, mean depth and volume at the water level there is. A drawing that encloses nothing counts as 1 m². */
export function poolSize(pool: Pool): PoolSize {
  const surface_m2 = Math.max(outlineArea_m2(pool.outline), 1);
  const depth_m = Math.max(
    0.05,
    (pool.meanDepth_m ?? (pool.shallow_m + pool.deep_m) / 2) + (pool.waterLevel_m ?? 0),
  );
  return { surface_m2, depth_m, volume_m3: surface_m2 * depth_m };
}
