import { drain } from '@sunlap/engine/season/year';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { describe, expect, it } from 'vitest';
import { completeOptions } from '../../src/build/options';
import { check } from '../../src/check/check';
import { leakThrough, refillHeat_J } from '../../src/check/leak';
import { sayIn } from '../../src/flow/say';
import { hottestAir_C } from '../../src/heat/hottest-air';
import { hottestDry_C } from '../../src/heat/hottest-dry';
import { mainsOf, meanAir_C } from '../../src/season/drivers';
import { createSeasonCache, studyYear } from '../../src/season/study';
import { suctionChoice } from '../../src/season/suction';
import { seasonValues } from '../../src/season/values';
import { loop, pipe, project, TEST_TABLES } from '../fixtures';

/** A skimmer whose pipe is drawn at another depth than its mouth in the pool's wall. */
const skimmer = {
  id: 'skimmer',
  kind: 'skimmer' as const,
  depth_m: 0.4,
  path: [pipe('s', 3, { pipe: 'two' })],
};
const withSuctions = (
  suctions: Project['loop']['suctions'],
  pool: Partial<Project['pool']> = {},
): Project => {
  const p = project({ loop: loop({ suctions }) });
  return { ...p, pool: { ...p.pool, ...pool } };
};

describe('a leak', () => {
  it('takes the pool down to the skimmer’s mouth, in the check and in the year alike', () => {
    const p = withSuctions([skimmer], { skimmerMouthDepth_m: 0.25 });
    const { leak } = check(p, { tables: TEST_TABLES, startUp: false }).result;
    expect(leak.levelFall_m).toBe(0.25);
    const start = startProject(usualAnswers('us'));
    const own: Project = {
      ...start,
      pool: { ...start.pool, skimmerMouthDepth_m: 0.25 },
      loop: { ...start.loop, suctions: start.loop.suctions.map((s) => ({ ...s, depth_m: 0.1 })) },
    };
    const study = drain(studyYear(own, { cache: createSeasonCache() }));
    const values = seasonValues(own, study);
    const found = suctionChoice(own, study, values, sayIn('us'));
    const one = check(own, { startUp: false, breaker: false }).result.leak;
    expect(found.suctions[0].leak_m3).toBe(one.volume_m3);
    // the fill is as warm as the mains of the year's balance
    const mains = mainsOf(own.season, meanAir_C(study.weather.series));
    const warm = values.year.pool_C.with!.high;
    expect(found.suctions[0].reheat_kWh).toBeCloseTo(refillHeat_J(one.volume_m3, warm, mains) / 3.6e6, 9);
    expect(mains).not.toBe(15);
  });

  it('takes no more than there is, however deep a drain is drawn', () => {
    const drawn = { id: 'd', kind: 'mainDrain' as const, depth_m: 40, path: [] };
    const p = withSuctions([drawn]);
    const { volume_m3, levelFall_m } = leakThrough(p, () => true);
    const flat = leakThrough(withSuctions([{ ...drawn, depth_m: p.pool.deep_m }]), () => true);
    expect(volume_m3).toBe(flat.volume_m3);
    expect(levelFall_m).toBe(p.pool.deep_m);
  });

  it('takes what lies over the lowest open suction, from the level there is', () => {
    const low = withSuctions([skimmer], { skimmerMouthDepth_m: 0.12, waterLevel_m: -0.05 });
    expect(leakThrough(low, () => true).levelFall_m).toBeCloseTo(0.07, 12);
    expect(leakThrough(low, () => false)).toMatchObject({ downTo: null, volume_m3: 0 });
  });

  it('costs the heat of the fill, none from warmer mains', () => {
    // ρ·c at 20 °C: 998.2 kg/m³ × 4184 J/kgK (IAPWS), verified
    expect(refillHeat_J(10, 26, 16)).toBeCloseTo(998.21 * 4184.1 * 100, -5);
    expect(refillHeat_J(10, 20, 25)).toBe(0);
  });
});

describe('dry tubes', () => {
  it('are as hot in the check as for the parts', () => {
    const p = startProject(usualAnswers('us'));
    for (const q of [p, { ...p, build: { ...p.build, done: [], hottest_C: 41 } }]) {
      const parts = hottestDry_C(q, completeOptions({}, q).hottest_C);
      expect(check(q, { startUp: false, breaker: false }).result.hottestDry_C).toBe(parts);
      expect(completeOptions({}, q).hottest_C).toBe(hottestAir_C(q));
    }
  });
});
