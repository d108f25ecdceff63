import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { startProject, usualAnswers } from '../../src/start/start-project';

const RAD = Math.PI / 180;

/** Corners of a new panel seen from above, worked out from the file alone: axes of its plane and what its banks reach. */
function corners(project: ReturnType<typeof startProject>): [number, number][] {
  const { x_m, y_m, facing_deg, tilt_deg } = project.collector.placement;
  const [section] = project.collector.sections;
  const right = [-Math.cos(facing_deg * RAD), Math.sin(facing_deg * RAD)];
  const up = [-Math.sin(facing_deg * RAD), -Math.cos(facing_deg * RAD)].map(
    (c) => c * Math.cos(tilt_deg * RAD),
  );
  const reach = section.banks.map((bank) => {
    if (bank.kind !== 'tubes') throw new Error('a new panel is of tubes');
    return {
      length: bank.length_m,
      from: bank.across_m,
      to: bank.across_m + (bank.count - 1) * bank.pitch_m,
    };
  });
  const us = [section.u_m, section.u_m + Math.max(...reach.map((r) => r.length))];
  const vs = [
    section.v_m + Math.min(...reach.map((r) => r.from)),
    section.v_m + Math.max(...reach.map((r) => r.to)),
  ];
  return us.flatMap((u) =>
    vs.map((v): [number, number] => [x_m + u * right[0] + v * up[0], y_m + u * right[1] + v * up[1]]),
  );
}

/** Least distance between two convex outlines over the axes of both; negative where they overlap. */
function gap(a: [number, number][], b: [number, number][], axes: number[]): number {
  const spread = (points: [number, number][], angle: number) => {
    const along = points.map(([x, y]) => x * Math.cos(angle) + y * Math.sin(angle));
    return [Math.min(...along), Math.max(...along)];
  };
  return Math.max(
    ...axes.map((angle) => {
      const [a0, a1] = spread(a, angle);
      const [b0, b1] = spread(b, angle);
      return Math.max(a0 - b1, b0 - a1);
    }),
  );
}

const some = fc.record({
  latitude_deg: fc.integer({ min: -66, max: 66 }),
  facing_deg: fc.integer({ min: 0, max: 359 }),
  poolLength_m: fc.double({ min: 2, max: 25, noNaN: true }),
  poolWidth_m: fc.double({ min: 2, max: 12, noNaN: true }),
  tubes: fc.integer({ min: 1, max: 100 }),
  tubeLength_m: fc.double({ min: 1, max: 30, noNaN: true }),
  passes: fc.integer({ min: 1, max: 8 }),
  tilt_deg: fc.integer({ min: 0, max: 80 }),
});

describe('a new panel', () => {
  it('stands metres clear of the pool and centred on it, whichever way it faces', () => {
    fc.assert(
      fc.property(some, (answers) => {
        const project = startProject({ ...usualAnswers('metric'), ...answers });
        const x = answers.poolLength_m / 2;
        const y = answers.poolWidth_m / 2;
        const pool: [number, number][] = [
          [-x, -y],
          [x, -y],
          [x, y],
          [-x, y],
        ];
        const panel = corners(project);
        const facing = answers.facing_deg * RAD;
        // axes of pool and panel, yard x towards y
        const axes = [0, 90 * RAD, Math.PI / 2 - facing, -facing];
        expect(gap(pool, panel, axes)).toBeGreaterThan(3.9);
        // the panel's middle lies on the line through the pool's middle, behind it
        const middle = [0, 1].map((k) => panel.reduce((sum, p) => sum + p[k] / 4, 0));
        const aside = -middle[0] * Math.cos(facing) + middle[1] * Math.sin(facing);
        const ahead = middle[0] * Math.sin(facing) + middle[1] * Math.cos(facing);
        expect(Math.abs(aside)).toBeLessThan(0.001); // places are written to 0.1 mm
        expect(ahead).toBeLessThan(0);
      }),
      { numRuns: 300, seed: 3 },
    );
  });

  it('in the south, usual answers with 30 tubes, no longer lies in the water', () => {
    const project = startProject({ ...usualAnswers('us', -33), tubes: 30 });
    expect(project.collector.placement.facing_deg).toBe(0);
    for (const [, y] of corners(project)) expect(y).toBeLessThan(-6);
  });
});
