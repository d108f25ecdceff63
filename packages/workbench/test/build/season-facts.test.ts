import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { build } from '../../src/build/build';
import { seasonForBuild } from '../../src/build/season-facts';
import { seasonRivals } from '../../src/season/rivals';

const plain = startProject({ ...usualAnswers('us', 36), tubes: 10, passes: 1 });
const project = {
  ...plain,
  season: {
    ...plain.season,
    heater: {
      kind: 'resistance' as const,
      capacity_W: 20_000,
      setpoint_C: 22,
      on: [{ months: new Array<boolean>(12).fill(true), from_h: 0, to_h: 0 }],
    },
  },
  prices: {
    currency: 'USD',
    asOf: '2026-04-12',
    parts: [],
    replacedHeat: { kind: 'resistance' as const, price_perkWh: 0.2 },
  },
};

describe('the year behind a build', () => {
  it('has with its band all doubts of the season’s study, and the fuel’s', () => {
    const banded = seasonForBuild(project, 1000, null, { band: true });
    const { heat_kWh } = banded.result.year;
    const { low, high } = banded.band.heat_kWh;
    const groups = [...new Set(seasonRivals(project).map((r) => banded.band[`heat_kWh.${r.group}`]))];
    expect(groups).toHaveLength(6);
    // root of the sum of the squares of what each doubt does by itself
    expect(heat_kWh - low).toBeCloseTo(Math.hypot(...groups.map((g) => heat_kWh - g.low)), 6);
    expect(high - heat_kWh).toBeCloseTo(Math.hypot(...groups.map((g) => g.high - heat_kWh)), 6);
    expect(high - low).toBeGreaterThan(0.05 * heat_kWh);
    const { with: burned, without } = banded.result.year.fuel_kWh;
    expect(banded.band.fuelSaved_kWh.low).toBeLessThan(without - burned);
    expect(banded.band.fuelSaved_kWh.high).toBeGreaterThan(without - burned);

    const money = build(project, {}, { season: banded }).result.money;
    expect(money.year!.heatBand_kWh).toEqual(banded.band.heat_kWh);
    expect(money.year!.saved!.high - money.year!.saved!.low).toBeCloseTo(
      0.2 * (banded.band.fuelSaved_kWh.high - banded.band.fuelSaved_kWh.low),
      6,
    );
    expect(money.inputs.join()).toMatch(/kWh, -?\d+ to \d+ \(what is not known of evaporation/);
  });

  it('is one run where somebody stops it', () => {
    const stopped = seasonForBuild(project, 1000, null, { band: true, stop: () => true });
    expect(stopped.band).toEqual({});
    expect(build(project, {}, { season: stopped }).result.money.inputs.join()).toContain(
      'one run without its band',
    );
  });
});
