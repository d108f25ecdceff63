import { describe, expect, it } from 'vitest';
import { clockWords, momentWords } from '../../src/ahead/words';

describe('moments as they are said', () => {
  it('are a weekday and an hour of the clock', () => {
    // verified: 16 April 2026 is a Thursday
    expect(momentWords('2026-04-16T15:00', 'us')).toBe('Thursday at 3 pm');
    expect(momentWords('2026-04-16T15:00', 'metric')).toBe('Thursday at 15:00');
  });

  it('know noon, midnight and quarters', () => {
    expect(clockWords('12:00', 'us')).toBe('12 pm');
    expect(clockWords('00:15', 'us')).toBe('12:15 am');
    expect(clockWords('24:00', 'us')).toBe('12 am');
    expect(clockWords('09:30', 'metric')).toBe('9:30');
  });
});
