import fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { solveFlow, solverReport } from '../../src/flow/flow-basic';
import { flowValues } from '../../src/flow/values';
import { heatReport } from '../../src/heat/heat-basic';
import { heatValues } from '../../src/heat/heat-values';
import { heatWeather, resolveMoment } from '../../src/heat/moment';
import { solveHeat } from '../../src/heat/solve-heat';
import { TEST_TABLES } from '../fixtures';
import { anyProject } from '../random-project';

const tables = TEST_TABLES;
const MOMENT = {
  at: '2026-05-10T12:00',
  water_C: 26,
  air_C: 22,
  dewPoint_C: 11,
  wind_ms: 2,
  sky: 'clear' as const,
};

/** Every number anywhere in an answer. */
function* numbers(value: unknown, path = ''): Generator<[string, number]> {
  if (typeof value === 'number') yield [path, value];
  else if (value !== null && typeof value === 'object') {
    for (const [key, inner] of Object.entries(value)) yield* numbers(inner, `${path}/${key}`);
  }
}

describe('any legal project', () => {
  it('solves or says why, mass closes, never NaN', () => {
    let stuck = 0;
    fc.assert(
      fc.property(anyProject, (p) => {
        const solved = solveFlow(p, { tables });
        const { description } = solved.assembled;
        const { network } = solved.solution;
        const answer = {
          result: flowValues(p, solved.assembled, solved.solution, solved.water_C, solved.speed),
          solver: solverReport(solved.solution),
        };
        const bad = [...numbers(answer)].filter(([, n]) => !Number.isFinite(n));
        expect(bad).toEqual([]);
        if (!answer.solver.converged) {
          stuck++;
          expect(answer.solver.worst).toMatch(/\w{4}/);
          return;
        }
        const net = new Float64Array(description.nodes.length);
        let total = 1e-12;
        description.links.forEach((link, i) => {
          net[link.from] -= network.flow_kgs[i];
          net[link.to] += network.flow_kgs[i];
          total = Math.max(total, Math.abs(network.flow_kgs[i]));
        });
        description.nodes.forEach((node, i) => {
          if (node.fixedHead_m === undefined)
            expect(Math.abs(net[i])).toBeLessThanOrEqual(1e-9 * total + 1e-12);
        });
        // what the banks of a section say agrees with what enters it
        for (const section of answer.result.collector.sections) {
          const bank = answer.result.collector.banks.find((b) => b.section === section.id)!;
          expect(bank.flow_m3s).toBeCloseTo(section.flow_m3s, 9);
        }
      }),
      { numRuns: 50, seed: 20261 },
    );
    // part-full states may find no consistent set; anything above a few in a hundred is a fault
    expect(stuck).toBeLessThanOrEqual(3);
  });

  it('carries heat so that energy closes, whatever the flow', () => {
    fc.assert(
      fc.property(anyProject, (p) => {
        const now = resolveMoment(p, MOMENT);
        const solved = solveHeat(p, heatWeather(p, now), now.moment.water_C, { tables });
        if (solved.panel.massFlow_kgs > 1e-6) expect(solved.panel.closure).toBeLessThan(1e-9);
        else expect(Math.abs(solved.panel.heat_W)).toBeLessThan(1e-3);
        const sum = solved.panel.elementHeat_W.reduce((a, b) => a + b, 0);
        expect(sum).toBeCloseTo(solved.panel.heat_W, 6);
        const values = heatValues(p, now, heatWeather(p, now), solved);
        expect([...numbers(values)].filter(([, n]) => !Number.isFinite(n))).toEqual([]);
        const report = heatReport(solved);
        if (!report.converged) expect(report.worst).toMatch(/\w{4}/);
      }),
      { numRuns: 15, seed: 20262 },
    );
  });
});
