import { createRandom } from '@sunlap/engine/numeric/random';
import type { Bank, CoilBank, Plumbing, Section } from '@sunlap/project/schema/collector';
import type { Path } from '@sunlap/project/schema/path';
import type { Project } from '@sunlap/project/schema/project';
import { collector, loop, project } from '../fixtures';

const PIPES = [
  {
    tube: 'pvc-sch40-1/2',
    headers: ['pvc-sch40-1', 'pvc-sch40-1-1/2', 'pvc-sch40-2'],
    loop: 'pvc-sch40-1-1/2',
  },
  { tube: 'pvc-sdr21-3/4', headers: ['pvc-sch40-1-1/4', 'pvc-sch40-1-1/2'], loop: 'pvc-sch40-2' },
  { tube: 'pvcu-pn16-20', headers: ['pvcu-pn10-40', 'pvcu-pn10-50'], loop: 'pvcu-pn10-50' },
  { tube: 'pe-irrigation-20', headers: ['pvcu-pn10-40', 'pvcu-pn10-50'], loop: 'pvcu-pn10-50' },
  { tube: 'pex-cts-1/2', headers: ['pvc-sch40-1-1/2'], loop: 'pvc-sch40-1-1/2' },
  { tube: 'cpvc-cts-1/2', headers: ['cpvc-cts-1', 'cpvc-cts-1-1/2'], loop: 'pvc-sch40-1-1/2' },
  { tube: 'pe-sidr19-1/2', headers: ['pe-sidr19-1', 'pe-sidr19-1-1/2'], loop: 'pvc-sch40-1-1/2' },
] as const;

