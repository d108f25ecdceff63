import { describe, expect, test } from 'vitest';
import { findSocket, findTee, leastPitch_m, reducingTees, socketRows } from '../src/fittings';
import { inchesOf, inchSizeOf } from '../src/nominalSizes';
import { findPipe, pipes } from '../src/pipes';
import equal from './truth/fittings.json';
import reducing from './truth/reducing-tees.json';

const IN = 0.0254;
const outside = (nominal: string): number => findPipe(`pvc-sch40-${nominal}`)?.od_m ?? Number.NaN;

describe('equal fittings', () => {
  test('sockets, take-offs, coupling lengths and least pitches as tabulated in inches (verified; 0.002 in, thirds are rounded)', () => {
    for (const [size, depth, takeOff, face, coupling, pitch] of equal.rows as Array<
      [string, number, number, number, number, number]
    >) {
      const row = findSocket('ips-sch40', size);
      const tee = findTee('ips-sch40', size, size);
      expect(row && tee, size).toBeDefined();
      if (!row || !tee) continue;
      expect(Math.abs(row.socket_m / IN - depth)).toBeLessThan(0.0005);
      expect(Math.abs(row.takeOff90_m / IN - takeOff)).toBeLessThan(0.0005);
      expect(Math.abs((row.takeOff90_m + row.socket_m) / IN - face)).toBeLessThan(0.002);
      expect(Math.abs((2 * row.socket_m + row.couplingGap_m) / IN - coupling)).toBeLessThan(0.002);
      expect(Math.abs(leastPitch_m(tee) / IN - pitch)).toBeLessThan(0.002);
    }
  });

  test('an inch socket is wider than the pipe at its mouth and tighter at its bottom', () => {
    for (const row of socketRows) {
      if (row.entrance_m === undefined || row.bottom_m === undefined) continue;
      expect(row.entrance_m).toBeGreaterThan(outside(row.nominal));
      expect(row.bottom_m).toBeLessThan(outside(row.nominal));
    }
  });

  test('metric sockets are d/2 + 6 mm deep (verified: EN ISO 1452-3)', () => {
    for (const row of socketRows)
      if (row.system === 'metric') expect(row.socket_m).toBeCloseTo(Number(row.nominal) / 2000 + 0.006, 9);
  });

  test('the rule of the reducing tees meets the equal tees within 0.035 in', () => {
    for (const row of socketRows)
      if (row.system === 'ips-sch40')
        expect(Math.abs(outside(row.nominal) / 2 + IN / 16 - row.takeOff90_m)).toBeLessThan(0.035 * IN);
  });
});

describe('reducing tees', () => {
  test('follow OD/2 + 1/16 in, and the tabulated figures to their rounding', () => {
    for (const [run, branch, gRun, hRun, gBranch, hBranch, pitch] of reducing.rows as Array<
      [string, string, number, number, number, number, number]
    >) {
      const tee = findTee('ips-sch40', run, branch);
      expect(tee, `${run} × ${branch}`).toBeDefined();
      if (!tee) continue;
      expect(tee.takeOffRun_m).toBeCloseTo(outside(branch) / 2 + IN / 16, 7);
      expect(tee.takeOffBranch_m).toBeCloseTo(outside(run) / 2 + IN / 16, 7);
      const inches = [tee.takeOffRun_m, tee.takeOffRun_m + tee.socketRun_m, tee.takeOffBranch_m];
      [gRun, hRun, gBranch].forEach((figure, i) => {
        expect(Math.abs(inches[i] / IN - figure)).toBeLessThan(0.0015);
      });
      expect(Math.abs((tee.takeOffBranch_m + tee.socketBranch_m) / IN - hBranch)).toBeLessThan(0.0015);
      expect(Math.abs(leastPitch_m(tee) / IN - pitch)).toBeLessThan(0.0025);
    }
  });

  test.each([
    ['1', '1/2', 2.715],
    ['3/4', '1/2', 2.403],
    ['1-1/2', '1/2', 3.153],
    ['1-1/2', '3/4', 3.363],
    ['2', '3/4', 3.487],
  ])('least pitch of %s × %s is %f in (derived)', (run, branch, pitch) => {
    const tee = findTee('ips-sch40', run, branch);
    expect(tee && leastPitch_m(tee) / IN).toBeCloseTo(pitch, 3);
  });

  test('three nested banks of 1 × 1/2 at least pitch leave room for half-inch tubes, four do not', () => {
    const tee = findTee('ips-sch40', '1', '1/2');
    const pitch = tee ? leastPitch_m(tee) : Number.NaN;
    expect(pitch / 3).toBeGreaterThan(outside('1/2'));
    expect(pitch / 4).toBeLessThan(outside('1/2'));
  });

  test('the branch is smaller than the run', () => {
    for (const tee of reducingTees) {
      const [run, branch] = [inchSizeOf(tee.run), inchSizeOf(tee.branch)];
      expect(inchesOf(branch ?? '')).toBeLessThan(inchesOf(run ?? ''));
    }
  });
});

describe('sizes', () => {
  test('every pipe size on the shelf has an inch size to look valves up by', () => {
    for (const pipe of pipes) expect(inchSizeOf(pipe.nominal), pipe.id).toBeDefined();
    expect(inchSizeOf('banana')).toBeUndefined();
    expect(inchesOf('1-1/2')).toBe(1.5);
  });
});
