import { planCuts } from '@sunlap/engine/building/cutting-stock';
import type { CutProgram } from '@sunlap/engine/building/cutting-types';
import { describe, expect, it } from 'vitest';
import { loadIntegerSolver, programText } from '../../src/build/integer-solver';
import { largeOrder } from './large-order';

describe('cutting plan, 40 lengths and 400 pieces', () => {
  it('is proven or shows its gap on 50 invented orders, and is never worse than first-fit decreasing', async () => {
    const solver = await loadIntegerSolver({ seconds: 0.3 });
    let proven = 0;
    for (let seed = 1; seed <= 50; seed++) {
      const { pieces, stocks, kerf_m } = largeOrder(seed);
      const plan = planCuts(pieces, stocks, { kerf_m, solver });
      const made = pieces.map(() => 0);
      for (const bar of plan.bars) {
        const cuts = bar.cuts.reduce((sum, c) => sum + c.count, 0);
        const length = bar.cuts.reduce((sum, c) => sum + c.count * pieces[c.piece].length_m, 0);
        expect(length + (cuts - 1) * kerf_m).toBeLessThanOrEqual(stocks[bar.stock].length_m + 1e-6);
        for (const c of bar.cuts) made[c.piece] += bar.bars * c.count;
      }
      expect(made).toEqual(pieces.map((p) => p.count));
      expect(plan.price).toBeLessThanOrEqual(plan.firstFitPrice);
      expect(plan.bound).toBeGreaterThan(0);
      expect(plan.gap).toBeCloseTo(plan.price - plan.bound, 6);
      // pinned: the widest gap seen is 0.4 %
      expect(plan.gap / plan.price).toBeLessThan(0.01);
      if (plan.proven) proven++;
    }
    // pinned: 49 of 50, so that a weaker bound is noticed
    expect(proven).toBeGreaterThanOrEqual(47);
  });
});

describe('integer solver', () => {
  const program: CutProgram = {
    columns: [
      { stock: 0, counts: [2, 0] },
      { stock: 0, counts: [1, 1] },
      { stock: 1, counts: [0, 1] },
    ],
    costs: [10, 10, 0],
    demand: [3, 2],
    limits: [Infinity, 1],
    most: 100,
  };

  it('finds the optimum, knows when there is none, and keeps limits', async () => {
    const solver = await loadIntegerSolver();
    // by hand: one (2, 0), one (1, 1), and the one on hand
    expect(solver(program)).toEqual({ status: 'optimal', counts: [1, 1, 1] });
    expect(solver({ ...program, most: 19 }).status).toBe('infeasible');
    expect(solver({ ...program, limits: [Infinity, 0] })).toMatchObject({ status: 'optimal' });
    expect(
      solver({ ...program, demand: [3, 2], columns: program.columns.slice(0, 1), costs: [10] }).status,
    ).toBe('infeasible');
  });

  it('writes lines that the format allows', () => {
    const columns = Array.from({ length: 500 }, () => ({ stock: 0, counts: [1] }));
    const text = programText({
      columns,
      costs: columns.map(() => 12345),
      demand: [3],
      limits: [Infinity],
      most: 99999,
    });
    expect(Math.max(...text.split('\n').map((l) => l.length))).toBeLessThan(510);
  });
});
