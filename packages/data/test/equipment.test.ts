import { shelfPump } from '@sunlap/engine/hydraulics/pump-shelf';
import { describe, expect, test } from 'vitest';
import { beaufortScale } from '../src/beaufort';
import { exposureSettings, findExposure } from '../src/exposure';
import { filters } from '../src/filters';
import { inchesOf } from '../src/nominalSizes';
import { pumps } from '../src/pumps';
import { findSky, skies } from '../src/skies';
import { findValve, findValveCharacteristic, valveCharacteristics, valves } from '../src/valves';

describe('pumps', () => {
  test('follow the shelf rule of the engine (common practice; 1 %, heads are rounded to 0.1 m)', () => {
    for (const pump of pumps) {
      const rule = shelfPump(pump.rated_W);
      expect(Math.abs(pump.shutOffHead_m / rule.shutOffHead_m - 1)).toBeLessThan(0.01);
      expect(Math.abs(pump.mostFlow_m3s / rule.mostFlow_m3s - 1)).toBeLessThan(0.01);
    }
  });

  test('1 hp lies where trade figures put it (common practice)', () => {
    for (const pump of pumps.filter((row) => Math.abs(row.rated_W - 745.7) < 1)) {
      expect(pump.shutOffHead_m).toBeGreaterThanOrEqual(18);
      expect(pump.shutOffHead_m).toBeLessThanOrEqual(22);
      expect(pump.mostFlow_m3s).toBeGreaterThanOrEqual(5.5e-3);
      expect(pump.mostFlow_m3s).toBeLessThanOrEqual(6.5e-3);
      expect(pump.wireToWater).toBeGreaterThanOrEqual(0.3);
      expect(pump.wireToWater).toBeLessThanOrEqual(0.45);
    }
  });

  test('the curve meets zero head at its largest flow; speeds rise to full speed', () => {
    for (const pump of pumps) {
      expect(pump.coefficient_s2m5 * pump.mostFlow_m3s ** 2).toBeCloseTo(pump.shutOffHead_m, 9);
      expect(pump.speeds.at(-1)).toBe(1);
      expect([...pump.speeds].sort((a, b) => a - b)).toEqual(pump.speeds);
    }
  });
});

test('filters of one kind take more flow as they grow', () => {
  for (let i = 1; i < filters.length; i++)
    if (filters[i].kind === filters[i - 1].kind)
      expect(filters[i].flow_m3s).toBeGreaterThan(filters[i - 1].flow_m3s);
});

describe('valves', () => {
  test('larger valves pass more; a gate and a ball pass more than a globe, a globe more than a needle', () => {
    for (const row of valves) {
      const smaller = valves.filter(
        (v) => v.type === row.type && inchesOf(v.nominal) < inchesOf(row.nominal),
      );
      for (const valve of smaller) expect(valve.kv_m3h).toBeLessThan(row.kv_m3h);
    }
    const kv = (type: 'ball' | 'gate' | 'globe' | 'needle') => findValve(type, '1-1/2')?.kv_m3h ?? Number.NaN;
    expect(kv('gate')).toBeGreaterThan(kv('ball'));
    expect(kv('ball')).toBeGreaterThan(kv('globe'));
    expect(kv('globe')).toBeGreaterThan(kv('needle'));
    expect(findValve('ball', '50')).toBe(findValve('ball', '1-1/2'));
  });

  test('characteristics rise from shut to fully open', () => {
    for (const { opening, kvShare } of valveCharacteristics) {
      expect(opening.length).toBe(kvShare.length);
      expect([opening[0], kvShare[0], opening.at(-1), kvShare.at(-1)]).toEqual([0, 0, 1, 1]);
      for (let i = 1; i < opening.length; i++) {
        expect(opening[i]).toBeGreaterThan(opening[i - 1]);
        expect(kvShare[i]).toBeGreaterThan(kvShare[i - 1]);
      }
    }
    expect(findValveCharacteristic('check')).toBeUndefined();
    for (const row of valves)
      if (row.type !== 'check') expect(findValveCharacteristic(row.type), row.type).toBeDefined();
  });
});

describe('wind and sky in words', () => {
  test('each step of shelter calms the wind; open follows the log law over 0.03 m within 0.05', () => {
    for (const where of ['collector', 'pool'] as const) {
      const rows = exposureSettings.filter((row) => row.where === where);
      expect(rows.map((row) => row.id)).toEqual(['open', 'someShelter', 'sheltered', 'veryShelteredCourt']);
      for (let i = 1; i < rows.length; i++) expect(rows[i].ratio).toBeLessThan(rows[i - 1].ratio);
      const height = where === 'pool' ? 2 : 0.5;
      const law = Math.log(height / 0.03) / Math.log(10 / 0.03);
      expect(Math.abs((findExposure(where, 'open')?.ratio ?? 0) - law)).toBeLessThan(0.05);
    }
  });

  test('Beaufort steps join and follow 0.836·F^1.5 m/s (verified form; 3 % + 0.15 m/s, limits are rounded)', () => {
    beaufortScale.forEach((row, i) => {
      if (i > 0) expect(row.low_ms).toBe(beaufortScale[i - 1].high_ms);
      const limit = 0.836 * (row.force + 0.5) ** 1.5;
      expect(Math.abs(row.high_ms - limit)).toBeLessThan(0.03 * limit + 0.15);
    });
  });

  test('a worse sky gives less light and more cloud', () => {
    for (const sky of skies) {
      expect(sky.cloud).toBeGreaterThanOrEqual(sky.cloudLow);
      expect(sky.cloud).toBeLessThanOrEqual(sky.cloudHigh);
    }
    for (let i = 1; i < skies.length; i++) {
      expect(skies[i].shareOfClear).toBeLessThan(skies[i - 1].shareOfClear);
      expect(skies[i].cloud).toBeGreaterThan(skies[i - 1].cloud);
    }
    expect(findSky('clear')?.shareOfClear).toBe(1);
  });
});
