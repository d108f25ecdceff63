import { describe, expect, it } from 'vitest';
import { sunHeight } from '../src/show';

describe('where the sun stands', () => {
  it('is up or below the horizon, never negative', () => {
    expect(sunHeight(12.34)).toBe('12.3° up');
    expect(sunHeight(-46.9)).toBe('46.9° below the horizon');
    expect(sunHeight(-0.01)).toBe('0.0° up');
  });
});
