import fc from 'fast-check';
import { describe, expect, test } from 'vitest';
import { prepareNetwork } from '../../src/hydraulics/network';
import type { NetworkDescription, NetworkSolution } from '../../src/hydraulics/network-types';
import { loopNetwork, randomLoop, seeded } from './random-loop';

const SETS = ['default', 'gardel', 'ideal', 'constant'] as const;

/** Largest mass imbalance at a free node over the largest flow. */
function imbalance(d: NetworkDescription, s: NetworkSolution): number {
  const sum = new Float64Array(d.nodes.length);
  let most = 0;
  d.links.forEach((link, i) => {
    sum[link.from]! -= s.flow_kgs[i]!;
    sum[link.to]! += s.flow_kgs[i]!;
    most = Math.max(most, Math.abs(s.flow_kgs[i]!));
  });
  const worst = d.nodes.reduce(
    (w, n, k) => (n.fixedHead_m === undefined ? Math.max(w, Math.abs(sum[k]!)) : w),
    0,
  );
  return worst / (most + 1e-5);
}

/** Largest energy gap over all open links, from the reported heads and losses alone [m]. */
function energyGap(d: NetworkDescription, s: NetworkSolution): number {
  let worst = 0;
  d.links.forEach((link, i) => {
    if (s.shut[i] || s.still[link.from]) return;
    const rise = d.nodes[link.to]!.elevation_m - d.nodes[link.from]!.elevation_m;
    const buoyancy = (1 - (link.density_kgm3 ?? d.referenceDensity_kgm3) / d.referenceDensity_kgm3) * rise;
    const lost = s.headLoss_m[i]! + s.fromTeeLoss_m[i]! + s.toTeeLoss_m[i]! - buoyancy;
    worst = Math.max(worst, Math.abs(s.head_m[link.from]! - s.head_m[link.to]! - lost));
  });
  return worst;
}

function allFinite(s: NetworkSolution): boolean {
  const lists = [
    s.flow_kgs,
    s.head_m,
    s.fromPressure_Pa,
    s.toPressure_Pa,
    s.velocity_ms,
    s.reynolds,
    s.headLoss_m,
  ];
  return [...lists, s.fromTeeLoss_m, s.toTeeLoss_m].every((list) => list.every(Number.isFinite));
}

describe('random legal loops', () => {
  // banks, feeds, leads that force water round the far way, blocked tubes, zero speed, closed and open valves
  test('converge, or say why; mass and energy close; nothing is NaN', () => {
    let converged = 0;
    let cases = 0;
    fc.assert(
      fc.property(fc.integer({ min: 1, max: 1e9 }), (seed) => {
        const d = loopNetwork(randomLoop(seeded(seed)));
        const net = prepareNetwork(d);
        for (const tees of SETS) {
          const s = net.solve({ tees });
          cases++;
          expect(allFinite(s)).toBe(true);
          expect(imbalance(d, s)).toBeLessThan(1e-10);
          if (!s.report.converged) {
            expect(s.report.message).not.toBe('');
            expect(s.report.worst).not.toBe('');
            continue;
          }
          converged++;
          expect(s.report.residual).toBeLessThanOrEqual(1);
          const most = [...s.head_m, ...s.headLoss_m].reduce((w, h) => Math.max(w, Math.abs(h)), 1e-3);
          // stated: 1e-9 of the largest head; twice, as the solver counts from each part's own held head
          expect(energyGap(d, s)).toBeLessThan(2e-9 * most);
          d.links.forEach((link, i) => {
            if (link.closed && s.flow_kgs[i] !== 0) throw new Error(`flow in closed ${link.id}`);
          });
        }
      }),
      { seed: 20, numRuns: 60 },
    );
    // pinned: all of 1500 loops in a longer run
    expect(converged).toBe(cases);
  });

  test('both bypass valves closed: no flow, the pump at its shut-off head', () => {
    const random = seeded(5);
    for (let i = 0; i < 5; i++) {
      const shape = { ...randomLoop(random, 3, 20), toCollector_m3h: 0, past_m3h: 0, speed: 1, outlet_m: 0 };
      const d = loopNetwork(shape);
      const s = prepareNetwork(d).solve();
      expect(s.report.converged).toBe(true);
      const pump = d.links.findIndex((l) => l.id === 'pump');
      expect(Math.abs(s.flow_kgs[pump]!)).toBeLessThan(1e-12);
      expect(s.head_m[d.links[pump]!.to]).toBeCloseTo(shape.shutOff_m, 8);
    }
  });

  test('pump stopped, no buoyancy: an ordinary case of no flow anywhere', () => {
    const random = seeded(6);
    for (let i = 0; i < 5; i++) {
      const d = loopNetwork({ ...randomLoop(random, 3, 20), speed: 0, outlet_m: 0 });
      const s = prepareNetwork(d).solve({ buoyancy: false });
      expect(s.report.converged).toBe(true);
      expect(s.flow_kgs.every((f) => Math.abs(f) < 1e-12)).toBe(true);
    }
  });

  test('flow in every tube reverses when the loop is driven from the other end', () => {
    const bank = {
      tubes: 12,
      tubeBore_m: 0.0158,
      headerBore_m: 0.0409,
      tubeLength_m: 6,
      pitch_m: 0.02,
      inlet: 1,
      outlet: 2,
      height_m: 0,
      blocked: [3],
      warm: 1,
      lead_m: [1, 1, 1, 1],
    } as const;
    const d = loopNetwork({
      banks: [bank, { ...bank, inlet: 3, outlet: 1 }],
      series: true,
      speed: 0,
      shutOff_m: 10,
      toCollector_m3h: 40,
      past_m3h: 0,
      checkValve: false,
      outlet_m: 6,
      density: 996,
      viscosity: 8e-4,
    });
    for (const tees of SETS) {
      const s = prepareNetwork(d).solve({ tees, twoStarts: true });
      expect(s.report.converged).toBe(true);
      expect(s.other).toBeUndefined();
      d.tubes.flat().forEach((i) => {
        if (d.links[i]!.closed) expect(s.flow_kgs[i]).toBe(0);
        else expect(s.flow_kgs[i]).toBeLessThan(0);
      });
    }
  });

  test('a start from another loop’s flows leads to the same answer', () => {
    const random = seeded(77);
    for (let i = 0; i < 8; i++) {
      const shape = { ...randomLoop(random, 3, 20), speed: 1, toCollector_m3h: 40, outlet_m: 0 };
      const net = prepareNetwork(loopNetwork(shape));
      const cold = net.solve();
      net.update(loopNetwork({ ...shape, speed: 0.4 }));
      const slow = net.solve({ start: cold });
      net.update(loopNetwork(shape));
      const again = net.solve({ start: slow });
      const most = cold.flow_kgs.reduce((w, f) => Math.max(w, Math.abs(f)), 0);
      again.flow_kgs.forEach((f, k) => {
        if (Math.abs(f - cold.flow_kgs[k]!) > 1e-8 * most) throw new Error(`${i}, link ${k}`);
      });
    }
  });
});
