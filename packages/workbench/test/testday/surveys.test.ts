import { createRandom } from '@sunlap/engine/numeric/random';
import { drawNormal } from '@sunlap/engine/numeric/random-draws';
import type { TestDay } from '@sunlap/project/schema/life';
import { describe, expect, it } from 'vitest';
import { sayIn } from '../../src/flow/say';
import { heatWeather, resolveMoment } from '../../src/heat/moment';
import { solveHeat } from '../../src/heat/solve-heat';
import { surveys } from '../../src/testday/surveys';
import { tubeModels } from '../../src/testday/tube-model';
import { collector, project, section, tubes } from '../fixtures';

/** Surveys through the whole chain: planted in the panel, felt or read, found again. */
const bank = (over = {}) => collector([section('a', { banks: [tubes('a1', over)] })]);
const moment = {
  at: '2026-05-10T12:30',
  water_C: 25,
  air_C: 25,
  dewPoint_C: 8,
  wind_ms: 1.5,
  sky: 'clear' as const,
};
const solve = (p: ReturnType<typeof project>) => solveHeat(p, heatWeather(p, resolveMoment(p, moment)), 25);
const sound = project({ collector: bank({ count: 12 }) });
const whole = solve(sound);
const planted = [4, 9];
const sick = solve(project({ collector: bank({ count: 12, blocked: planted }) }));
const outlets = tubeOutlets(sick);
const day = (over: Partial<TestDay>): TestDay => ({ id: 'd', at: moment.at, ...over });
const find = (over: Partial<TestDay>) => surveys(sound, day(over), whole, '/testDays/0', sayIn('metric'));

function tubeOutlets(solved: typeof sick): number[] {
  return solved.flow.assembled.banks[0]!.units.map((link) => {
    const e = solved.layout.elementOf[link];
    const still = Math.abs(solved.elementFlow_kgs[e]) < 1e-7;
    return still ? solved.panel.elementStanding_C[e] : solved.panel.elementOutlet_C[e];
  });
}

describe('a tube’s answer to its flow', () => {
  it('is the panel’s own at the network’s flow, and comes to rest at its equilibrium', () => {
    for (const [i, m] of tubeModels(whole, 0).entries()) {
      const e = whole.layout.elementOf[whole.flow.assembled.banks[0]!.units[i]];
      // the model takes one heat capacity for all tubes: 1e-3 of the rise
      expect(m.outlet_C(m.networkFlow_m3s)).toBeCloseTo(whole.panel.elementOutlet_C[e], 2);
      expect(m.outlet_C(0)).toBeCloseTo(whole.panel.elementStanding_C[e], 9);
      expect(m.outlet_C(m.networkFlow_m3s / 10)).toBeGreaterThan(m.outlet_C(m.networkFlow_m3s));
      // more flow is more heat, at a cooler outlet
      expect(m.heat_W(m.networkFlow_m3s)).toBeGreaterThan(m.heat_W(m.networkFlow_m3s / 10));
    }
  });
});

describe('surveys through the whole chain', () => {
  it('by thermometer: name the planted tubes and no others, in at least 95 of 100 surveys with 0.3 K of scatter', () => {
    const random = createRandom(7);
    let right = 0;
    for (let k = 0; k < 100; k++) {
      const { mending } = find({
        tubes: outlets.map((t, i) => ({
          section: 'a',
          bank: 'a1',
          tube: i + 1,
          value_C: t + 0.3 * drawNormal(random),
        })),
      });
      if (JSON.stringify(mending[0]?.suspects) === JSON.stringify(planted)) right++;
    }
    expect(right).toBeGreaterThanOrEqual(95);
  });

  it('by hand at two levels: name them and say what mending brings', () => {
    const middle = [...outlets].sort((a, b) => a - b)[6];
    const {
      mending,
      tubes: found,
      notices,
    } = find({
      touch: outlets.map((t, i) => ({
        section: 'a',
        bank: 'a1',
        tube: i + 1,
        feel: t > middle + 8 ? 'hot' : 'cool',
      })),
    });
    expect(mending[0].suspects).toEqual(planted);
    const soundHeat = tubeModels(whole, 0).reduce((sum, m) => sum + m.heat_W(m.networkFlow_m3s), 0);
    const sickHeat = tubeModels(sick, 0).reduce((sum, m) => sum + m.heat_W(m.networkFlow_m3s), 0);
    // the loop gives the tubes left a little less water than the survey's shares say: a tenth of the gain
    expect(mending[0].gain_W / (soundHeat - sickHeat)).toBeGreaterThan(0.85);
    expect(mending[0].gain_W / (soundHeat - sickHeat)).toBeLessThan(1.15);
    for (const t of found) {
      expect(t.lower).toBeLessThanOrEqual(t.share);
      expect(t.upper).toBeGreaterThanOrEqual(t.share);
    }
    expect(notices.filter((n) => n.code === 'tube-blocked').map((n) => n.path)).toEqual([
      '/testDays/0/touch/3',
      '/testDays/0/touch/8',
    ]);
  });

  it('leave out tubes that are known to be plugged', () => {
    const p = project({ collector: bank({ count: 12, blocked: planted }) });
    const found = surveys(
      p,
      day({ touch: [{ section: 'a', bank: 'a1', tube: 1, feel: 'cool' }] }),
      sick,
      '/testDays/0',
      sayIn('us'),
    );
    expect(found.tubes.map((t) => t.tube)).toEqual([1, 2, 3, 5, 6, 7, 8, 10, 11, 12]);
  });
});
