import type { CutPiece, CutStock } from '../../src/building/cutting-types';

/**
 * Least price by trying every way to put every piece: an independent answer for small orders. Whole millimetres.
 */
export function bruteForcePrice(
  pieces: readonly CutPiece[],
  stocks: readonly CutStock[],
  kerf_m: number,
): number {
  const mm = (v: number) => Math.round(v * 1000);
  const kerf = mm(kerf_m);
  const list = pieces.flatMap((p) => new Array<number>(p.count).fill(mm(p.length_m))).sort((a, b) => b - a);
  const capacity = stocks.map((s) => mm(s.length_m));
  const left = stocks.map((s) => s.available ?? Infinity);
  let best = Infinity;
  const bars: { used: number; stock: number }[] = [];
  const put = (k: number, price: number): void => {
    if (price >= best - 1e-9) return;
    if (k === list.length) {
      best = price;
      return;
    }
    const seen = new Set<string>();
    for (const bar of bars) {
      const key = `${bar.stock}/${bar.used}`;
      if (seen.has(key)) continue;
      seen.add(key);
      // one more cut lies between it and what is in the bar already
      if (bar.used + kerf + list[k] > capacity[bar.stock]) continue;
      const before = bar.used;
      bar.used += kerf + list[k];
      put(k + 1, price);
      bar.used = before;
    }
    for (let j = 0; j < stocks.length; j++) {
      if (left[j] <= 0 || list[k] > capacity[j]) continue;
      left[j]--;
      bars.push({ used: list[k], stock: j });
      put(k + 1, price + stocks[j].price);
      bars.pop();
      left[j]++;
    }
  };
  put(0, 0);
  return best;
}
