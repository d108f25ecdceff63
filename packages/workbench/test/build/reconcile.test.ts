import type { Project } from '@sunlap/project/schema/project';
import { describe, expect, it } from 'vitest';
import { assembleNetwork } from '../../src/assembly/network';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { flowLengths, gatherParts } from '../../src/build/parts';
import { randomLayout } from './random-layout';

/** Pipe and coil lengths of the network that the flow study solves, every lane counted. */
function networkPipe_m(project: Project): number {
  const { description } = assembleNetwork(project, STANDARD_TABLES);
  return description.links.reduce(
    (sum, { law }) => sum + (law.kind === 'pipe' || law.kind === 'coil' ? law.length_m : 0),
    0,
  );
}

describe('parts and flow study', () => {
  it('have the same pipe on 150 random legal layouts: cut pipe and what sits in fittings', () => {
    let roomy = 0;
    for (let seed = 1; seed <= 150; seed++) {
      const project = randomLayout(seed);
      const bag = gatherParts(project, { scope: 'all', unions: seed % 2 === 0 });
      const { pipe_m, fittings_m } = flowLengths(bag);
      const network = networkPipe_m(project);
      expect(Math.abs(pipe_m + fittings_m - network), `layout ${seed}`).toBeLessThan(1e-6);
      expect(fittings_m).toBeGreaterThan(0);
      expect(pipe_m).toBeGreaterThan(0);
      if (bag.grown_m === 0) roomy++;
      for (const piece of bag.pieces) expect(piece.length_m).toBeGreaterThan(0);
      for (const fitting of bag.fittings) expect(fitting.count).toBeGreaterThan(0);
    }
    // the check must not be carried by what was lengthened
    expect(roomy).toBeGreaterThan(75);
  });
});
