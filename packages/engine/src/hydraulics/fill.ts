import { DomainError } from '../numeric/errors';

/** Piece that has to be filled the first time. */
export interface FillPiece {
  readonly length_m: number;
  readonly bore_m: number;
  /** alike pieces counted together; 1 when left out */
  readonly count?: number;
}

/** Where air can leave. */
export interface AirVent {
  readonly id: string;
  /** over the pool's surface [m] */
  readonly elevation_m: number;
}

export interface FirstFill {
  readonly volume_m3: number;
  /** null when nothing flows */
  readonly minutes: number | null;
  /** the pool's level goes down by this [m] */
  readonly poolFall_m: number;
  /** vents, highest first: air collects at the top and leaves there last */
  readonly ventsHighestFirst: readonly AirVent[];
  /** height of the highest point over the highest vent [m]; > 0 means air stays above every vent */
  readonly aboveVents_m: number;
}

/**
 * Water a piece of pipe holds, π/4·D²·L·count.
 *
 * @param piece length [m] ≥ 0, bore [m] > 0, count ≥ 0
 * @returns [m³]
 * @throws {DomainError} outside those ranges
 * @example pieceVolume({ length_m: 3.048, bore_m: 0.0158, count: 20 }) // 0.01195
 */
export function pieceVolume(piece: FillPiece): number {
  const { length_m, bore_m, count = 1 } = piece;
  if (!(length_m >= 0 && length_m < Infinity)) throw new DomainError('length', length_m, '[0, ∞) m');
  if (!(bore_m > 0 && bore_m < Infinity)) throw new DomainError('bore', bore_m, '(0, ∞) m');
  if (!(count >= 0 && count < Infinity)) throw new DomainError('count', count, '[0, ∞)');
  return (Math.PI / 4) * bore_m ** 2 * length_m * count;
}

/**
 * First fill: volume, minutes, how far the pool goes down, and where air leaves. With no vent, all air leaves
 * through the outlets in the pool, if the water is fast enough to carry it.
 *
 * @param pieces      everything above the pool's level that starts empty
 * @param flow        into the empty parts [m³/s], ≥ 0
 * @param poolSurface [m²], > 0
 * @param vents       bleeds, vacuum breaker, open ends
 * @param highest     highest point of the collector over the pool's surface [m]
 * @throws {DomainError} outside those ranges
 * @example firstFill([{ length_m: 240, bore_m: 0.0158 }], 0.0005, 32, [], 1.2).minutes // 1.57
 */
export function firstFill(
  pieces: readonly FillPiece[],
  flow: number,
  poolSurface: number,
  vents: readonly AirVent[],
  highest: number,
): FirstFill {
  if (!(flow >= 0 && flow < Infinity)) throw new DomainError('flow', flow, '[0, ∞) m³/s');
  if (!(poolSurface > 0 && poolSurface < Infinity))
    throw new DomainError('pool surface', poolSurface, '(0, ∞) m²');
  if (!Number.isFinite(highest)) throw new DomainError('highest point', highest, 'finite');
  const volume = pieces.reduce((sum, piece) => sum + pieceVolume(piece), 0);
  const sorted = [...vents].sort((a, b) => b.elevation_m - a.elevation_m);
  return {
    volume_m3: volume,
    minutes: flow > 0 ? volume / flow / 60 : null,
    poolFall_m: volume / poolSurface,
    ventsHighestFirst: sorted,
    aboveVents_m: sorted.length === 0 ? Infinity : highest - sorted[0]!.elevation_m,
  };
}
