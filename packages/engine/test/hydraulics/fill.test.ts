import { describe, expect, it } from 'vitest';
import { firstFill, pieceVolume } from '../../src/hydraulics/fill';
import { DomainError } from '../../src/numeric/errors';

describe('first fill', () => {
  const pieces = [
    { length_m: 3, bore_m: 0.0158, count: 20 },
    { length_m: 2, bore_m: 0.0409 },
  ];

  it('counts volume, minutes and the fall of the pool', () => {
    // verified by hand: 20 × 3 × 1.96067e-4 + 2 × 1.31382e-3 = 14.392 L
    const fill = firstFill(pieces, 0.0005, 32, [], 1);
    expect(fill.volume_m3).toBeCloseTo(0.014392, 6);
    expect(fill.minutes).toBeCloseTo(0.014392 / 0.0005 / 60, 4);
    expect(fill.poolFall_m * 32).toBeCloseTo(fill.volume_m3, 12);
    expect(fill.aboveVents_m).toBe(Infinity);
    expect(firstFill(pieces, 0, 32, [], 1).minutes).toBeNull();
  });

  it('names the highest vent, and how much stands above it', () => {
    const fill = firstFill(
      pieces,
      0.0005,
      32,
      [
        { id: 'low', elevation_m: 0.4 },
        { id: 'high', elevation_m: 1.1 },
      ],
      1.3,
    );
    expect(fill.ventsHighestFirst.map((v) => v.id)).toEqual(['high', 'low']);
    expect(fill.aboveVents_m).toBeCloseTo(0.2, 12);
  });

  it('refuses NaN', () => {
    for (const call of [
      () => pieceVolume({ length_m: Number.NaN, bore_m: 1 }),
      () => pieceVolume({ length_m: 1, bore_m: 0 }),
      () => pieceVolume({ length_m: 1, bore_m: 1, count: Number.NaN }),
      () => firstFill(pieces, Number.NaN, 32, [], 1),
      () => firstFill(pieces, 1, 0, [], 1),
      () => firstFill(pieces, 1, 1, [], Number.NaN),
    ])
      expect(call).toThrow(DomainError);
  });
});
