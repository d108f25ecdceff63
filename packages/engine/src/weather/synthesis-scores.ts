import type { Random } from '../numeric/random';
import { drawNormal } from '../numeric/random-draws';
import { YEAR_DAYS } from './normals';

/**
 * Gaussian scores of the days of a year that remember the day before: z_d = φ·z_(d−1) + √(1−φ²)·ε.
 *
 * @param lag1 φ [–], −1…1 excluded
 */
export function persistentScores(random: Random, lag1: number): Float64Array {
  const scores = new Float64Array(YEAR_DAYS);
  const fresh = Math.sqrt(1 - lag1 * lag1);
  let z = drawNormal(random);
  for (let d = 0; d < YEAR_DAYS; d++) {
    scores[d] = z;
    z = lag1 * z + fresh * drawNormal(random);
  }
  return scores;
}
