import { describe, expect, it } from 'vitest';
import { panelGeometry } from '../../src/assembly/geometry';
import { compareConnections } from '../../src/flow/connection';
import { flow } from '../../src/flow/flow';
import { collector, project, section, TEST_TABLES, tubes } from '../fixtures';

const WATER = { density_kgm3: 996, viscosity_Pas: 8.5e-4 };

/** One bank of 20 tubes of half-inch pipe, 10 m long, at a flow per tube of 0.05 L/s. */
function study(pitch_m: number, header: string) {
  const bank = tubes('a1', {
    count: 20,
    length_m: 10,
    pitch_m,
    supply: { pipe: header },
    gather: { pipe: header },
  });
  const geometry = panelGeometry(collector([section('a', { banks: [bank] })]), TEST_TABLES.sizes).banks[0];
  return compareConnections(geometry, { flow_kgs: 1, ...WATER })!;
}

describe('same end or opposite ends', () => {
  it('crosses over with pitch: short headers share better from the same end, long ones from opposite ends', () => {
    const better = [0.04, 0.07, 0.1, 0.3, 1, 3, 6].map((pitch) => study(pitch, 'oneAndHalf').better);
    expect(better[0]).toBe('sameEnd');
    expect(better[better.length - 1]).toBe('oppositeEnds');
    // one crossover and no more
    expect(better.filter((b, i) => i > 0 && b !== better[i - 1])).toHaveLength(1);
  });

  it('crosses over where header friction f·L/D is about 3, for every header size', () => {
    for (const [header, bore] of [
      ['one', 0.02664],
      ['oneAndHalf', 0.0409],
      ['two', 0.0525],
    ] as const) {
      let [short, long] = [0.02, 12];
      for (let i = 0; i < 24; i++) {
        const middle = Math.sqrt(short * long);
        if (study(middle, header).better === 'sameEnd') short = middle;
        else long = middle;
      }
      const re = (4 * 1) / (Math.PI * bore * WATER.viscosity_Pas);
      const friction = (0.316 / re ** 0.25) * ((19 * short) / bore);
      // "above about 3": our own solution, the method page's figure; the tee set moves it by half
      expect(friction).toBeGreaterThan(1);
      expect(friction).toBeLessThan(6);
    }
  });

  it('tells the person which is better for their panel, and by how much', () => {
    const p = project({
      collector: collector([
        section('a', {
          outletEnds: ['last'],
          banks: [tubes('a1', { count: 24, pitch_m: 0.07, pipe: 'threeQuarter' })],
        }),
      ]),
    });
    const answer = flow(p, { tables: TEST_TABLES, startUp: false });
    const notice = answer.notices.find((n) => n.code === 'other-end-shares-better')!;
    expect(notice.path).toBe('/collector/sections/0/outletEnds');
    expect(notice.message).toMatch(
      /opposite ends: tubes get \d+ % to \d+ %.*At the same end it would be \d+ % to \d+ %/,
    );
    // the promise holds when it is taken up
    const bank = answer.result.collector.banks[0];
    p.collector.sections[0].outletEnds = ['first'];
    const mended = flow(p, { tables: TEST_TABLES, startUp: false });
    const after = mended.result.collector.banks[0];
    expect(after.mostOverMean - after.leastOverMean).toBeLessThan(bank.mostOverMean - bank.leastOverMean);
    expect(mended.notices.some((n) => n.code === 'other-end-shares-better')).toBe(false);
    // bands hold the default answer
    expect(bank.leastBand.low).toBeLessThanOrEqual(bank.leastOverMean);
    expect(bank.mostBand.high).toBeGreaterThanOrEqual(bank.mostOverMean);
  });
});
