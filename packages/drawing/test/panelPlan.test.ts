import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { compass, edges, nestedWith, panelPlan, supplySide, toPlane } from '../src/panelPlan';
import { bank, panel, section } from './fixtures';

describe('panelPlan', () => {
  it('lets water run to and fro from pass to pass', () => {
    const { tubes } = panelPlan(panel());
    const first = tubes.find((t) => t.bank === 'A1')!;
    const second = tubes.find((t) => t.bank === 'A2')!;
    expect(first.from[0]).toBeLessThan(first.to[0]);
    expect(second.from[0]).toBeGreaterThan(second.to[0]);
    expect(supplySide(section('A'), 1)).toBe('far');
  });

  it('ends headers half a pitch beyond the outer tubes', () => {
    const { headers } = panelPlan(panel());
    const h = headers.find((x) => x.bank === 'A1' && x.header === 'supply')!;
    expect(h.first[1]).toBeCloseTo(-0.05, 12);
    expect(h.last[1]).toBeCloseTo(0.35, 12);
  });

  it('joins the ends that the hand-over names', () => {
    const { handovers } = panelPlan(panel());
    expect(handovers).toHaveLength(1);
    expect(handovers[0].from).toEqual([3, 0.35000000000000003]);
    expect(handovers[0].to[1]).toBeCloseTo(0.45, 12);
  });

  it('finds banks that lie within one another, in the order of their first tubes', () => {
    const nested = section('A', {
      banks: [bank('A1', { across_m: 0.05 }), bank('A2', { across_m: 0 }), bank('A3', { across_m: 2 })],
      handovers: [],
    });
    expect(nestedWith(nested, nested.banks[0]).map((b) => b.id)).toEqual(['A2', 'A1']);
    expect(nestedWith(nested, nested.banks[2]).map((b) => b.id)).toEqual(['A3']);
  });

  it('counts contour tubes upwards and slope tubes to the right', () => {
    const [, up] = toPlane(section('A'), 0, 1);
    expect(up).toBe(1);
    expect(toPlane(section('A', { angle_deg: 90 }), 2, 1)).toEqual([1, 2]);
  });

  it('keeps lengths and pitches, however the section is turned', () => {
    fc.assert(
      fc.property(fc.integer({ min: -179, max: 180 }), (angle_deg) => {
        const { tubes } = panelPlan(panel([section('A', { angle_deg })]));
        const [a, b] = tubes;
        expect(Math.hypot(a.to[0] - a.from[0], a.to[1] - a.from[1])).toBeCloseTo(3, 9);
        expect(Math.hypot(b.from[0] - a.from[0], b.from[1] - a.from[1])).toBeCloseTo(0.1, 9);
      }),
      { seed: 7 },
    );
  });

  it('names the edges as one sees them who stands below and looks up', () => {
    expect(edges(180)).toEqual({ top: 'N', bottom: 'S', left: 'W', right: 'E' });
    expect(edges(0)).toEqual({ top: 'S', bottom: 'N', left: 'E', right: 'W' });
    expect(compass(-10)).toBe('N');
    expect(compass(184)).toBe('S');
  });
});
