import { describe, expect, it } from 'vitest';
import { scaldWords } from '../../src/heat/heat-notices';

describe('the first water after standing', () => {
  it('burns in the time published for its own temperature, or for the next above', () => {
    // verified: Moritz & Henriques 1947, second-degree burns of adults
    expect(scaldWords(49)).toContain('in about 8 minutes;');
    expect(scaldWords(50)).toContain('in about 2 minutes;');
    expect(scaldWords(52)).toContain('in about 17 seconds;');
    expect(scaldWords(60)).toContain('in about 3 seconds;');
    expect(scaldWords(80)).toContain('in about 3 seconds;');
    expect(scaldWords(42)).toBe('');
  });
});
