import { describe, expect, it } from 'vitest';
import { carpetPlace, yearCarpet } from '../src/carpet';

const frame = {
  width: 400,
  height: 160,
  dark: false,
  months: ['J', 'F', 'M', 'A', 'M', 'J', 'J', 'A', 'S', 'O', 'N', 'D'],
  hourText: (h: number) => `${h}`,
};

describe('year carpet', () => {
  it('finds a place again', () => {
    const place = carpetPlace(frame);
    const [x, y] = place.at(0.3, 0.7);
    expect(place.back(x, y).day).toBeCloseTo(0.3, 12);
    expect(place.back(x, y).hour).toBeCloseTo(0.7, 12);
  });

  it('joins equal neighbours and darkens shade', () => {
    const share = [-1, 1, 1, 0, 0, -1];
    const { items } = yearCarpet({ columns: 1, rows: 6, share, now: null }, frame);
    const cells = items.filter((i) => i.kind === 'polyline' && i.fill === 'ink');
    expect(cells).toHaveLength(1);
    expect(cells[0].kind === 'polyline' && cells[0].fillOpacity).toBeCloseTo(0.72, 12);
    const lit = items.filter((i) => i.kind === 'polyline' && i.fill === 'sheet');
    expect(lit).toHaveLength(2);
  });
});
