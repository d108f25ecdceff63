import { findMaterial } from '@sunlap/data/materials';
import type { PanelGeometry } from '../assembly/geometry';
import type { HeatLayout } from '../assembly/heat-layout';

/** Where a pipe's material has no row: PVC [J/m³K], from memory. */
const PVC_JM3K = 1.45e6;

/** ρc of a pipe's wall [J/m³K]. @example wallCapacity_Jm3K('PVC') // 1.4e6 */
export function wallCapacity_Jm3K(material: string): number {
  const row = findMaterial(material);
  return row ? row.density_kgm3 * row.heat_JkgK : PVC_JM3K;
}

/**
 * ρc of the wall of a piece of the collector's pipe [J/m³K], by what it stands as in the layout.
 *
 * @param standing place in the layout's standings
 * @param bank     of the element that the piece belongs to; −1 outside the banks
 */
export function wallOfPiece_Jm3K(
  { standings, rows }: Pick<HeatLayout, 'standings' | 'rows'>,
  { banks }: Pick<PanelGeometry, 'banks'>,
  standing: number,
  bank: number,
): number {
  const s = standings[standing];
  const own = banks[s.kind === 'row' ? rows[s.row].tubes[s.tube].bank : s.kind === 'coil' ? s.bank : bank];
  if (s.kind === 'pipe') return wallCapacity_Jm3K(s.size.material);
  const size =
    s.kind === 'header'
      ? [own?.supply?.size, own?.gather?.size].find((z) => z && Math.abs(z.outer_m - s.outer_m) < 1e-9)
      : own?.size;
  return size ? wallCapacity_Jm3K(size.material) : PVC_JM3K;
}
