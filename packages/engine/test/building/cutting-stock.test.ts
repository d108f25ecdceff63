import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { firstFitDecreasing } from '../../src/building/cutting-greedy';
import { attainableSums, cutGrid } from '../../src/building/cutting-grid';
import { bestFilling } from '../../src/building/cutting-knapsack';
import { planCuts } from '../../src/building/cutting-stock';
import type { CutPiece, CutPlan, CutStock } from '../../src/building/cutting-types';
import { DomainError } from '../../src/numeric/errors';
import { createRandom } from '../../src/numeric/random';
import { bruteForcePrice } from './cutting-brute';
import { smallProgramSolver } from './cutting-solver';

/** What a plan must hold whatever its price: every piece cut, no bar over its length, no limit passed. */
function checkPlan(plan: CutPlan, pieces: readonly CutPiece[], stocks: readonly CutStock[], kerf_m: number) {
  const made = pieces.map(() => 0);
  const used = stocks.map(() => 0);
  let price = 0;
  for (const bar of plan.bars) {
    used[bar.stock] += bar.bars;
    price += bar.bars * stocks[bar.stock].price;
    let length = 0;
    let n = 0;
    for (const { piece, count } of bar.cuts) {
      made[piece] += bar.bars * count;
      length += count * pieces[piece].length_m;
      n += count;
    }
    expect(length + (n - 1) * kerf_m).toBeLessThanOrEqual(stocks[bar.stock].length_m + 1e-6);
    expect(bar.left_m).toBeCloseTo(Math.max(0, stocks[bar.stock].length_m - length - n * kerf_m), 4);
    expect(bar.sawCuts).toBeGreaterThanOrEqual(n - 1);
    expect(bar.sawCuts).toBeLessThanOrEqual(n);
  }
  pieces.forEach((p, i) => {
    const short = plan.short.find((x) => x.piece === i)?.count ?? 0;
    expect(made[i]).toBe(plan.tooLong.includes(i) ? 0 : p.count - short);
  });
  stocks.forEach((s, j) => {
    expect(used[j]).toBeLessThanOrEqual(s.available ?? Infinity);
  });
  expect(plan.price).toBeCloseTo(price, 6);
  expect(plan.gap).toBeCloseTo(plan.price - plan.bound, 6);
  expect(plan.price).toBeLessThanOrEqual(plan.firstFitPrice + 1e-9);
}

function smallOrder(seed: number) {
  const random = createRandom(seed);
  const pick = (n: number) => Math.floor(random() * n);
  const stocks: CutStock[] = [{ length_m: 3, price: 5 }];
  if (random() < 0.6) stocks.push({ length_m: 6, price: [9, 9.5, 10, 11][pick(4)] });
  if (random() < 0.5) stocks.push({ length_m: 0.5 + pick(30) / 10, price: 0, available: 1 + pick(2) });
  const pieces: CutPiece[] = Array.from({ length: 1 + pick(4) }, () => ({
    length_m: (200 + pick(2700)) / 1000,
    count: 1 + pick(3),
  }));
  return { pieces, stocks, kerf_m: [0, 0.001, 0.003][pick(3)] };
}

