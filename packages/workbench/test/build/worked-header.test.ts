import { describe, expect, it } from 'vitest';
import { gatherParts } from '../../src/build/parts';
import { collector, loop, pipe, project, section, tubes } from '../fixtures';

const IN = 0.0254;

/**
 * Invented worked case: one bank of 18 half-inch schedule 40 tubes, 10 ft long, at 3 in pitch between headers of 1-1/2 in
 * schedule 40; water in at the first end of the supply header and out at the last end of the return header; lead-ins of
 * 6 in; feed and return of 20 ft of 1-1/2 in with two elbows each; a three-way diverter, 5 ft past the collector.
 *
 * By hand. Tee 1-1/2 × 1-1/2 × 1/2: G = 0.84/2 + 1/16 = 0.4825 in along the run, S = 1.094 in.
 *   least pitch     2(0.4825 + 1.094) = 3.153 in > 3 in: this tee does NOT go at 3 in. On 1 in headers,
 *                   S = 0.875 in: 2(0.4825 + 0.875) = 2.715 in < 3 in: it does.
 * So the header is 1 in. Per header: 18 tees 1 × 1 × 1/2; 17 nipples of 3 − 2 × 0.4825 = 2.035 in (over 2S = 1.75 in).
 *   capped end      6 − 0.4825 = 5.5175 in of 1 in pipe and a cap
 *   joined end      lead-in 6 in of 1 in pipe to a reducing coupling 1-1/2 × 1: gap (3/32) + half the difference of the
 *                   outside diameters (1.9 − 1.315)/2 = 0.0938 + 0.2925 = 0.3863 in, half on each side 0.19315 in:
 *                   6 − 0.4825 − 0.19315 = 5.32435 in
 * Tubes: 18 of 120 in: 10 ft sticks, uncut.
 * Feed: 240 in − 2 elbows × 2 × 1 in − 0.19315 in = 235.80685 in in 3 pieces of 78.60228 in; the return the same, less
 *   half a reducer at its start, less the tee's 1 in where it meets the way past: 234.80685 in in 3 of 78.26895 in.
 * Past: 60 − 1 = 59 in, one piece.
 * Joints of 1 in: per header 18 × 2 on the run, 1 cap, 1 reducer = 38; of 1/2 in 18. Of 1-1/2: reducer 2, elbows 4 × 2,
 *   diverter 3, tee 3 = 16.
 */