/** A legal layout by chance: sections in series and parallel, one or two feeds, hand-overs, splits, valves, taps. */
export function randomLayout(seed: number): Project {
  const random = createRandom(seed);
  const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)];
  const chance = (p: number): boolean => random() < p;
  const set = pick(PIPES);
  const ends = (): ('first' | 'last')[] =>
    chance(0.25) ? ['first', 'last'] : [pick(['first', 'last'] as const)];
  let id = 0;
  const run = (
    length_m: number,
    over: Partial<Extract<Path[number], { kind: 'pipe' }>> = {},
  ): Path[number] => ({
    kind: 'pipe',
    id: `p${id++}`,
    pipe: set.loop,
    length_m,
    surroundings: 'shade',
    fittings: [
      { kind: 'elbow90', count: 1 + Math.floor(random() * 3) },
      ...(chance(0.3) ? [{ kind: 'elbow45' as const, count: 1 }] : []),
      ...(chance(0.2) ? [{ kind: 'union' as const, count: 1 }] : []),
      ...(chance(0.2) ? [{ kind: 'teeRun' as const, count: 1 }] : []),
    ],
    ...over,
  });
  const path = (): Path => {
    const out: Path = [run(3 + 9 * random())];
    if (chance(0.3)) out.push({ kind: 'valve', id: `v${id++}`, role: 'isolating', type: 'ball', opening: 1 });
    if (chance(0.2)) out.push({ kind: 'tap', id: `t${id++}`, purpose: pick(['drain', 'airVent'] as const) });
    if (chance(0.2)) out.push(run(2, { parallel: 2 }));
    if (chance(0.2)) out.push({ kind: 'split', id: `s${id++}`, branches: [[run(3)], [run(4)]] });
    if (chance(0.2)) out.push({ kind: 'checkValve', id: `c${id++}` });
    if (out.length > 1) out.push(run(2 + random()));
    return out;
  };
  const coiled = /^pe|^pex/.test(set.tube);
  const section = (n: number): Section => {
    const header = pick(set.headers);
    const banks = 1 + Math.floor(random() * 3);
    const count = 2 + Math.floor(random() * 8);
    const nested = chance(0.25);
    const coils = coiled && chance(0.3);
    const pitch_m = 0.09 + 0.03 * random() + (header.endsWith('-2') ? 0.03 : 0);
    const length_m = 2 + 8 * random();
    const leadIn_m = chance(0.2) ? 0 : 0.25;
    const headers = { supply: { pipe: header, leadIn_m }, gather: { pipe: header, leadIn_m } };
    const bank = (k: number): Bank => {
      const place = {
        id: `b${n}-${k}`,
        // nested banks share their place and lie one above the other
        across_m: nested ? (k * pitch_m) / 3 : k * (count * pitch_m + 0.9),
        depth_m: nested ? 0.05 + 0.3 * k : 0.05,
        pipe: set.tube,
      };
      if (coils) {
        const join: CoilBank['join'] = chance(0.5) ? 'series' : 'parallel';
        const round = { innerDiameter_m: 0.5, outerDiameter_m: 1.2 };
        return {
          kind: 'coil',
          ...place,
          count: 1 + (count % 3),
          join,
          shape: 'flat',
          length_m: 20 + 40 * random(),
          ...round,
          ...(join === 'parallel' && chance(0.6) ? headers : {}),
        };
      }
      return { kind: 'tubes', ...place, count, length_m, pitch_m, ...headers };
    };
    const list = Array.from({ length: banks }, (_, k) => bank(k));
    return {
      id: `sec${n}`,
      u_m: 12 * n,
      v_m: 0,
      direction: pick(['contour', 'slope'] as const),
      inletSide: pick(['near', 'far'] as const),
      inletEnds: count > 6 ? ends() : [pick(['first', 'last'] as const)],
      outletEnds: count > 6 ? ends() : [pick(['first', 'last'] as const)],
      banks: list,
      handovers: list.slice(1).map(() => {
        const join = (from: 'first' | 'last') => ({
          from,
          to: pick(['first', 'last'] as const),
          ...(chance(0.3) ? { path: [run(2 + random())] } : {}),
        });
        const joins = [join(pick(['first', 'last'] as const))];
        if (chance(0.15)) joins.push(join(joins[0].from === 'first' ? 'last' : 'first'));
        return { joins };
      }),
    };
  };
  const sections = Array.from({ length: 1 + Math.floor(random() * 4) }, (_, n) => section(n));
  const leaf = (s: Section): Plumbing => ({
    section: s.id,
    ...(chance(0.3) ? { before: path() } : {}),
    ...(chance(0.3) ? { after: path() } : {}),
  });
  const leaves = sections.map(leaf);
  const tree = (list: Plumbing[]): Plumbing => {
    if (list.length === 1) return list[0];
    // pairs one after another, and the pairs side by side; or the other way round
    if (list.length === 4 && chance(0.5)) {
      const pairs = [list.slice(0, 2), list.slice(2)];
      return chance(0.5)
        ? { parallel: pairs.map((series) => ({ series })) }
        : { series: pairs.map((parallel) => ({ parallel })) };
    }
    return chance(0.5) ? { parallel: list } : { series: list };
  };
  const plumbing = tree(leaves);
  const own = collector(sections, plumbing);
  return project({
    collector: own,
    loop: loop({
      suctions: [
        { id: 'skimmer', kind: 'skimmer', depth_m: 0.1, path: [run(8)] },
        ...(chance(0.4) ? [{ id: 'drain', kind: 'mainDrain' as const, depth_m: 1.5, path: [run(9)] }] : []),
      ],
      toPump: [run(2)],
      toBypass: [run(2)],
      feed: path(),
      return: path(),
      toPool: [run(6)],
      bypass: chance(0.3)
        ? { kind: 'none' }
        : chance(0.5)
          ? { kind: 'threeWay', id: 'dv', toCollector: 1, past: [run(2)] }
          : {
              kind: 'twoValves',
              toCollector: { kind: 'valve', id: 'v1', role: 'toCollector', type: 'ball', opening: 1 },
              pastValve: { kind: 'valve', id: 'v2', role: 'past', type: 'ball', opening: 0 },
              past: [run(2)],
            },
      outlets: Array.from({ length: 1 + Math.floor(random() * 3) }, (_, k) => ({
        id: `o${k}`,
        kind: 'underWater' as const,
        height_m: -0.3,
        path: chance(0.5) ? [run(2)] : [],
      })),
    }),
  });
}
