import { waterViscosity } from '@sunlap/engine/fluids/water';

/** Flows of all links and heads of all nodes at one temperature of the water. */
export interface FlowNode {
  readonly water_C: number;
  readonly flow_kgs: Float64Array;
  readonly head_m: Float64Array;
}

/** Flows by the water's temperature, with nodes where they are needed. */
export interface FlowTable {
  /** Flow of every link [kg/s]; the caller's own array. */
  at(water_C: number): Float64Array;
  /** Was any interval found to need more nodes than the first? */
  readonly kinked: () => boolean;
  readonly nodes: () => number;
}

/** Coldest and hottest node [°C]. */
const COLDEST_C = 0.5;
const HOTTEST_C = 60;
/** Intervals are not split further below this width [K]. */
const LEAST_K = 1.5;
/**
 * An interval whose middle was foretold this well is left as it is: total, and mean over the links of the tubes
 * [–]. The middle becomes a node all the same, so that what is left over is several times less.
 */
const TOTAL_OFF = 2e-4;
const TUBES_OFF = 1.5e-3;

interface Interval {
  readonly low: FlowNode;
  readonly high: FlowNode;
  readonly settled: boolean;
}

/**
 * Flows of a loop over the temperature of its water: cubic in ln ν through four nodes round the temperature asked
 * for. An interval is looked at when it is first met: the loop is solved at its middle, begun from what the table
 * foretells there, and where that was off both halves are looked at again, down to 1.5 K. Nodes so gather where
 * tubes turn from laminar to turbulent, and are few elsewhere.
 *
 * @param first   at least two nodes, rising
 * @param solve   the loop solved at a temperature, from a start; null when it has no answer, or other tubes run
 * @param whole   link that carries all of it
 * @param tubes   links that are judged by the mean of what is misplaced among them
 */
export function flowTable(
  first: readonly FlowNode[],
  solve: (water_C: number, start: FlowNode) => FlowNode | null,
  whole: number,
  tubes: readonly number[],
): FlowTable {
  const nodes = [...first];
  let intervals: Interval[] = nodes
    .slice(1)
    .map((high, i): Interval => ({ low: nodes[i], high, settled: false }));
  let kinked = false;

  function foretell(water_C: number): FlowNode {
    const u = Math.log(waterViscosity(water_C));
    let k = 0;
    while (k < nodes.length && nodes[k].water_C < water_C) k++;
    const from = Math.max(0, Math.min(nodes.length - 4, k - 2));
    const near = nodes.slice(from, from + 4);
    const x = near.map((n) => Math.log(waterViscosity(n.water_C)));
    const weights = x.map((xk, i) => x.reduce((w, xj, j) => (j === i ? w : (w * (u - xj)) / (xk - xj)), 1));
    const mix = (of: (n: FlowNode) => Float64Array): Float64Array => {
      const out = new Float64Array(of(near[0]).length);
      near.forEach((n, i) => {
        const values = of(n);
        const w = weights[i];
        for (let j = 0; j < out.length; j++) out[j] += w * values[j];
      });
      return out;
    };
    return { water_C, flow_kgs: mix((n) => n.flow_kgs), head_m: mix((n) => n.head_m) };
  }

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

  function addNode(node: FlowNode): void {
    nodes.push(node);
    nodes.sort((a, b) => a.water_C - b.water_C);
  }

  /** Adds a node beyond the last, where water is colder or hotter than all. */
  function reach(water_C: number): void {
    const [low, high] = [nodes[0], nodes[nodes.length - 1]];
    const end = water_C < low.water_C ? COLDEST_C : water_C > high.water_C ? HOTTEST_C : null;
    if (end === null) return;
    const near = water_C < low.water_C ? low : high;
    // without an answer there, the last flows stand
    const added = solve(end, near) ?? { ...near, water_C: end };
    const pair = end < near.water_C ? { low: added, high: near } : { low: near, high: added };
    intervals = [...intervals, { ...pair, settled: false }];
    addNode(added);
  }

  function settle(water_C: number): void {
    reach(water_C);
    for (;;) {
      const found = intervals.findIndex(
        (i) => !i.settled && i.low.water_C <= water_C && water_C <= i.high.water_C,
      );
      if (found < 0) return;
      const { low, high } = intervals[found];
      const middle_C = (low.water_C + high.water_C) / 2;
      const guess = foretell(middle_C);
      const full = solve(middle_C, guess);
      const halves: Interval[] = [];
      if (full) {
        const near = isNear(guess, full);
        if (!near) kinked = true;
        const settled = near || high.water_C - low.water_C < 2 * LEAST_K;
        halves.push({ low, high: full, settled }, { low: full, high, settled });
        addNode(full);
      } else halves.push({ low, high, settled: true });
      intervals.splice(found, 1, ...halves);
    }
  }

  return {
    at(water_C) {
      const t = Math.min(HOTTEST_C, Math.max(COLDEST_C, water_C));
      settle(t);
      return foretell(t).flow_kgs;
    },
    kinked: () => kinked,
    nodes: () => nodes.length,
  };
}
