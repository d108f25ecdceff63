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
 * first stick is shortened, so that joints of neighbouring tubes do not line up. So that no joint lies on a support,
 * the first is shortened further, and where that is not enough the ones behind it too; where nothing is, the joints
 * lie as far from supports as one shift of them all can bring them.
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
  const low = Math.max(Math.min(least, ends / 2), ends - stock);
  const high = Math.min(stock, ends - Math.min(least, ends / 2));
  const wanted = Math.min(high, Math.max(low, high - (options.shift_m ?? 0)));
  const whole = (first: number): number[] => [
    first,
    ...new Array<number>(joints - 1).fill(stock),
    ends - first,
  ];
  const supports = options.supports_m ?? [];
  const cuts = clearest(around(wanted, low, high).map(whole), gap, supports);
  if (worst(cuts, gap, supports) < JOINT_FROM_SUPPORT_M - 1e-9) {
    // whole sticks cannot clear them all: from each first piece on, every stick as long as keeps its joint clear
    const lowest = Math.max(least, net - joints * stock);
    for (const first of around(Math.min(stock, wanted), lowest, Math.min(stock, net - joints * least))) {
      const own = shortened(first, net, joints, stock, gap, least, supports);
      if (own) return { cuts_m: own, joints_m: jointsOf(own, gap) };
    }
  }
  return { cuts_m: cuts, joints_m: jointsOf(cuts, gap) };
}

/** Middle of each joint. */
function jointsOf(cuts: readonly number[], gap: number): number[] {
  const joints_m: number[] = [];
  let at = 0;
  for (const cut of cuts.slice(0, -1)) {
    at += cut + gap / 2;
    joints_m.push(at);
    at += gap / 2;
  }
  return joints_m;
}

const fromSupports = (joint: number, supports: readonly number[]): number =>
  Math.min(Infinity, ...supports.map((s) => Math.abs(joint - s)));

/** Least distance of any joint from any support. */
const worst = (cuts: readonly number[], gap: number, supports: readonly number[]): number =>
  Math.min(Infinity, ...jointsOf(cuts, gap).map((joint) => fromSupports(joint, supports)));

/** The wanted length, then others in steps of a centimetre, nearest first. */
function around(wanted: number, low: number, high: number): number[] {
  const step = 0.01;
  const all = [wanted];
  for (let k = 1; k * step <= high - low + step; k++)
    for (const x of [wanted - k * step, wanted + k * step])
      if (x >= low - 1e-12 && x <= high + 1e-12) all.push(x);
  return all;
}

/** The first way that stands clear of the supports, else the one that stands clearest. */
function clearest(ways: readonly number[][], gap: number, supports: readonly number[]): number[] {
  let best = ways[0];
  let far = worst(best, gap, supports);
  for (const way of ways) {
    if (far >= JOINT_FROM_SUPPORT_M - 1e-9) return best;
    const own = worst(way, gap, supports);
    if (own > far + 1e-9) {
      best = way;
      far = own;
    }
  }
  return best;
}

/** From a first piece on, each next as long as it can be with its joint clear; null where the rest does not reach. */
function shortened(
  first: number,
  net: number,
  joints: number,
  stock: number,
  gap: number,
  least: number,
  supports: readonly number[],
): number[] | null {
  const clear = (start: number, cut: number): boolean =>
    fromSupports(start + cut + gap / 2, supports) >= JOINT_FROM_SUPPORT_M - 1e-9;
  if (!clear(0, first)) return null;
  const cuts = [first];
  let used = first;
  for (let k = 1; k < joints; k++) {
    const start = used + k * gap;
    const high = Math.min(stock, net - used - (joints - k) * least);
    const low = Math.max(least, net - used - (joints - k) * stock);
    if (high < low - 1e-9) return null;
    const cut = around(high, low, high).find((x) => clear(start, x));
    if (cut === undefined) return null;
    cuts.push(cut);
    used += cut;
  }
  const last = net - used;
  return last <= stock + 1e-9 && last >= least - 1e-9 ? [...cuts, last] : null;
}
