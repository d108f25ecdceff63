import * as fc from 'fast-check';
import { describe, expect, it } from 'vitest';
import { waterDensity, waterHeatCapacity } from '../../src/fluids/water';
import { combine } from '../../src/measurement/coverage';
import { flowFrom } from '../../src/measurement/flow';
import { pailFlow } from '../../src/measurement/flow-pail';
import { heat } from '../../src/measurement/heat';
import { rise } from '../../src/measurement/rise';
import type { RiseTest } from '../../src/measurement/rise-types';
import worked from '../truth/test-day-worked.json';

const BTU_PER_HOUR = 1055.05585262 / 3600;
const GALLON = 3.785411784e-3;
const row = (i: number) => worked.rows[i]!;

const thermometers = (limit: number, correlation = 0): RiseTest => ({
  inlet: {
    readings_C: [26],
    thermometer: { limit_K: limit, resolution_K: 0 },
    place: 'stream',
    placeLimit_K: 0,
  },
  outlet: {
    readings_C: [29],
    thermometer: { limit_K: limit, resolution_K: 0 },
    place: 'stream',
    placeLimit_K: 0,
  },
  classCorrelation: correlation,
});

describe('heat of a test day', () => {
  it('verified: 20 L/min from 26 to 29 °C', () => {
    const flow = flowFrom('meter', 20 / 60_000, []);
    const found = heat(flow, rise(thermometers(0.5)).rise!, 27.5);
    expect(Math.abs(found.heat_W - row(0).value)).toBeLessThan(row(0).tolerance);
    expect(Math.abs(found.heat_W / BTU_PER_HOUR - row(1).value)).toBeLessThan(row(1).tolerance);
  });

  it('verified: the rule 500 × gpm × °F is 498.3 at 80 °F', () => {
    const t = (80 - 32) / 1.8;
    const factor = ((GALLON / 60) * waterDensity(t) * waterHeatCapacity(t)) / 1.8 / BTU_PER_HOUR;
    expect(Math.abs(factor - row(10).value)).toBeLessThan(row(10).tolerance);
  });

  it('verified: three times and their pail', () => {
    const found = pailFlow({
      volume_m3: 0.02,
      volumeLimit_m3: 0,
      times_s: [61.2, 60.4, 61.9],
      reactionLimit_s: 0,
      resolution_s: 0,
    });
    const flow = found.flow!;
    expect(Math.abs(flow.flow_m3s * 60_000 - row(4).value)).toBeLessThan(row(4).tolerance);
    const time = 61.1666667;
    expect((flow.standardUncertainty_m3s / flow.flow_m3s) * time * Math.sqrt(3)).toBeCloseTo(row(2).value, 4);
    expect((flow.expandedUncertainty_m3s / flow.flow_m3s) * time).toBeCloseTo(row(3).value, 3);
    expect(flow.dof).toBeCloseTo(2, 12);
  });

  const dayOf = (r: number) => {
    const flow = pailFlow({
      volume_m3: 5 * GALLON,
      volumeLimit_m3: 0.03 * 5 * GALLON,
      times_s: [14, 15, 15],
      reactionLimit_s: 0.3,
    }).flow!;
    const test = thermometers(1 / 1.8, r);
    const found = rise({
      ...test,
      inlet: { ...test.inlet, readings_C: [26] },
      outlet: { ...test.outlet, readings_C: [26 + 4 / 1.8] },
    });
    return { flow, heat: heat(flow, found.rise!) };
  };

  it('verified by hand: five gallons, 4 °F, thermometers of ±1 °F', () => {
    const { flow, heat: found } = dayOf(0);
    expect(Math.abs((flow.flow_m3s / GALLON) * 60 - row(5).value)).toBeLessThan(row(5).tolerance);
    expect(Math.abs(found.heat_W / BTU_PER_HOUR - row(6).value)).toBeLessThan(row(6).tolerance);
    const thermometer = found.contributions.filter((c) => c.source.startsWith('thermometer'));
    expect(Math.abs(thermometer.reduce((sum, c) => sum + c.share, 0) - row(7).value)).toBeLessThan(
      row(7).tolerance,
    );
    const gum = combine(found.components);
    expect(
      Math.abs((gum.gumCoverageFactor * gum.standardUncertainty) / found.heat_W - row(8).value),
    ).toBeLessThan(row(8).tolerance);
    // the true shape of two limits is narrower: 1.90 in place of 1.96
    expect(found.expandedUncertainty_W / found.heat_W).toBeGreaterThan(0.385);
    expect(found.expandedUncertainty_W / found.heat_W).toBeLessThan(0.41);
  });

  it('verified by hand: the same correlated at .9', () => {
    const { heat: found } = dayOf(0.9);
    expect(Math.abs(found.expandedUncertainty_W / found.heat_W - row(9).value)).toBeLessThan(
      row(9).tolerance,
    );
  });

  it('heat is proportional to flow, its relative doubt is not', () => {
    const r = rise(thermometers(0.5)).rise!;
    fc.assert(
      fc.property(fc.double({ min: 1e-5, max: 1e-2, noNaN: true }), (v) => {
        const one = heat(flowFrom('meter', v, []), r);
        const two = heat(flowFrom('meter', 2 * v, []), r);
        expect(two.heat_W / one.heat_W).toBeCloseTo(2, 10);
        expect(two.expandedUncertainty_W / two.heat_W).toBeCloseTo(one.expandedUncertainty_W / one.heat_W, 8);
      }),
      { numRuns: 20 },
    );
  });
});
