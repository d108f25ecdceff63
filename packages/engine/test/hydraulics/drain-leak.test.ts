import { describe, expect, it } from 'vitest';
import { leakLoss } from '../../src/hydraulics/drain-leak';
import { DomainError } from '../../src/numeric/errors';

const pool = { surface_m2: 32, automaticMakeUp: false };
const skimmer = { id: 'skimmer', depth_m: 0.12, open: true };
const drain = { id: 'main drain', depth_m: 1.6, open: true };

describe('a leak while nobody is there', () => {
  it('takes surface × depth to the skimmer mouth when only the skimmer is open', () => {
    const loss = leakLoss(pool, [skimmer, { ...drain, open: false }], 0.0002);
    expect(loss).toMatchObject({ downTo: 'skimmer', levelFall_m: 0.12, pumpRunsDry: true, endless: false });
    expect(loss.volume_m3).toBeCloseTo(3.84, 12);
    expect(loss.hours).toBeCloseTo(3.84 / 0.0002 / 3600, 9);
  });

  it('takes the pool down to the main drain when that is open', () => {
    expect(leakLoss(pool, [skimmer, drain]).volume_m3).toBeCloseTo(51.2, 12);
    const sloped = { ...pool, volumeAbove_m3: (depth: number) => 32 * depth - 4 * depth ** 2 };
    expect(leakLoss(sloped, [skimmer, drain]).volume_m3).toBeCloseTo(51.2 - 10.24, 12);
    expect(leakLoss(pool, [skimmer, drain]).hours).toBeNull();
  });

  it('has no end when water is made up by itself', () => {
    expect(leakLoss({ ...pool, automaticMakeUp: true }, [skimmer])).toMatchObject({
      endless: true,
      pumpRunsDry: false,
    });
  });

  it('pumps nothing out when every suction is shut, but the pump runs dry', () => {
    expect(leakLoss(pool, [{ ...skimmer, open: false }])).toEqual({
      downTo: null,
      levelFall_m: 0,
      volume_m3: 0,
      hours: null,
      pumpRunsDry: true,
      endless: false,
    });
  });

  it('refuses NaN', () => {
    for (const call of [
      () => leakLoss({ ...pool, surface_m2: Number.NaN }, [skimmer]),
      () => leakLoss(pool, [{ ...skimmer, depth_m: -1 }]),
      () => leakLoss(pool, [skimmer], 0),
      () => leakLoss({ ...pool, volumeAbove_m3: () => Number.NaN }, [skimmer]),
    ])
      expect(call).toThrow(DomainError);
  });
});
