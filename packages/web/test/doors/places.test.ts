import { describe, expect, it } from 'vitest';
import { readDegrees, searchTowns } from '../../src/doors/places';

describe('a place', () => {
  it('is read as people write degrees', () => {
    expect(readDegrees('35.1', 66)).toBe(35.1);
    expect(readDegrees('-106,6', 180)).toBe(-106.6);
    expect(readDegrees('34 S', 66)).toBe(-34);
    expect(readDegrees("106° 36' W", 180)).toBeCloseTo(-106.6, 9);
    expect(readDegrees('35 06 30 N', 66)).toBeCloseTo(35.108333, 5);
    for (const bad of ['', 'north', '91 91', '70', '12 x', '1e3']) expect(readDegrees(bad, 66)).toBeNull();
  });

  it('is found by the beginning of its name', async () => {
    expect(await searchTowns('P')).toBeNull();
    const [first] = (await searchTowns('phoe'))!;
    expect(first).toMatchObject({ name: 'Phoenix', timeZone: 'America/Phoenix' });
    expect(await searchTowns('qqqq')).toEqual([]);
  });
});