describe('cutting stock', () => {
  // verified: an exhaustive search that shares no code with the plan
  it('equals brute force on 200 random small orders, and says that it is proven', () => {
    for (let seed = 1; seed <= 200; seed++) {
      const { pieces, stocks, kerf_m } = smallOrder(seed);
      const plan = planCuts(pieces, stocks, { kerf_m, solver: smallProgramSolver });
      checkPlan(plan, pieces, stocks, kerf_m);
      expect(plan.price, `order ${seed}`).toBeCloseTo(bruteForcePrice(pieces, stocks, kerf_m), 6);
      expect(plan.proven, `order ${seed}`).toBe(true);
    }
  });

  it('without an integer solver never claims less than brute force, nor more than its bound proves', () => {
    for (let seed = 201; seed <= 260; seed++) {
      const { pieces, stocks, kerf_m } = smallOrder(seed);
      const plan = planCuts(pieces, stocks, { kerf_m });
      checkPlan(plan, pieces, stocks, kerf_m);
      const truth = bruteForcePrice(pieces, stocks, kerf_m);
      expect(plan.price).toBeGreaterThanOrEqual(truth - 1e-9);
      expect(plan.bound).toBeLessThanOrEqual(truth + 1e-9);
      if (plan.proven) expect(plan.price).toBeCloseTo(truth, 6);
    }
  });

  it('takes whole sticks without a cut, and gives the last piece its cut back', () => {
    const plan = planCuts([{ length_m: 6.096, count: 4 }], [{ length_m: 6.096, price: 9.5 }], {
      kerf_m: 0.003,
    });
    expect(plan).toMatchObject({ price: 38, proven: true, sawCuts: 0 });
    // 2 × 1 m and one 3 mm cut in 2.003 m; not in 2.002 m
    const two = (length_m: number) =>
      planCuts([{ length_m: 1, count: 2 }], [{ length_m, price: 1 }], { kerf_m: 0.003 });
    expect(two(2.003)).toMatchObject({ price: 1, sawCuts: 1 });
    expect(two(2.002)).toMatchObject({ price: 2 });
    expect(two(2.5).sawCuts).toBe(2);
  });

  it('uses what is on hand before it buys', () => {
    const stocks = [
      { length_m: 3, price: 5 },
      { length_m: 1.2, price: 0, available: 2 },
    ];
    const plan = planCuts([{ length_m: 1, count: 5 }], stocks);
    expect(plan.price).toBe(5);
    expect(plan.bars.filter((b) => b.stock === 1).reduce((s, b) => s + b.bars, 0)).toBe(2);
  });

  it('names pieces that no stock holds, and cuts the rest', () => {
    const plan = planCuts(
      [
        { length_m: 4, count: 1 },
        { length_m: 2, count: 1 },
        { length_m: 5, count: 2 },
      ],
      [
        { length_m: 3, price: 5 },
        { length_m: 5, price: 0, available: 1 },
      ],
    );
    // 5 m is held by what is on hand, which is one: 4 m too, but not both
    expect(plan.tooLong).toEqual([]);
    expect(plan.short).toEqual([
      { piece: 0, count: 1 },
      { piece: 2, count: 1 },
    ]);
    expect(plan.bars.reduce((s, b) => s + b.bars, 0)).toBe(2);
    const long = planCuts([{ length_m: 6, count: 1 }], [{ length_m: 5, price: 0, available: 1 }]);
    expect(long).toMatchObject({ tooLong: [0], short: [] });
    expect(planCuts([{ length_m: 4, count: 1 }], []).tooLong).toEqual([0]);
    expect(planCuts([], [{ length_m: 3, price: 5 }])).toMatchObject({ price: 0, proven: true, bars: [] });
  });

  it('cuts what the stock on hand reaches for, and says what is short of it', () => {
    // by hand: two sticks of 6 m give three of 2 m each
    const nine = planCuts([{ length_m: 2, count: 9 }], [{ length_m: 6, price: 0, available: 2 }]);
    expect(nine).toMatchObject({ tooLong: [], short: [{ piece: 0, count: 3 }], price: 0 });
    expect(nine.bars).toMatchObject([{ bars: 2, cuts: [{ piece: 0, count: 3 }] }]);
    const one = planCuts(
      [{ length_m: 7, count: 2 }],
      [
        { length_m: 8, price: 0, available: 1 },
        { length_m: 6, price: 9 },
      ],
    );
    expect(one).toMatchObject({ tooLong: [], short: [{ piece: 0, count: 1 }] });
    expect(one.bars).toHaveLength(1);
  });

  it('takes no more than there is, names all that is missing, and leaves nothing that still would fit', () => {
    const length = fc.integer({ min: 20, max: 80 }).map((n) => n / 10);
    fc.assert(
      fc.property(
        fc.array(fc.record({ length_m: length, count: fc.integer({ min: 1, max: 5 }) }), {
          minLength: 1,
          maxLength: 4,
        }),
        fc.array(
          fc.record({ length_m: length, price: fc.constant(0), available: fc.integer({ min: 1, max: 3 }) }),
          { minLength: 1, maxLength: 3 },
        ),
        (pieces, stocks) => {
          const plan = planCuts(pieces, stocks);
          const made = pieces.map((_, i) =>
            plan.bars.reduce((sum, b) => sum + b.bars * (b.cuts.find((c) => c.piece === i)?.count ?? 0), 0),
          );
          pieces.forEach((p, i) => {
            const short = plan.short.find((x) => x.piece === i)?.count ?? 0;
            const isLong = stocks.every((s) => s.length_m < p.length_m - 1e-9);
            expect(plan.tooLong.includes(i)).toBe(isLong);
            expect(made[i] + short).toBe(isLong ? 0 : p.count);
            // a piece that is short would fit no stick that is not begun
            const whole = stocks.reduce((sum, s) => sum + (s.length_m >= p.length_m ? s.available : 0), 0);
            const begun = plan.bars.reduce(
              (sum, b) => sum + (stocks[b.stock].length_m >= p.length_m ? b.bars : 0),
              0,
            );
            if (short > 0) expect(begun).toBe(whole);
          });
        },
      ),
      { numRuns: 150, seed: 21 },
    );
  });

  it('does not depend on the unit of money or the order of the list', () => {
    const { pieces, stocks, kerf_m } = smallOrder(7);
    const base = planCuts(pieces, stocks, { kerf_m, solver: smallProgramSolver });
    const dear = planCuts(
      [...pieces].reverse(),
      stocks.map((s) => ({ ...s, price: s.price * 100 })),
      { kerf_m, solver: smallProgramSolver },
    );
    expect(dear.price).toBeCloseTo(100 * base.price, 6);
  });

  it('fills one bar best, against every combination', () => {
    const random = createRandom(3);
    for (let round = 0; round < 200; round++) {
      const n = 1 + Math.floor(random() * 4);
      const lengths = Array.from({ length: n }, () => 3 + Math.floor(random() * 20));
      const values = lengths.map(() => Math.floor(random() * 30) / 4);
      const most = lengths.map(() => Math.floor(random() * 4));
      const capacity = 10 + Math.floor(random() * 50);
      let truth = 0;
      const all = (k: number, room: number, value: number): void => {
        truth = Math.max(truth, value);
        if (k === n) return;
        for (let q = 0; q <= most[k] && q * lengths[k] <= room; q++)
          all(k + 1, room - q * lengths[k], value + q * values[k]);
      };
      all(0, capacity, 0);
      const found = bestFilling(values, lengths, most, capacity);
      expect(found.value).toBeCloseTo(truth, 9);
      expect(found.counts.reduce((s, q, i) => s + q * values[i], 0)).toBeCloseTo(truth, 9);
      expect(found.upper).toBe(found.value);
    }
  });

  it('knows which prices can come about', () => {
    const endless = [Infinity, Infinity];
    const sums = attainableSums([10, 19], endless, 60);
    expect(sums.atLeast(11)).toBe(19);
    expect(sums.atLeast(20.5)).toBe(29);
    expect(sums.atLeast(0)).toBe(0);
    expect(sums.under(29)).toBe(20);
    expect(sums.under(10)).toBe(0);
    expect(attainableSums([0], [3], 5).atLeast(1.2)).toBe(2);
    // 2.5 long sticks' worth: 19 + 19 + 10 holds 2 + 2 + 1 = 5 of it, 4.9 is enough, 5.1 is not
    const held = (needed: number) =>
      attainableSums([10, 19], endless, 60, [{ holds: [1, 2], needed }]).atLeast(45);
    expect(held(4.9)).toBe(48);
    expect(held(5.1)).toBe(57);
    // one on hand makes up for it
    expect(
      attainableSums([10, 19, 0], [...endless, 1], 60, [{ holds: [1, 2, 0.2], needed: 5.1 }]).atLeast(45),
    ).toBe(48);
  });

  it('starts from first-fit decreasing as anyone would do it', () => {
    // by hand: 3 + 3, 2 + 2 + 2, 2 in bars of 6
    const grid = cutGrid(
      [
        { length_m: 2, count: 4 },
        { length_m: 3, count: 2 },
      ],
      [{ length_m: 6, price: 1 }],
      0,
    );
    expect(firstFitDecreasing(grid)?.patterns.map((p) => p.counts)).toEqual([
      [0, 2],
      [3, 0],
      [1, 0],
    ]);
  });

  it('refuses nonsense', () => {
    const stock = [{ length_m: 3, price: 1 }];
    for (const call of [
      () => planCuts([{ length_m: Number.NaN, count: 1 }], stock),
      () => planCuts([{ length_m: 1, count: 1.5 }], stock),
      () => planCuts([{ length_m: 1, count: -1 }], stock),
      () => planCuts([{ length_m: 1, count: 1 }], [{ length_m: 0, price: 1 }]),
      () => planCuts([{ length_m: 1, count: 1 }], [{ length_m: 3, price: Number.NaN }]),
      () => planCuts([{ length_m: 1, count: 1 }], [{ length_m: 3, price: 1, available: -1 }]),
      () => planCuts([{ length_m: 1, count: 1 }], stock, { kerf_m: -1 }),
    ])
      expect(call).toThrow(DomainError);
  });
});
