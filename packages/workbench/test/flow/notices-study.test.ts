import { describe, expect, it } from 'vitest';
import type { FlowBand } from '../../src/flow/band';
import { solveFlow } from '../../src/flow/flow-basic';
import { doubtNotices } from '../../src/flow/notices-study';
import { sayIn } from '../../src/flow/say';
import { flowValues } from '../../src/flow/values';
import { project, TEST_TABLES } from '../fixtures';

const p = project();
const solved = solveFlow(p, { tables: TEST_TABLES });
const values = flowValues(p, solved.assembled, solved.solution, solved.water_C, solved.speed);
const tube = solved.assembled.infos.findIndex((i) => i.role === 'tube');
/** What is said of a band of the collector's flow when a tube's friction is not known. */
const said = (low: number, high: number) => {
  const intervals = { collectorFlow_m3s: { low, high } };
  const band: FlowBand = { intervals, frictionUnknown: true, uncertainLinks: [tube], failed: [] };
  return doubtNotices(solved, values, band, sayIn('us')).find((n) => n.code === 'friction-unknown')!;
};

describe('friction that nobody knows', () => {
  it('tells a band that is one', () => {
    expect(said(0.002, 0.0024)).toMatchObject({ severity: 'unsure', remedy: 'A measured flow settles it.' });
    expect(said(0.002, 0.0024).message).toMatch(/between 31\.7 gpm and 38\.0 gpm/);
  });

  it('tells none that is narrower than its digits', () => {
    const found = said(0.002378, 0.0023781);
    expect(found.message).not.toMatch(/between \d/);
    expect(found).toMatchObject({ severity: 'info' });
    expect(found.remedy).toBeUndefined();
  });
});
