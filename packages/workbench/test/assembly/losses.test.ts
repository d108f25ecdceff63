import { describe, expect, it } from 'vitest';
import { standingKv_m3h } from '../../src/assembly/losses';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { valve } from '../fixtures';

const BORE_M = 0.0409;

/** Share of the same valve wide open. */
const share = (opening: number, over: Parameters<typeof valve>[2] = {}): number =>
  standingKv_m3h(valve('v', opening, over), BORE_M, STANDARD_TABLES) /
  standingKv_m3h(valve('v', 1, over), BORE_M, STANDARD_TABLES);

describe('a valve that is neither open nor shut', () => {
  it('passes what its type passes: half open, a ball valve a quarter and a gate valve two thirds', () => {
    // common practice, from memory: the table of valve characteristics
    expect(share(0.5, { type: 'ball' })).toBeCloseTo(0.24, 12);
    expect(share(0.5, { type: 'gate' })).toBeCloseTo(0.65, 12);
    expect(share(0.5, { type: 'needle' })).toBeCloseTo(0.5, 12);
    // the share holds for a Kv that the person gave too
    expect(share(0.5, { type: 'ball', kv_m3h: 20 })).toBeCloseTo(0.24, 12);
  });

  it('follows the person’s points where there are any', () => {
    const characteristic = [{ opening: 0.5, kvShare: 0.4 }];
    expect(share(0.5, { type: 'ball', characteristic })).toBeCloseTo(0.4, 12);
    expect(share(0.25, { type: 'ball', characteristic })).toBeCloseTo(0.2, 12);
  });

  it('is shut when shut, whatever its type, and opens without a step back', () => {
    for (const type of ['ball', 'gate', 'globe', 'butterfly', 'diverter', 'needle'] as const) {
      expect(share(0, { type })).toBe(0);
      const shares = Array.from({ length: 101 }, (_, i) => share(i / 100, { type }));
      for (let i = 1; i <= 100; i++) expect(shares[i], `${type} ${i}`).toBeGreaterThan(shares[i - 1]);
    }
  });
});
