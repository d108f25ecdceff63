import { createRandom } from '@sunlap/engine/numeric/random';
import type { Plumbing, Section, TubeBank } from '@sunlap/project/schema/collector';
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
  const section = (n: number): Section => {
    const header = pick(set.headers);
    const banks = 1 + Math.floor(random() * 3);
    const count = 2 + Math.floor(random() * 8);
    const nested = chance(0.25);
    const pitch_m = 0.09 + 0.03 * random() + (header.endsWith('-2') ? 0.03 : 0);
    const bank = (k: number): TubeBank => ({
      kind: 'tubes',
      id: `b${n}-${k}`,
      // nested banks share their place and lie one above the other
      across_m: nested ? (k * pitch_m) / 3 : k * (count * pitch_m + 0.9),
      depth_m: nested ? 0.05 + 0.3 * k : 0.05,
      count,
      length_m: 2 + 8 * random(),
      pitch_m,
      pipe: set.tube,
      supply: { pipe: header, leadIn_m: 0.25 },
      gather: { pipe: header, leadIn_m: 0.25 },
    });
    const list = Array.from({ length: banks }, (_, k) => bank(k));
    // hand-overs are ends side by side, so the banks of one section have one length
    for (const b of list) b.length_m = list[0].length_m;
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
        const joins = [
          {
            from: pick(['first', 'last'] as const),
            to: pick(['first', 'last'] as const),
            ...(chance(0.3) ? { path: [run(2 + random())] } : {}),
          },
        ];
        return { joins };
      }),
    };
  };
  const sections = Array.from({ length: 1 + Math.floor(random() * 3) }, (_, n) => section(n));
  const leaf = (s: Section): Plumbing => ({
    section: s.id,
    ...(chance(0.3) ? { before: path() } : {}),
    ...(chance(0.3) ? { after: path() } : {}),
  });
  const plumbing: Plumbing =
    sections.length === 1
      ? leaf(sections[0])
      : chance(0.5)
        ? { parallel: sections.map(leaf) }
        : { series: sections.map(leaf) };
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
