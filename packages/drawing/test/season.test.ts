import { describe, expect, it } from 'vitest';
import { aheadPlot } from '../src/seasonAhead';
import { seasonBands } from '../src/seasonBands';
import { seasonHours, seasonMonths } from '../src/seasonMonths';

const band = (mean: number[]) => ({ mean, low: mean.map((t) => t - 1), high: mean.map((t) => t + 1) });
const frame = {
  width: 500,
  height: 200,
  months: Array.from({ length: 12 }, (_, m) => `${m + 1}`),
  temperatureText: (t: number) => `${t}`,
  valueText: (v: number) => `${v}`,
  ticks_C: () => [20, 25],
  ticks: () => [0],
  words: { with: 'with', without: 'without', wish: 'wish' },
};

describe('season drawings', () => {
  it('put a warmer day higher and the wish at its height', () => {
    const sheet = seasonBands(
      { with: band([20, 22, 26, 28]), without: band([18, 19, 21, 22]), wish_C: 26, months: [] },
      frame,
    );
    const line = sheet.items.find((i) => i.kind === 'polyline' && i.ink === 'ink' && i.closed !== true)!;
    const wish = sheet.items.find((i) => i.kind === 'line' && i.dash !== undefined)!;
    if (line.kind !== 'polyline' || wish.kind !== 'line') throw new Error('not drawn');
    expect(line.points[3][1]).toBeLessThan(line.points[0][1]);
    expect(wish.from[1]).toBeCloseTo(line.points[2][1], 9);
  });

  it('stack gains up and losses down, as high as their sums', () => {
    const flat = (v: number) => new Array<number>(12).fill(v);
    const sheet = seasonMonths(
      [
        { id: 'sun', name: 'sun', values: flat(30) },
        { id: 'panel', name: 'panel', values: flat(20) },
        { id: 'air', name: 'air', values: flat(-40) },
      ],
      frame,
    );
    const boxes = sheet.items.filter((i) => i.kind === 'polyline');
    expect(boxes).toHaveLength(36);
    const tall = (k: number) => {
      const b = boxes[k];
      return b.kind === 'polyline' ? b.points[0][1] - b.points[2][1] : Number.NaN;
    };
    expect(tall(0) / tall(1)).toBeCloseTo(1.5, 9);
    expect(tall(2) / tall(1)).toBeCloseTo(-2, 9);
  });

  it('mark the hour of the wish and the hours of the valve', () => {
    const hour = (water_C: number, run: number) => ({
      water_C,
      low_C: water_C - 1,
      high_C: water_C + 1,
      without_C: water_C - 2,
      run,
    });
    const sheet = aheadPlot(
      { hours: [hour(24, 0), hour(25, 1), hour(26, 1), hour(26, 0)], wish_C: 26, days: [], reached: 2 },
      { ...frame, words: { ...frame.words, valve: 'open' } },
    );
    const bars = sheet.items.filter((i) => i.kind === 'line' && i.width === 7);
    expect(bars).toHaveLength(1);
    const mark = sheet.items.find((i) => i.kind === 'circle')!;
    const wish = sheet.items.find((i) => i.kind === 'line' && i.dash !== undefined)!;
    if (mark.kind !== 'circle' || wish.kind !== 'line') throw new Error('not drawn');
    expect(mark.centre[1]).toBeCloseTo(wish.from[1], 9);
  });

  it('leave out months in which no hour pays', () => {
    const none = new Array<null>(12).fill(null);
    const some = [...none.slice(1), { from_h: 9, to_h: 17 }];
    const bars = seasonHours(some, none, frame).items.filter((i) => i.kind === 'polyline');
    expect(bars).toHaveLength(1);
  });
});
