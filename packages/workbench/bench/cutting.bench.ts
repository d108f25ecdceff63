import { planCuts } from '@sunlap/engine/building/cutting-stock';
import { bench, describe } from 'vitest';
import { loadIntegerSolver } from '../src/build/integer-solver';
import { largeOrder } from '../test/build/large-order';

const solver = await loadIntegerSolver({ seconds: 1 });

/** Each call plans the next of 50 orders of 40 lengths and 400 pieces; read `mean` and `max`. */
describe('cutting plan, 40 lengths, 400 pieces', () => {
  let seed = 0;
  bench(
    'with the integer solver',
    () => {
      const { pieces, stocks, kerf_m } = largeOrder((seed++ % 50) + 1);
      planCuts(pieces, stocks, { kerf_m, solver });
    },
    { iterations: 50, time: 0, warmupIterations: 0, warmupTime: 0 },
  );
});
