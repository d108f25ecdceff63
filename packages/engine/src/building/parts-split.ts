import { DomainError } from '../numeric/errors';

/** A pipe longer than the stock, made of several. */
export interface SplitPipe {
  /** Lengths as cut, first to last [m]. */
  readonly cuts_m: readonly number[];
  /** Middle of each joint from the pipe's first end [m]. */
  readonly joints_m: readonly number[];
}

/** Joints keep this far from a support's middle: half a coupling and a hand (judgement). */
export const JOINT_FROM_SUPPORT_M = 0.1;

/**
 * Cut a long pipe from stock: whole sticks first, so that the fewest joints are glued, the rest last. With `shift` the
 * first stick is shortened, so that joints of neighbouring tubes do not line up and none lies on a support.
 *
 * @param length  of the finished pipe, joint gaps included [m], > 0
 * @param stock   longest stick that can be had [m], > 0
 * @param gap     between the two pipe ends inside a coupling [m], ≥ 0; a bell's pipe end is taken as gap 0
 * @param least   shortest piece that may be used: two sockets [m], ≥ 0
 * @param options supports' middles [m] that joints keep away from; shift of the first joint [m]
 * @throws {DomainError} outside those ranges
 * @example splitPipe(9, 6.096, 0.0024, 0.035).cuts_m // [6.096, 2.9016]
 */
export function splitPipe(
  length: number,
  stock: number,
  gap: number,
  least: number,
  options: { supports_m?: readonly number[]; shift_m?: number } = {},
): SplitPipe {
  if (!(length > 0 && length < Infinity)) throw new DomainError('length', length, '(0, ∞) m');
  if (!(stock > 0 && stock < Infinity)) throw new DomainError('stock length', stock, '(0, ∞) m');
  if (!(gap >= 0 && gap < stock)) throw new DomainError('gap of a joint', gap, '[0, stock) m');
  if (!(least >= 0 && 2 * least <= stock)) throw new DomainError('shortest piece', least, '[0, stock/2] m');
  if (length <= stock + 1e-9) return { cuts_m: [length], joints_m: [] };
  // as few joints as whole sticks allow
  const joints = Math.ceil((length - stock - 1e-9) / (stock + gap));
  const net = length - joints * gap;
  // what the first and last may give: all but the two are whole sticks
  const ends = net - (joints - 1) * stock;
  const first = firstPiece(ends, stock, gap, least, options);
  const cuts = [first, ...new Array<number>(joints - 1).fill(stock), ends - first];
  const joints_m: number[] = [];
  let at = 0;
  for (let k = 0; k < joints; k++) {
    at += cuts[k] + gap / 2;
    joints_m.push(at);
    at += gap / 2;
  }
  return { cuts_m: cuts, joints_m };
}

/** First piece nearest the wanted length whose joint stands clear of the supports; both ends keep `least`. */
function firstPiece(
  ends: number,
  stock: number,
  gap: number,
  least: number,
  options: { supports_m?: readonly number[]; shift_m?: number },
): number {
  const low = Math.max(Math.min(least, ends / 2), ends - stock);
  const high = Math.min(stock, ends - Math.min(least, ends / 2));
  const wanted = Math.min(high, Math.max(low, high - (options.shift_m ?? 0)));
  const supports = options.supports_m ?? [];
  const step = 0.01;
  const clear = (first: number): boolean =>
    supports.every((s) => Math.abs(first + gap / 2 - s) >= JOINT_FROM_SUPPORT_M - 1e-9);
  if (clear(wanted)) return wanted;
  for (let k = 1; k * step <= high - low + step; k++) {
    for (const first of [wanted - k * step, wanted + k * step])
      if (first >= low - 1e-12 && first <= high + 1e-12 && clear(first)) return first;
  }
  return wanted;
}
