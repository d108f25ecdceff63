import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { inLineLoss } from '../../src/assembly/losses';
import type { AssembledNetwork } from '../../src/assembly/network';
import { solveFlow } from '../../src/flow/flow-basic';

const usual = { ...usualAnswers('us'), tubes: 4, passes: 1, loopPipe: 'pvc-sch40-2' };
const assembled = (project: Project): AssembledNetwork => solveFlow(project).assembled;

/** Sum of K on the links of a place, those of one role. */
function lossAt({ description, infos }: AssembledNetwork, role: string, path: string): number {
  return description.links.reduce((sum, { law }, i) => {
    const own = infos[i].role === role && infos[i].path === path && law.kind === 'pipe';
    return own ? sum + (law.minorLoss ?? 0) : sum;
  }, 0);
}

describe('joints in line', () => {
  const bank = '/collector/sections/0/banks/0';

  it('are none in tubes of a stick’s length, and one coupling in each that is longer', () => {
    expect(lossAt(assembled(startProject(usual)), 'tube', bank)).toBe(0);
    const long = assembled(startProject({ ...usual, tubeLength_m: 9 }));
    expect(lossAt(long, 'tube', bank)).toBeCloseTo(4 * 0.04, 12);
  });

  it('are a union before the panel and one behind it, and the tees of its taps, in the pool’s pipe', () => {
    const project = startProject({ ...usual, distance_m: 2 });
    const tee = inLineLoss('tapTee', 0.0525018);
    const without = { ...project, build: { unions: false } };
    const bare = { ...without, collector: { ...project.collector, taps: [] } };
    const feed = (p: Project): number => lossAt(assembled(p), 'pipe', '/loop/feed/0');
    const back = (p: Project): number => lossAt(assembled(p), 'pipe', '/loop/return/0');
    expect(feed(project) - feed(without)).toBeCloseTo(0.06, 9);
    expect(back(project) - back(without)).toBeCloseTo(0.06, 9);
    expect(feed(without) - feed(bare)).toBeCloseTo(tee, 9);
    // the bleed's node is where the header's lead ends: its loss stands there, carried to that bore
    const lead = (p: Project): number => lossAt(assembled(p), 'gatherHeader', `${bank}/gather`);
    const { description } = assembled(project);
    const bore = (kind: string) =>
      description.links[assembled(project).infos.findIndex((i) => i.path.startsWith(kind))].law.bore_m;
    expect(lead(without) - lead(bare)).toBeCloseTo(
      tee * (bore(`${bank}/gather`) / bore('/loop/return')) ** 4,
      9,
    );
  });
});
