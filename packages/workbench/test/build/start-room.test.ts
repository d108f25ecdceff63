import { pipes } from '@sunlap/data/pipes';
import { createRandom } from '@sunlap/engine/numeric/random';
import { POOL_PIPE } from '@sunlap/project/start/pool-pipe';
import { type FirstAnswers, startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { gatherParts } from '../../src/build/parts';

/** Widths that the first questions offer for tubes and for the pool's pipe [m]. */
const tubes = pipes.filter((p) => p.od_m >= 0.012 && p.od_m <= 0.043);
const pools = pipes.filter((p) => p.od_m >= 0.026 && p.od_m <= 0.0765);
const headers = pipes.filter((p) => p.od_m >= 0.03 && p.od_m <= 0.065);

const lacking = (answers: FirstAnswers): string[] =>
  gatherParts(startProject(answers), { scope: 'all', unions: true })
    .notices.filter((n) => n.code === 'build-no-room')
    .map((n) => `${answers.loopPipe}, ${answers.headerPipe}, ${answers.tubePipe}: ${n.message}`);

describe('a project from the first answers', () => {
  it.each(['us', 'metric'] as const)('has room for its fittings with every pool pipe, %s', (units) => {
    for (const loopPipe of [POOL_PIPE[units], ...pools.map((p) => p.id)])
      for (const passes of [1, 2])
        expect(lacking({ ...usualAnswers(units), tubes: 4, loopPipe, passes })).toEqual([]);
  });

  it('has room with any pipes, tubes and passes by chance', () => {
    const random = createRandom(5);
    const pick = <T>(list: readonly T[]): T => list[Math.floor(random() * list.length)];
    for (let i = 0; i < 250; i++) {
      const answers = {
        ...usualAnswers(pick(['us', 'metric'] as const)),
        loopPipe: pick(pools).id,
        headerPipe: pick(headers).id,
        tubePipe: pick(tubes).id,
        tubes: 1 + Math.floor(8 * random()),
        passes: 1 + Math.floor(5 * random()),
      };
      expect(lacking(answers)).toEqual([]);
    }
  });

  it('says a lead-in only where the usual one is too short, and keeps the passes apart by it', () => {
    const usual = usualAnswers('us');
    const plain = startProject({ ...usual, loopPipe: usual.headerPipe }).collector.sections[0];
    const wide = startProject({ ...usual, loopPipe: 'pvc-sch40-2' }).collector.sections[0];
    const lead = (s: typeof plain, k: number, which: 'supply' | 'gather'): number | undefined => {
      const bank = s.banks[k];
      return bank.kind === 'tubes' ? bank[which].leadIn_m : undefined;
    };
    expect(lead(plain, 0, 'supply')).toBeUndefined();
    // 0.48 in in the tee, two sockets of 1.09 in, half of 0.33 in in the reducer: 2.83 in, to the next eighth
    expect(lead(wide, 0, 'supply')).toBeCloseTo(0.073025, 6);
    expect(lead(wide, 1, 'gather')).toBeCloseTo(0.073025, 6);
    expect(lead(wide, 0, 'gather')).toBeUndefined();
    const apart = wide.banks[1].across_m - wide.banks[0].across_m;
    expect(apart - 19 * 0.0826 - 2 * 0.073025).toBeCloseTo(0.06, 4);
  });
});