describe('a header of 18 tees at 3 in', () => {
  const bank = tubes('a1', {
    count: 18,
    length_m: 120 * IN,
    pitch_m: 3 * IN,
    pipe: 'pvc-sch40-1/2',
    supply: { pipe: 'pvc-sch40-1', leadIn_m: 6 * IN },
    gather: { pipe: 'pvc-sch40-1', leadIn_m: 6 * IN },
  });
  const big = (id: string, length: number, elbows: number) =>
    pipe(id, length * IN, {
      pipe: 'pvc-sch40-1-1/2',
      ...(elbows > 0 ? { fittings: [{ kind: 'elbow90' as const, count: elbows }] } : {}),
    });
  const design = project({
    collector: collector([section('a', { banks: [bank], inletEnds: ['first'], outletEnds: ['last'] })]),
    loop: loop({
      toBypass: [],
      toPool: [],
      bypass: {
        kind: 'threeWay',
        id: 'dv',
        pipe: 'pvc-sch40-1-1/2',
        toCollector: 1,
        past: [big('past', 60, 0)],
      },
      feed: [big('feed', 240, 2)],
      return: [big('return', 240, 2)],
    }),
  });
  const bag = gatherParts(design, { unions: false });

  const count = (part: string): number =>
    bag.fittings.filter((f) => f.part === part).reduce((sum, f) => sum + f.count, 0);
  const cuts = (use: string, pipeId: string): [number, number][] =>
    bag.pieces
      .filter((p) => p.use === use && p.pipe === pipeId)
      .map((p): [number, number] => [Number((p.length_m / IN).toFixed(4)), p.count]);

  it('has every part that the hand count has, and no other', () => {
    const parts = new Map<string, number>();
    for (const f of bag.fittings) parts.set(f.part, (parts.get(f.part) ?? 0) + f.count);
    expect(Object.fromEntries(parts)).toEqual({
      'reducingTee-1x1/2': 36,
      'cap-1': 2,
      'reducer-1-1/2x1': 2,
      'elbow90-1-1/2': 4,
      'diverter-1-1/2': 1,
      'tee-1-1/2': 1,
    });
    expect(count('coupling-1/2')).toBe(0);
    expect(bag.notices).toEqual([]);
    expect(bag.grown_m).toBe(0);
  });

  it('has every length that the hand count has', () => {
    expect(cuts('tube', 'pvc-sch40-1/2')).toEqual([[120, 18]]);
    expect(cuts('nipple', 'pvc-sch40-1')).toEqual([
      [2.035, 17],
      [2.035, 17],
    ]);
    expect(cuts('stub', 'pvc-sch40-1')).toEqual([
      [5.5175, 1],
      [5.5175, 1],
    ]);
    // by hand 5.32435; the tables carry the reducer's gap as 2.3825 mm = 0.0938 in
    const leadIns = cuts('run', 'pvc-sch40-1').map(([length]) => length);
    expect(leadIns).toHaveLength(2);
    for (const length of leadIns) expect(length).toBeCloseTo(5.3244, 3);
    const runs = cuts('run', 'pvc-sch40-1-1/2').map(([length]) => length);
    const sum = (list: number[]): number => list.reduce((a, b) => a + b, 0);
    expect(runs).toHaveLength(7);
    expect(runs.filter((l) => Math.abs(l - 78.6023) < 1e-3)).toHaveLength(3);
    expect(runs.filter((l) => Math.abs(l - 78.269) < 1e-3)).toHaveLength(3);
    expect(runs.filter((l) => Math.abs(l - 59) < 1e-4)).toHaveLength(1);
    expect(sum(runs)).toBeCloseTo(235.8069 + 234.8069 + 59, 2);
  });

  it('has every joint that the hand count has', () => {
    const joints = new Map<string, number>();
    for (const f of bag.fittings)
      for (const j of f.joints) joints.set(j.nominal, (joints.get(j.nominal) ?? 0) + j.count * f.count);
    expect(Object.fromEntries(joints)).toEqual({ '1/2': 36, '1': 76, '1-1/2': 16 });
  });

  it('says that the same header in 1-1/2 in cannot be built at 3 in, and how it can', () => {
    const tooClose = { ...bank, supply: { ...bank.supply, pipe: 'pvc-sch40-1-1/2' } };
    const other = gatherParts({ ...design, collector: collector([section('a', { banks: [tooClose] })]) });
    const found = other.notices.find((n) => n.code === 'pitch-below-tees');
    expect(found).toMatchObject({ severity: 'damage', path: '/collector/sections/0/banks/0/pitch_m' });
    // 3.153 in = 80.1 mm
    expect(found?.message).toContain('80.1 mm');
    expect(found?.remedy).toContain('80.1 mm');
  });

  it('follows G and S that were measured', () => {
    const measured = { 'reducingTee-1x1/2': { takeOff_m: 0.55 * IN, socket_m: 0.9 * IN } };
    const own = gatherParts(design, { unions: false, measured });
    const nipple = own.pieces.find((p) => p.use === 'nipple')!;
    expect(nipple.length_m / IN).toBeCloseTo(3 - 2 * 0.55, 9);
    // 2(0.65 + 0.9) = 3.1 in: no longer fits
    const deep = { 'reducingTee-1x1/2': { takeOff_m: 0.65 * IN, socket_m: 0.9 * IN } };
    expect(gatherParts(design, { measured: deep }).notices.map((n) => n.code)).toContain('pitch-below-tees');
  });
});
