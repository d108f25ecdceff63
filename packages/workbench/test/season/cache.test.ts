import { drain } from '@sunlap/engine/season/year';
import type { WeatherSeries } from '@sunlap/engine/weather/series';
import type { Project } from '@sunlap/project/schema/project';
import { startProject, usualAnswers } from '@sunlap/project/start/start-project';
import { expect, it } from 'vitest';
import { seasonWeather } from '../../src/season/site-weather';
import { createSeasonCache, type StudyChange, studyYear } from '../../src/season/study';

const base = startProject({ ...usualAnswers('us'), tubes: 12, passes: 2 });
const { placement } = base.collector;
const tree = {
  kind: 'tree' as const,
  id: 'oak',
  x_m: 2,
  y_m: -6,
  ground_m: 0,
  trunkRadius_m: 0.2,
  crownRadius_m: 3,
  crownBase_m: 2,
  height_m: 8,
  leafTransmittance: 0.2,
  bareTransmittance: 0.6,
  leafMonths: new Array<boolean>(12).fill(true),
};

/** Twenty-five days of spring. */
const whole = seasonWeather(base).series;
const [from, to] = [24 * 110, 24 * 135];
const weather: WeatherSeries = {
  ...whole,
  ...Object.fromEntries(
    Object.entries(whole).flatMap(([name, v]) =>
      v instanceof Float64Array ? [[name, v.slice(from, to)]] : [],
    ),
  ),
  start_ms: whole.start_ms + from * 3_600_000,
  length: to - from,
};

const slower: Project = { ...base, loop: { ...base.loop, pump: { ...base.loop.pump, speed: 0.6 } } };

/** One change after another, each of one thing, as a person makes them. */
const walk: [string, Project, StudyChange][] = [
  ['as it is', base, {}],
  [
    'another tilt',
    { ...base, collector: { ...base.collector, placement: { ...placement, tilt_deg: 33 } } },
    {},
  ],
  ['a slower pump', { ...base, loop: { ...base.loop, pump: { ...base.loop.pump, speed: 0.7 } } }, {}],
  ['a deeper wish', { ...base, pool: { ...base.pool, wish_C: 31 } }, {}],
  ['a cover', { ...base, season: { cover: { cover: 'foam', on: [] } } }, {}],
  ['colder mains', { ...base, season: { mains_C: 8 } }, {}],
  ['a tree', { ...base, yard: { obstacles: [tree] } }, {}],
  ['that tree felled', { ...base, yard: { obstacles: [tree] } }, { felled: 0 }],
  ['a rival of evaporation', base, { evaporation: 'carrier' }],
  ['a rival of the wind', base, { poolExposure: 0.2 }],
  ['a rival of the sky', base, { skyEmittance: 'brunt' }],
  ['other tees', base, { tees: 'ideal' }],
  ['other tees on another loop', slower, { tees: 'ideal' }],
  ['that loop', slower, {}],
  ['no collector', base, { bare: true }],
  ['as it was', base, {}],
];

// Invariant: what is kept from study to study changes no answer. Flows begun from another solution differ by the
// solver's tolerance, no more.
it('a cache that has seen everything answers as a fresh one', () => {
  const cache = createSeasonCache();
  for (const [name, project, change] of walk) {
    const kept = drain(studyYear(project, { cache, change, weather })).year;
    const fresh = drain(studyYear(project, { cache: createSeasonCache(), change, weather })).year;
    for (const which of ['with', 'without'] as const)
      kept[which].warm_Ks.forEach((warm, m) => {
        if (!(kept.month_s[m] > 0)) return;
        expect(
          Math.abs(warm - fresh[which].warm_Ks[m]) / kept.month_s[m],
          `${name}, month ${m}`,
        ).toBeLessThan(1e-5);
      });
    kept.collector.heat_J.forEach((heat, m) => {
      expect(Math.abs(heat - fresh.collector.heat_J[m]), `${name}, month ${m}`).toBeLessThan(3.6e4);
    });
    kept.collector.extraPump_J.forEach((energy, m) => {
      expect(Math.abs(energy - fresh.collector.extraPump_J[m])).toBeLessThan(3.6e3);
    });
  }
});

// Invariant: a year is what it is, whether or not somebody looks at what else was to be had.
it('brings the same to the last digit when the hours worth running are looked at', () => {
  const heat = (potential: boolean, substeps: number): number[] => {
    const { year } = drain(studyYear(base, { weather, potential, substeps }));
    return Array.from(year.collector.heat_J);
  };
  for (const cut of [1, 2]) {
    expect(heat(true, cut)).toEqual(heat(false, cut));
    expect(Math.max(...heat(true, cut))).toBeGreaterThan(0);
  }
});
