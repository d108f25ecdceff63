import { findSurface } from '@sunlap/data/surfaces';
import { evenRow, type RowSight, rowSight } from '@sunlap/engine/collector/row-sight';
import type { PipeSize } from './sizes';

/** Emittance of boards, roofs and soil [–]; handbook value, from memory. */
export const BACKING_EMITTANCE = 0.9;
/** From the face of a backing to what is behind it, where the file gives none [W/m²K]; judgement. */
export const BACK_LOSS = { none: 0, board: 4, roof: 3, ground: 5, membrane: 3 } as const;
/** The engine's long wave ends at a mirror [–]. */
export const LEAST_EMITTANCE = 0.01;
/** Share of the sky that a pipe said to lie in the shade still sees: what hides the sun hides about half; judgement. */
export const SHADY_SKY = 0.5;
/** Natural convection across a laminar tube may nearly double its film: the rival of none [–]. */
export const MOST_LAMINAR_GAIN = 1.9;
/** Rooms through which pipe runs [°C]; judgement. */
export const ROOM_C = 22;

/** Surface of feed and return pipe, which the file does not colour: weathered white PVC, anything else black. */
export function pipeSurface(size: PipeSize): { absorptance: number; emittance: number } {
  const row = findSurface(size.material.startsWith('PVC') ? 'white_pvc_weathered' : 'black_pe_pp');
  return { absorptance: row?.absorptance ?? 0.45, emittance: row?.emittance ?? 0.92 };
}

const sights = new Map<number, RowSight>();

/** A lone pipe sees light from all round: the engine's row of one tube. */
export function loneSight(outer_m: number): RowSight {
  const known = sights.get(outer_m) ?? rowSight(evenRow(1, 1, outer_m));
  sights.set(outer_m, known);
  return known;
}
