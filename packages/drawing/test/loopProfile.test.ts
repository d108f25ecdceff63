import { describe, expect, it } from 'vitest';
import { letterOf, loopProfile, type ProfilePiece, places } from '../src/loopProfile';
import { LIGHT } from '../src/palette';
import { toSvg } from '../src/svg';

const piece = (id: string, kind: ProfilePiece['kind'], numbers: number[]): ProfilePiece => {
  const [start_m, end_m, startHeight_m, endHeight_m, startHead_m, endHead_m] = numbers;
  return {
    id,
    kind,
    start_m,
    end_m,
    startHeight_m,
    endHeight_m,
    startHead_m,
    endHead_m,
    startHeat: 0,
    endHeat: 0,
  };
};

const WAY = [
  piece('suction', 'suction', [0, 6, -0.2, 0.3, 0, -1]),
  piece('pump', 'pump', [6, 6, 0.3, 0.3, -1, 9]),
  piece('feed', 'pipe', [6, 30, 0.3, 3, 9, 6]),
  piece('collector', 'collector', [30, 36, 3, 3, 6, 4]),
  piece('outlet', 'outlet', [36, 56, 3, -0.4, 4, 0]),
];

const frame = {
  width: 600,
  height: 300,
  margin: { left: 50, right: 20, top: 30, bottom: 40 },
  leastPiece: 60,
  heightText: (v: number) => v.toFixed(1),
  heightUnit_m: 1,
  words: { head: 'head', pipe: 'pipe', pool: 'pool', vacuum: 'under vacuum' },
  letters: true,
};

describe('loopProfile', () => {
  it('gives every piece room to be touched and the rest by length', () => {
    const xs = places(WAY, 530, 60);
    const widths = xs.slice(1).map((x, i) => x - xs[i]);
    expect(Math.min(...widths)).toBeCloseTo(60, 9);
    expect(xs[xs.length - 1]).toBeCloseTo(530, 9);
    // 24 m of feed against 6 m of suction
    expect((widths[2] - 60) / (widths[0] - 60)).toBeCloseTo(4, 9);
  });

  it('never makes more room than there is', () => {
    const xs = places(WAY, 100, 60);
    expect(xs[xs.length - 1]).toBeCloseTo(100, 9);
  });

  it('hatches where the head lies under the pipe, and only there', () => {
    const sheet = loopProfile(WAY, frame);
    const hatched = sheet.items.filter((i) => i.kind === 'line' && i.layer === 'water' && i.width === 1);
    expect(hatched.length).toBeGreaterThan(0);
    const pump = sheet.pieces.find((p) => p.id === 'pump')!;
    for (const line of hatched)
      if (line.kind === 'line') expect(Math.max(line.from[0], line.to[0])).toBeLessThan(pump.x1);
    const dry = WAY.map((p) => ({ ...p, startHead_m: p.startHead_m + 9, endHead_m: p.endHead_m + 9 }));
    expect(
      loopProfile(dry, frame).items.some((i) => i.kind === 'line' && i.layer === 'water' && i.width === 1),
    ).toBe(false);
  });

  it('counts letters on past Z', () => {
    expect([0, 25, 26, 27].map(letterOf)).toEqual(['A', 'Z', 'AA', 'AB']);
  });

  it('looks as it did', () => {
    const { items } = loopProfile(WAY, frame);
    expect(
      toSvg(items, { width: 600, height: 300, palette: LIGHT, title: 'Loop', description: 'Five pieces' }),
    ).toMatchSnapshot();
  });
});
