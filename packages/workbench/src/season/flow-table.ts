import { waterViscosity } from '@sunlap/engine/fluids/water';

/** Flows of all links and heads of all nodes at one temperature of the water. */
export interface FlowNode {
  readonly water_C: number;
  readonly flow_kgs: Float64Array;
  readonly head_m: Float64Array;
}

/** Flows by the water's temperature, with nodes where they are needed. */
export interface FlowTable {
  /** Flow of every link [kg/s], solved at this very temperature once; foretold where it has no answer. */
  at(water_C: number): Float64Array;
  /** The same as the table foretells it; the caller's own array. */
  near(water_C: number): Float64Array;
  /** Was any stretch found to need more nodes than the first? */
  readonly kinked: () => boolean;
  readonly nodes: () => number;
}

/** Coldest and hottest node [°C]. */
const COLDEST_C = 0.5;
const HOTTEST_C = 60;
/** Stretches are not split below this width [K]. */
const LEAST_K = 2.5;
/**
 * A stretch whose middle was foretold this well is left as it is: total, and mean over the links of the tubes
 * [–]. The middle becomes a node all the same, so that what is left over is several times less.
 */
const TOTAL_OFF = 4e-4;
const TUBES_OFF = 1.5e-3;

type Three = readonly [FlowNode, FlowNode, FlowNode];

/** A stretch of temperatures, and the three nodes whose parabola foretells it. */
interface Cell {
  readonly low_C: number;
  readonly high_C: number;
  readonly by: Three;
  /** Its middle was looked at: the halves, or none where it has no answer. */
  halves: readonly [Cell, Cell] | null;
  settled: boolean;
}

function cellOf(low: FlowNode, high: FlowNode, by: Three, settled = false): Cell {
  return { low_C: low.water_C, high_C: high.water_C, by, halves: null, settled };
}

/**
 * Flows of a loop over the temperature of its water: parabolas in ln ν through three nodes each. A stretch is looked
 * at when it is first met: the loop is solved at its middle, begun from what is foretold there, and where that was
 * off both halves are looked at again, down to 2.5 K. Nodes so gather where tubes turn from laminar to turbulent, and
 * are few elsewhere. What is foretold is so near that the loop itself is solved from there in a step or two: flows that
 * are asked for are no interpolation. What a temperature gets does not depend on what was asked before.
 *
 * @param first   three nodes, rising
 * @param solve   the loop solved at a temperature, from a start; null when it has no answer, or other tubes run
 * @param whole   link that carries all of it
 * @param tubes   links that are judged by the mean of what is misplaced among them
 */
export function flowTable(
  first: Three,
  solve: (water_C: number, start: FlowNode) => FlowNode | null,
  whole: number,
  tubes: readonly number[],
): FlowTable {
  const [low, middle, high] = first;
  const cells = [cellOf(low, middle, first), cellOf(middle, high, first)];
  let nodes = 3;
  let kinked = false;

  function isNear(guess: FlowNode, full: FlowNode): boolean {
    let off = 0;
    let size = 0;
    for (const link of tubes) {
      off += Math.abs(guess.flow_kgs[link] - full.flow_kgs[link]);
      size += Math.abs(full.flow_kgs[link]);
    }
    const total = Math.abs(guess.flow_kgs[whole] - full.flow_kgs[whole]);
    return total <= TOTAL_OFF * Math.abs(full.flow_kgs[whole]) && off <= TUBES_OFF * size;
  }

  /** Top cell of a temperature; beyond the first nodes one is added, to the very end. */
  function topOf(water_C: number): Cell {
    const known = cells.find((c) => c.low_C <= water_C && water_C <= c.high_C);
    if (known) return known;
    const cold = water_C < low.water_C;
    const [end_C, near] = cold ? [COLDEST_C, low] : [HOTTEST_C, high];
    const end = solve(end_C, near);
    // without an answer there, the last flows stand
    const last: FlowNode = end ?? { ...near, water_C: end_C };
    const inner: FlowNode = end ? middle : { ...near, water_C: middle.water_C };
    nodes++;
    const by: Three = cold ? [last, low, inner] : [inner, high, last];
    const added = cold ? cellOf(last, low, by, !end) : cellOf(high, last, by, !end);
    cells.push(added);
    return added;
  }

  function split(cell: Cell): void {
    cell.settled = true;
    const middle_C = (cell.low_C + cell.high_C) / 2;
    const guess = foretell(cell.by, middle_C);
    const full = solve(middle_C, guess);
    if (!full) return;
    nodes++;
    const near = isNear(guess, full);
    if (!near) kinked = true;
    const ends = [cell.low_C, cell.high_C].map(
      (t) => cell.by.find((n) => n.water_C === t) ?? foretell(cell.by, t),
    );
    const by: Three = [ends[0], full, ends[1]];
    const done = near || cell.high_C - cell.low_C < 2 * LEAST_K;
    cell.halves = [cellOf(ends[0], full, by, done), cellOf(full, ends[1], by, done)];
  }

  function leafOf(water_C: number): Cell {
    let cell = topOf(water_C);
    for (;;) {
      if (!cell.settled) split(cell);
      if (!cell.halves) return cell;
      cell = water_C <= cell.halves[0].high_C ? cell.halves[0] : cell.halves[1];
    }
  }

  const solved = new Map<number, Float64Array>();

  function within(water_C: number): number {
    return Math.min(HOTTEST_C, Math.max(COLDEST_C, water_C));
  }

  return {
    at(water_C) {
      const t = within(water_C);
      const known = solved.get(t);
      if (known) return known;
      const guess = foretell(leafOf(t).by, t);
      const own = solve(t, guess)?.flow_kgs ?? guess.flow_kgs;
      solved.set(t, own);
      return own;
    },
    near(water_C) {
      const t = within(water_C);
      return flowsAt(leafOf(t).by, t);
    },
    kinked: () => kinked,
    nodes: () => nodes,
  };
}

/** The parabola in ln ν through three nodes. */
function foretell(by: Three, water_C: number): FlowNode {
  return { water_C, flow_kgs: flowsAt(by, water_C), head_m: mixed(by, water_C, (n) => n.head_m) };
}

function flowsAt(by: Three, water_C: number): Float64Array {
  return mixed(by, water_C, (n) => n.flow_kgs);
}

function mixed(by: Three, water_C: number, of: (node: FlowNode) => Float64Array): Float64Array {
  const u = Math.log(waterViscosity(water_C));
  const [x, y, z] = by.map((n) => Math.log(waterViscosity(n.water_C)));
  const a = ((u - y) * (u - z)) / ((x - y) * (x - z));
  const b = ((u - x) * (u - z)) / ((y - x) * (y - z));
  const c = ((u - x) * (u - y)) / ((z - x) * (z - y));
  const [p, q, r] = by.map(of);
  const out = new Float64Array(p.length);
  for (let i = 0; i < out.length; i++) out[i] = a * p[i] + b * q[i] + c * r[i];
  return out;
}
