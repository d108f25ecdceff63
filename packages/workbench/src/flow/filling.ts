import { pieceVolume } from '@sunlap/engine/hydraulics/fill';
import type { AssembledNetwork } from '../assembly/network';

/** Ways of the loop that stand empty before the first fill: what leads to the collector, through it and back. */
const EMPTY = ['/loop/feed', '/loop/return', '/collector'] as const;

/**
 * Water that fills the dry heater [m³]: the panel, and of the pipes to it, in it and back what lies over the pool's
 * water. What lies under it stays full.
 *
 * @param level_m of the pool's water over its normal one [m]
 * @example fillVolume_m3(assembled, 0) - assembled.geometry.volume_m3 // pipes alone
 */
export function fillVolume_m3({ description, geometry, infos }: AssembledNetwork, level_m: number): number {
  const { links, nodes } = description;
  let volume = geometry.volume_m3;
  infos.forEach((info, i) => {
    const { law, from, to } = links[i];
    if (info.role !== 'pipe' || info.bank >= 0 || law.kind !== 'pipe') return;
    if (!EMPTY.some((way) => info.path.startsWith(way))) return;
    const ends = [nodes[from].elevation_m, nodes[to].elevation_m];
    volume +=
      pieceVolume({ length_m: law.length_m, bore_m: law.bore_m }) *
      shareOver(Math.min(...ends), Math.max(...ends), level_m);
  });
  return volume;
}

/** Part of a straight pipe over a level; a level one at it counts as over. */
function shareOver(low: number, high: number, level: number): number {
  if (low >= level) return 1;
  return high <= level ? 0 : (high - level) / (high - low);
}
