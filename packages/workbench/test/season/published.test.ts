import { synthesiseYear } from '@sunlap/engine/weather/synthesis';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { panelGeometry } from '../../src/assembly/geometry';
import { STANDARD_TABLES } from '../../src/assembly/standard-tables';
import { seasonBasic } from '../../src/season/season';
import { createSeasonCache } from '../../src/season/study';

// What came out stands in docs/validation/season.md beside what was expected.

const cache = createSeasonCache();
/** Twenty by forty feet in a temperate climate, invented rows. */
const MONTHS = [
  [5, -3],
  [7, -2],
  [12, 2],
  [18, 7],
  [23, 12],
  [28, 17],
  [31, 20],
  [30, 19],
  [26, 15],
  [19, 8],
  [13, 3],
  [7, -1],
].map(([high_C, low_C], m) => ({
  high_C,
  low_C,
  sunshine_h: [5, 6, 7, 8, 9, 10, 10, 9.5, 8.5, 7.5, 5.5, 4.5][m],
  humidity: 0.6,
  wind_ms: 3,
}));
const answers = usualAnswers('us', 38);
const place = { latitude_deg: 38, longitude_deg: answers.longitude_deg, elevation_m: 200 };
const weather = synthesiseYear({
  name: 'temperate, invented',
  place,
  utcOffset_h: -6,
  months: MONTHS,
}).series;
const SUMMER = [5, 6, 7, 8, 9];

function pool(tubes: number, passes: number, over: Partial<Project['pool']> = {}): Project {
  const project = startProject({
    ...answers,
    poolLength_m: 12.192,
    poolWidth_m: 6.096,
    tubes,
    passes,
    pumpShelf: 'single-1.5hp',
  });
  return { ...project, pool: { ...project.pool, wish_C: 27, ...over } };
}
const bare = seasonBasic(pool(20, 2), { weather, cache }).result;

describe('against what is published', () => {
  // Verified as an order of magnitude (US DOE, Energy Saver: swimming pools): of what a pool loses about 70 % goes
  // by evaporation, 20 % by radiation to the sky, 10 % otherwise. Those are of a heated outdoor pool in its season.
  it('losses share themselves like those of the US DOE', () => {
    const sum = (of: (h: (typeof bare.months)[number]['heat']['without']) => number): number =>
      SUMMER.reduce((s, m) => s + of(bare.months[m - 1].heat.without), 0);
    const evaporation = -sum((h) => h.evaporation);
    const radiation = -sum((h) => h.longWave);
    const other = -sum((h) => Math.min(0, h.convection) + Math.min(0, h.ground) + Math.min(0, h.makeUp));
    const all = evaporation + radiation + other;
    expect(evaporation / all).toBeGreaterThan(0.5);
    expect(evaporation / all).toBeLessThan(0.8);
    expect(radiation / all).toBeGreaterThan(0.15);
    expect(radiation / all).toBeLessThan(0.45);
    expect(other / all).toBeLessThan(0.2);
  });

  // Verified as an order of magnitude: 20 × 40 ft, 82 °F water, 86 °F air at 50 % in still air loses 4.5 gal/h
  // (published), a day of 108 gal; a summer's mean day of quiet and wind, warm and cool nights lies beside it.
  it('the 20 × 40 ft pool loses about a hundred gallons a day in July', () => {
    const july = bare.months[6];
    const gallons = (july.evaporated_m3.without * 264.172) / july.days;
    expect(gallons).toBeGreaterThan(60);
    expect(gallons).toBeLessThan(200);
  });

  // Common practice, no source read: unglazed collectors of half to all of the pool's area lengthen the season by
  // weeks to months and warm the pool by some kelvins.
  it('a panel of half to all of the pool’s area lengthens the season', () => {
    const added: number[] = [];
    const warmer: number[] = [];
    const share: number[] = [];
    for (const passes of [2, 4]) {
      const project = pool(36, passes);
      const { extent } = panelGeometry(project.collector, STANDARD_TABLES.sizes);
      share.push(((extent.u1_m - extent.u0_m) * (extent.v1_m - extent.v0_m)) / (12.192 * 6.096));
      const { result } = seasonBasic(project, { weather });
      added.push(result.year.swimDays.with - result.year.swimDays.without);
      warmer.push(result.months[4].pool_C.with!.mean - result.months[4].pool_C.without!.mean);
    }
    expect(share[0]).toBeCloseTo(0.5, 1);
    expect(share[1]).toBeCloseTo(1, 1);
    expect(added[0]).toBeGreaterThan(7);
    expect(added[1]).toBeGreaterThan(added[0]);
    expect(added[1]).toBeLessThan(120);
    expect(warmer[0]).toBeGreaterThan(0.5);
    expect(warmer[1]).toBeGreaterThan(warmer[0]);
    expect(warmer[1]).toBeLessThan(6);
  });

  // Common practice, no source: a screen over the pool takes about 30 % of the sun.
  it('a screen takes about 30 % of the pool’s sun', () => {
    const screened = pool(20, 2, {
      screen: {
        height_m: 3,
        margin_m: 2,
        mesh: { kind: 'woven', wires1_perM: 708.66, wires2_perM: 551.18, wireDiameter_m: 2.794e-4 },
        windLoss: 0.3,
      },
    });
    const { result } = seasonBasic(screened, { weather });
    const taken = 1 - result.year.heat.without.sun / bare.year.heat.without.sun;
    expect(taken).toBeGreaterThan(0.28);
    expect(taken).toBeLessThan(0.5);
  });
});
