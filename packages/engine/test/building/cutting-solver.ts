import type { CutProgram, CutProgramOutcome } from '../../src/building/cutting-types';

/** Integer solver for small programmes: depth-first over columns, most of the cheapest first. */
export function smallProgramSolver(program: CutProgram): CutProgramOutcome {
  const { columns, costs, demand, limits } = program;
  const counts = columns.map(() => 0);
  let best: number[] | null = null;
  let bestCost = program.most + 1e-9;
  const need = [...demand];
  const left = [...limits];
  const dive = (from: number, cost: number): void => {
    if (cost > bestCost || (best !== null && cost >= bestCost - 1e-9)) return;
    if (need.every((d) => d <= 0)) {
      best = [...counts];
      bestCost = cost;
      return;
    }
    for (let c = from; c < columns.length; c++) {
      const { stock } = columns[c];
      if (left[stock] <= 0 || !columns[c].counts.some((q, i) => q > 0 && need[i] > 0)) continue;
      counts[c]++;
      left[stock]--;
      columns[c].counts.forEach((q, i) => {
        need[i] -= q;
      });
      dive(c, cost + costs[c]);
      columns[c].counts.forEach((q, i) => {
        need[i] += q;
      });
      left[stock]++;
      counts[c]--;
    }
  };
  dive(0, 0);
  return best === null ? { status: 'infeasible' } : { status: 'optimal', counts: best };
}
