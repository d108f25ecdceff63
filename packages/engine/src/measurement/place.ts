/** Where a thermometer was held. */
export type Place = 'stream' | 'pipeWall' | 'pail' | 'returnJet' | 'skimmer' | 'pool' | 'elsewhere';

/**
 * How far the water a thermometer touched may be from the water that counts, ± [K]. Common practice, judged:
 * in the stream and in the caught water only stirring and cooling matter; on a pipe's wall, wrapped, the wall
 * and the sun; skimmer and pool surface are warmer than the bulk on a sunny calm day.
 *
 * @example placeLimit('skimmer') // 0.5
 */
export function placeLimit(place: Place): number {
  return LIMITS[place];
}

const LIMITS: Record<Place, number> = {
  stream: 0.05,
  pail: 0.1,
  pipeWall: 0.5,
  returnJet: 0.3,
  skimmer: 0.5,
  pool: 0.5,
  elsewhere: 3,
};
