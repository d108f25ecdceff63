import type { CutPiece, CutStock } from '@sunlap/engine/building/cutting-types';
import { createRandom } from '@sunlap/engine/numeric/random';

/** A large invented order: 40 lengths, 400 pieces, two bought lengths, offcuts on hand in half of them. */
export function largeOrder(seed: number): { pieces: CutPiece[]; stocks: CutStock[]; kerf_m: number } {
  const random = createRandom(1000 + seed);
  const counts = new Array<number>(40).fill(1);
  for (let n = 40; n < 400; n++) counts[Math.floor(random() * 40)]++;
  const longest = seed % 3 === 0 ? 1200 : 3000;
  const pieces = counts.map((count) => ({ length_m: (50 + Math.floor(random() * longest)) / 1000, count }));
  const stocks: CutStock[] = [
    { length_m: 3.048, price: 5 },
    { length_m: 6.096, price: 9.5 },
  ];
  if (seed % 2 === 0)
    for (let k = 0; k < 4; k++)
      stocks.push({ length_m: (500 + Math.floor(random() * 2500)) / 1000, price: 0, available: 1 + k });
  return { pieces, stocks, kerf_m: [0, 0.001, 0.003][seed % 3] };
}
