import { describe, expect, it } from 'vitest';
import { pitchFor } from '../../src/doors/pitch';
import { headerFor } from '../../src/shape/pipes';

describe('headerFor', () => {
  it('takes the pool pipe itself up to 1-1/2 in and 50 mm', () => {
    for (const id of ['pvc-sch40-1-1/4', 'pvc-sch40-1-1/2', 'pvcu-pn10-50']) expect(headerFor(id)).toBe(id);
  });

  it('stays at the largest that closely laid tees allow', () => {
    expect(headerFor('pvc-sch40-2')).toBe('pvc-sch40-1-1/2');
    expect(headerFor('pvc-sch40-2-1/2')).toBe('pvc-sch40-1-1/2');
    expect(headerFor('pvcu-pn10-63')).toBe('pvcu-pn10-50');
  });
});

describe('pitchFor', () => {
  it('keeps the usual pitch where the tees fit', () => {
    expect(pitchFor('pvc-sch40-1-1/2', 'pvc-sch40-1/2', 'us')).toBeCloseTo(0.0826, 3);
  });

  it('widens to the tees, up to the next mark', () => {
    // 1-1/2 × 3/4 tees meet at 3.36 in
    expect(pitchFor('pvc-sch40-1-1/2', 'pvc-sch40-3/4', 'us')).toBeCloseTo(3.375 * 0.0254, 6);
    expect((pitchFor('pvcu-pn10-50', 'pvcu-pn16-25', 'metric') * 1000) % 5).toBeCloseTo(0, 6);
  });

  it('knows no better for pipe without tees of that size', () => {
    expect(pitchFor('no-such-pipe', 'pvc-sch40-1/2', 'us')).toBe(
      pitchFor('pvc-sch40-1-1/2', 'pvc-sch40-1/2', 'us'),
    );
  });
});
