import { describe, expect, it } from 'vitest';
import { waterDensity, waterHeatCapacity } from '../../src/fluids/water';
import { pailFlow } from '../../src/measurement/flow-pail';
import { heat } from '../../src/measurement/heat';
import { rise } from '../../src/measurement/rise';
import { createRandom, type Random } from '../../src/numeric/random';
import { drawNormal, drawRectangular } from '../../src/numeric/random-draws';

interface Kind {
  name: string;
  /** ± K of class, ± share of the pail, s of scatter at the watch, K of scatter of a rise */
  class_K: [number, number];
  pail: [number, number];
  watch_s: [number, number];
  sun_K: [number, number];
  onePail: number;
}

const KINDS: Kind[] = [
  {
    name: 'as people measure',
    class_K: [0.1, 0.5],
    pail: [0.01, 0.03],
    watch_s: [0.15, 0.6],
    sun_K: [0.03, 0.3],
    onePail: 0.5,
  },
  {
    name: 'plain thermometers',
    class_K: [0.5, 0.6],
    pail: [0.02, 0.03],
    watch_s: [0.15, 0.4],
    sun_K: [0.03, 0.1],
    onePail: 0,
  },
  {
    name: 'compared in one pail',
    class_K: [0.3, 0.5],
    pail: [0.01, 0.03],
    watch_s: [0.15, 0.4],
    sun_K: [0.03, 0.2],
    onePail: 1,
  },
  {
    name: 'restless thumb, good thermometers',
    class_K: [0.05, 0.05],
    pail: [0.005, 0.01],
    watch_s: [1, 2],
    sun_K: [0.02, 0.05],
    onePail: 0,
  },
  {
    name: 'broken clouds',
    class_K: [0.05, 0.1],
    pail: [0.01, 0.02],
    watch_s: [0.1, 0.2],
    sun_K: [0.4, 0.8],
    onePail: 0,
  },
];

const between = (random: Random, [low, high]: readonly [number, number]): number =>
  low + (high - low) * random();
const round = (x: number, digit: number): number => Math.round(x / digit) * digit;

/** One synthetic day measured by the rules of its own uncertainty budget: does the interval hold the truth? */
function held(random: Random, kind: Kind): boolean {
  const count = () => 3 + Math.floor(3 * random());
  const list = (n: number, of: () => number) => Array.from({ length: n }, of);
  const flow = between(random, [15, 60]) / 60_000;
  const nominal = between(random, [0.01, 0.02]);
  const pailLimit = between(random, kind.pail) * nominal;
  const line = 0.0001;
  const volume = nominal + pailLimit * drawRectangular(random) + line * drawRectangular(random);
  const reaction = 0.3 * drawRectangular(random);
  const thumb = between(random, kind.watch_s);
  const times = list(count(), () => round(volume / flow + reaction + thumb * drawNormal(random), 0.01));

  const coolTrue = between(random, [24, 30]);
  const warmTrue = coolTrue + between(random, [1.5, 6]);
  const limit = between(random, kind.class_K);
  const own = [limit * drawRectangular(random), limit * drawRectangular(random)] as const;
  const place = [0.05 * drawRectangular(random), 0.1 * drawRectangular(random)] as const;
  const drift = random() < kind.onePail ? 0.05 : undefined;
  const moved = drift === undefined ? 0 : drift * drawRectangular(random);
  const cloud = between(random, kind.sun_K);
  const n = count();
  const inlet = list(n, () => round(coolTrue + own[0] + place[0] + 0.03 * drawNormal(random), 0.1));
  const outlet = list(n, () => round(warmTrue + own[1] + moved + place[1] + cloud * drawNormal(random), 0.1));
  const bath = 26 + random();
  const thermometer = { limit_K: limit, resolution_K: 0.1 };
  const measuredRise = rise({
    inlet: { readings_C: inlet, thermometer, place: 'stream' },
    outlet: { readings_C: outlet, thermometer, place: 'pail' },
    ...(drift === undefined
      ? {}
      : {
          onePail: {
            inlet_C: list(3, () => round(bath + own[0] + 0.04 * drawNormal(random), 0.1)),
            outlet_C: list(3, () => round(bath + own[1] + 0.04 * drawNormal(random), 0.1)),
            driftLimit_K: drift,
          },
        }),
  }).rise!;
  const measuredFlow = pailFlow({
    volume_m3: nominal,
    volumeLimit_m3: pailLimit,
    fillLineLimit_m3: line,
    times_s: times,
    reactionLimit_s: 0.3,
  }).flow!;
  const found = heat(measuredFlow, measuredRise);
  const truth =
    waterDensity(warmTrue) * waterHeatCapacity((coolTrue + warmTrue) / 2) * flow * (warmTrue - coolTrue);
  return found.lower_W <= truth && truth <= found.upper_W;
}

const shareHeld = (kind: Kind, days: number, seed: number): number => {
  const random = createRandom(seed);
  let count = 0;
  for (let i = 0; i < days; i++) if (held(random, kind)) count++;
  return count / days;
};

describe('95 % intervals of synthetic test days with three to five repeats', () => {
  it('hold the truth in 94 to 96 of 100, ten thousand days', () => {
    // measured 95.8 %
    const share = shareHeld(KINDS[0]!, 10_000, 20260401);
    expect(share).toBeGreaterThanOrEqual(0.94);
    expect(share).toBeLessThanOrEqual(0.96);
  });

  it.each(KINDS.slice(1))('hold it as often whatever dominates: $name', (kind) => {
    const share = shareHeld(kind, 600, 99);
    // 600 days scatter by ±1.8 % (two standard deviations); measured 94.7, 96.1, 96.0 and 94.9 % of 1500
    expect(share).toBeGreaterThan(0.925);
    expect(share).toBeLessThan(0.975);
  });
});
